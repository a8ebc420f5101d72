using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// How the numbers of a table write their decimals, column by column. A comma is the decimal mark of a column when at least one of its
/// numbers can't be thousands (<c>12,5</c>) and none has a point that can't be; where all could be thousands (<c>1,234</c>), nothing is
/// guessed. In a table that writes decimals with a comma anywhere, a number such as <c>1.234</c> may be thousands and is not read either.
/// </summary>
internal sealed partial class DecimalCommas
{
    private readonly List<ColumnMarks> _columns = [];

    /// <summary>Numbers with a comma and with a point, and those among them whose mark can't part thousands.</summary>
    private record struct ColumnMarks(int Commas, int ClearCommas, int Points, int ClearPoints);

    /// <summary>Takes note of a row.</summary>
    public void Add(IReadOnlyList<string> fields)
    {
        while (_columns.Count < fields.Count) _columns.Add(default);
        for (var i = 0; i < fields.Count; i++)
        {
            var (text, c) = (fields[i].Trim(), _columns[i]);
            if (WithComma().IsMatch(text))
                _columns[i] = c with { Commas = c.Commas + 1, ClearCommas = c.ClearCommas + (Thousands().IsMatch(text) ? 0 : 1) };
            else if (WithPoint().IsMatch(text))
                _columns[i] = c with { Points = c.Points + 1, ClearPoints = c.ClearPoints + (Thousands().IsMatch(text) ? 0 : 1) };
        }
    }

    /// <summary>The columns whose commas are decimal.</summary>
    public IReadOnlySet<int> Decimal => Where(c => c.ClearCommas > 0 && c.ClearPoints == 0);

    /// <summary>The columns in which a number whose point may part thousands is not read.</summary>
    public IReadOnlySet<int> UnreadPoints =>
        _columns.Exists(c => c.ClearCommas > 0) ? Where(c => c.Points > 0 && (c.ClearPoints == 0 || c.Commas > 0)) : new HashSet<int>();

    /// <summary>What to say of the columns with commas in their numbers.</summary>
    public IEnumerable<string> Remarks(IReadOnlyList<string> header)
    {
        if (Names(Decimal) is { Length: > 0 } read) yield return $"decimal commas were read as decimal points in {read}";
        if (Names(Where(c => c.Commas > 0 && c.ClearCommas == 0 && c.Points == 0)) is { Length: > 0 } unclear)
            yield return $"commas in {unclear} may part thousands or decimals, so those numbers were not read: write them without "
                + "thousands and with a decimal point";
        if (Names(UnreadPoints.Where(i => _columns[i].ClearPoints == 0)) is { Length: > 0 } thousands)
            yield return $"points in {thousands} may part thousands, for the file writes decimals with a comma, so those numbers were not "
                + "read: write them without thousands";
        if (Names(Where(c => c.Commas > 0 && c.ClearPoints > 0)) is { Length: > 0 } mixed)
            yield return $"{mixed} has numbers with commas and numbers with points, so those with commas were not read";

        string Names(IEnumerable<int> columns) => string.Join(", ", columns.Where(i => i < header.Count).Order().Select(i => header[i]));
    }

    /// <summary>Whether the mark of a number may part thousands: three digits behind it, one to three before.</summary>
    public static bool MayBeThousands(string text) => Thousands().IsMatch(text);

    private HashSet<int> Where(Predicate<ColumnMarks> has) => [.. Enumerable.Range(0, _columns.Count).Where(i => has(_columns[i]))];

    [GeneratedRegex(@"^[+-]?[0-9]*,[0-9]+$")]
    private static partial Regex WithComma();

    [GeneratedRegex(@"^[+-]?[1-9][0-9]{0,2}[,.][0-9]{3}$")]
    private static partial Regex Thousands();

    [GeneratedRegex(@"^[+-]?[0-9]*\.[0-9]+$")]
    private static partial Regex WithPoint();
}
