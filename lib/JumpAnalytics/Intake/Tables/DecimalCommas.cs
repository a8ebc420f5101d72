using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// Which columns of a table write decimals with a comma. A column does when every number with a mark has a comma and at least one can't be
/// thousands; where all of them could be (<c>1,234</c>), nothing is guessed.
/// </summary>
internal sealed partial class DecimalCommas
{
    private readonly List<(int Commas, int Clear, int Points)> _columns = [];

    /// <summary>Takes note of a row.</summary>
    public void Add(IReadOnlyList<string> fields)
    {
        while (_columns.Count < fields.Count) _columns.Add(default);
        for (var i = 0; i < fields.Count; i++)
        {
            var text = fields[i].Trim();
            var (commas, clear, points) = _columns[i];
            if (WithComma().IsMatch(text)) _columns[i] = (commas + 1, clear + (Thousands().IsMatch(text) ? 0 : 1), points);
            else if (WithPoint().IsMatch(text)) _columns[i] = (commas, clear, points + 1);
        }
    }

    /// <summary>The columns whose commas are decimal.</summary>
    public IReadOnlySet<int> Decimal => Where(c => c.Clear > 0 && c.Points == 0);

    /// <summary>What to say of the columns with commas in their numbers.</summary>
    public IEnumerable<string> Remarks(IReadOnlyList<string> header)
    {
        if (Names(Decimal) is { Length: > 0 } read) yield return $"decimal commas were read as decimal points in {read}";
        if (Names(Where(c => c.Commas > 0 && c.Clear == 0 && c.Points == 0)) is { Length: > 0 } unclear)
            yield return $"commas in {unclear} may part thousands or decimals, so those numbers were not read: write them without thousands and with a decimal point";
        if (Names(Where(c => c.Commas > 0 && c.Points > 0)) is { Length: > 0 } mixed)
            yield return $"{mixed} has numbers with commas and numbers with points, so those with commas were not read";

        string Names(IEnumerable<int> columns) => string.Join(", ", columns.Where(i => i < header.Count).Order().Select(i => header[i]));
    }

    private HashSet<int> Where(Predicate<(int Commas, int Clear, int Points)> has) =>
        [.. Enumerable.Range(0, _columns.Count).Where(i => has(_columns[i]))];

    [GeneratedRegex(@"^[+-]?[0-9]*,[0-9]+$")]
    private static partial Regex WithComma();

    [GeneratedRegex(@"^[+-]?[1-9][0-9]{0,2},[0-9]{3}$")]
    private static partial Regex Thousands();

    [GeneratedRegex(@"^[+-]?[0-9]*\.[0-9]+$")]
    private static partial Regex WithPoint();
}
