using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Text from records as a reader may safely see it: what acts on a screen without being seen on it is written out, for instance the
/// right-to-left override as <c>‹U+202E›</c>. Line feeds and tabs stay.
/// </summary>
internal static partial class VisibleText
{
    /// <summary>The text with control characters, direction marks, invisible letters and broken surrogates written out.</summary>
    public static string Of(string text)
    {
        if (!Suspect().IsMatch(text)) return text;
        var visible = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            if (char.IsSurrogatePair(text, i))
            {
                // Tags and variation selectors: text that can't be seen.
                var isTag = char.ConvertToUtf32(text, i) is >= 0xE0000 and <= 0xE0FFF;
                if (isTag) visible.Append(CultureInfo.InvariantCulture, $"‹U+{char.ConvertToUtf32(text, i):X4}›");
                else visible.Append(text, i, 2);
                i++;
            }
            else if (IsHidden(text[i]))
            {
                visible.Append(CultureInfo.InvariantCulture, $"‹U+{(int)text[i]:X4}›");
            }
            else
            {
                visible.Append(text[i]);
            }
        }
        return visible.ToString();
    }

    /// <summary>
    /// For terminals: without their escape sequences (colours, cursor moves, titles, links), the rest as <see cref="Of"/> has it.
    /// </summary>
    public static string WithoutSequences(string text) => Of(Sequence().Replace(text, ""));

    private static bool IsHidden(char c) => c is not ('\n' or '\t')
        && (char.IsControl(c) || char.IsSurrogate(c) || c is '\u2028' or '\u2029' || char.GetUnicodeCategory(c) == UnicodeCategory.Format);

    [GeneratedRegex(@"[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029-[\n\t]]")]
    private static partial Regex Suspect();

    /// <summary>
    /// ECMA-48: control sequences, strings up to their terminator (unfinished ones up to the end of the line), and two-letter escapes.
    /// </summary>
    [GeneratedRegex(@"(\u001B\[|\u009B)[0-?]*[ "
        + @"-/]*[@-~]|(\u001B[\]PX^_]|[\u0090\u0098\u009D-\u009F])[^\u0007\u001B\u009C\n]*(\u0007|\u001B\\|\u009C)?|\u001B[ -/]*[0-~]")]
    private static partial Regex Sequence();
}
