using System.Globalization;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// Refused rows that are no records at all: totals, comments, headers that a page break repeats. Only a row that was refused anyway is
/// looked at, and one that may be a record with something missing stays refused: it may stand for a landing.
/// </summary>
internal static partial class NoRecord
{
    /// <summary>Columns below which this is not looked for: a short row of a small table may be a record.</summary>
    private const int FewestColumns = 3;

    /// <summary>Columns in which a text alone may be all that is known of a jumper's landing, or of a pass.</summary>
    private static readonly HashSet<LogColumn> _ofPeople =
    [
        LogColumns.Jumper, LogColumns.Spotter, LogColumns.Remarks, LogColumns.HungUp, LogColumns.Canopy, LogColumns.MeasuredBy,
        LogColumns.Track, LogColumns.Injured,
    ];

    /// <summary>What kind of row it is; null when it may be a record.</summary>
    /// <param name="row">A row that was refused, or that nobody has read yet.</param>
    /// <param name="header">The headers of its table.</param>
    /// <param name="columns">The columns that are bound to quantities.</param>
    /// <param name="isId">Whether a text is the id of a drop, or looks like those there are.</param>
    public static string? KindOf(RawRow row, IReadOnlyList<string> header, IReadOnlyList<BoundColumn> columns, Func<string, bool> isId)
    {
        if (row.QuoteTrouble is not null || header.Count < FewestColumns) return null;
        var filled = row.Fields.Select((text, at) => (At: at, Text: text.Trim())).Where(f => f.Text.Length > 0).ToList();
        if (filled.Count == 0) return null;
        if (filled.Count >= FewestColumns && filled.TrueForAll(f => f.At < header.Count
            && f.Text.Equals(header[f.At].Trim(), StringComparison.OrdinalIgnoreCase))) return "headers again";
        var id = columns.FirstOrDefault(c => c.Column == LogColumns.DropId)?.Written(row) ?? "";
        if (id.Length > 0 && isId(id)) return null;
        var (first, rest) = (filled[0], filled.Skip(1).ToList());
        if (Totals().IsMatch(first.Text) && (id.Length == 0 || id == first.Text) && rest.TrueForAll(f => IsNumber(f.Text))) return "totals";
        // One field, or a label and one; a row with more may be a record.
        var isComment = (rest.Count == 0 || (rest.Count == 1 && first.Text.EndsWith(':') && !IsNumber(rest[0].Text)))
            && Comment().IsMatch(first.Text) && !filled.Exists(f => columns.Any(c => c.Index == f.At && _ofPeople.Contains(c.Column)));
        return isComment ? "comment" : null;
    }

    /// <summary>Letters and figures of an id in short, so that ids that are made alike are alike: <c>Pass 12</c> is <c>a 9</c>.</summary>
    public static string ShapeOf(string id) => Letters().Replace(Figures().Replace(id, "9"), "a");

    /// <summary>A number, or the error a spreadsheet shows in its place.</summary>
    private static bool IsNumber(string text) => text[0] == '#' && text.Length > 1 && char.IsAsciiLetterUpper(text[1])
        || double.TryParse(text.TrimEnd('%'), NumberStyles.Float | NumberStyles.AllowThousands, CultureInfo.InvariantCulture, out _)
        || Enum.GetValues<ColumnKind>().Any(k => FieldUnit.Of(k, text) is not null);

    [GeneratedRegex(@"^(?:season |monthly |grand |sub-?)?(?:totals?|sums?|averages?|avg|means?|medians?|count|minimum|maximum|min|max)\b",
        RegexOptions.IgnoreCase)]
    private static partial Regex Totals();

    /// <summary>A mark of a comment, several words, or a label that ends in a colon.</summary>
    [GeneratedRegex(@"^[#*/;!]|^--|\S\s+\S|:$")]
    private static partial Regex Comment();

    [GeneratedRegex(@"\p{L}+")]
    private static partial Regex Letters();

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Figures();
}
