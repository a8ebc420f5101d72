using System.Text.RegularExpressions;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Texts that a spreadsheet would run as a formula. In a file they get one apostrophe in front, which makes them text; a plain number
/// such as -116.3 is left alone. Taking the apostrophe off again gives exactly the text that was there.
/// </summary>
internal static partial class SpreadsheetText
{
    /// <summary>The text as it is written to a file: with an apostrophe before it when it begins like a formula.</summary>
    public static string Guard(string text) => Dangerous().IsMatch(text) && !PlainNumber().IsMatch(text) ? "'" + text : text;

    /// <summary>The text that <see cref="Guard"/> was given.</summary>
    public static string Unguard(string text) => text.Length > 1 && text[0] == '\'' && Dangerous().IsMatch(text) ? text[1..] : text;

    /// <summary>
    /// Apostrophes count as well, so that a text which already has one in front of a formula can be told from one that was given it.
    /// </summary>
    [GeneratedRegex(@"\A'*[=+\-@\t\r\n]")]
    private static partial Regex Dangerous();

    [GeneratedRegex(@"\A[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?\z")]
    private static partial Regex PlainNumber();
}
