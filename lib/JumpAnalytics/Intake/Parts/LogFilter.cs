using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>Reads the conditions of a filter, <c>column=value|value, column&gt;=number</c>.</summary>
internal static partial class LogFilter
{
    /// <exception cref="ArgumentException">A condition is not of this form, or its column is none that a log can be cut by.</exception>
    public static IReadOnlyList<LogCondition> Parse(string filter) => [.. filter.Split(',', StringSplitOptions.TrimEntries).Select(One)];

    private static LogCondition One(string text)
    {
        if (Form().Match(text) is not { Success: true } form)
        {
            throw new ArgumentException($"'{text}' is no condition: write column=value, several values as column=one|other, "
                + "and numbers also with !=, >=, <=, > or <; conditions are parted by commas.");
        }
        var (column, comparison, value) =
            (FilterColumn.Named(form.Groups["column"].Value), form.Groups["comparison"].Value, form.Groups["value"].Value);
        return new LogCondition(column, comparison, [.. value.Split('|', StringSplitOptions.TrimEntries)]);
    }

    [GeneratedRegex(@"^(?<column>\w+)\s*(?<comparison>>=|<=|!=|=|>|<)\s*(?<value>[^=<>\s].*)$")]
    private static partial Regex Form();

    /// <summary>The name that a word was most likely meant to be; null when none is near.</summary>
    public static string? Nearest(string word, IEnumerable<string> names)
    {
        var lower = word.ToLowerInvariant();
        return names.Select(n => (Name: n, Slips: HeaderMap.EditDistance(n.ToLowerInvariant(), lower)))
            .Where(n => n.Slips <= Math.Max(1, word.Length / 3)
                || (word.Length > 2 && n.Name.Contains(word, StringComparison.OrdinalIgnoreCase)))
            .OrderBy(n => n.Slips).ThenBy(n => n.Name, StringComparer.Ordinal).Select(n => n.Name).FirstOrDefault();
    }
}
