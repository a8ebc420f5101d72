using System.Text;

namespace JumpAnalytics;

/// <summary>
/// The one form of a person's code or name: Unicode's compatibility composition (NFKC), capitals, blanks at the ends dropped and runs of
/// blanks made one. So <c>j 27</c>, <c>J  27</c> and full-width letters are one person, <c>J27</c> and <c>J-27</c> are two.
/// </summary>
internal static class PersonName
{
    /// <exception cref="NotSupportedException">
    /// The name has letters whose form this system can't tell for want of Unicode's tables; it is not quoted.
    /// </exception>
    public static string Normal(string name)
    {
        var text = name.All(IsItsOwnForm) ? Narrow(name) : Composed(name);
        return string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();
    }

    /// <summary>The normal form, or null where this system can't tell it.</summary>
    public static string? TryNormal(string name)
    {
        try
        {
            return Normal(name);
        }
        catch (NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>
    /// Letters that NFKC leaves alone wherever they stand (composed Latin of Europe and Vietnam, Greek, Cyrillic, Chinese,
    /// Japanese, Korean), blanks, and full-width ASCII, which needs no table. For them every system gives the same code, also
    /// one without Unicode's tables.
    /// </summary>
    private static bool IsItsOwnForm(char c) => c is >= ' ' and <= '~' or >= 'À' and <= 'ſ' and not ('Ĳ' or 'ĳ' or 'Ŀ' or 'ŀ' or 'ŉ' or 'ſ')
        or >= 'Ά' and <= 'ώ' and not '\u0387' or >= 'Ѐ' and <= 'џ' or >= '\u1EA0' and <= '\u1EF9'
        or >= '\u3041' and <= '\u3096' or >= '\u30A1' and <= '\u30FA' or >= '\u4E00' and <= '\u9FFF' or >= '\uAC00' and <= '\uD7A3'
        or '\u00A0' or '\u3000' or '\t' || IsFullWidth(c);

    private static bool IsFullWidth(char c) => c is >= '！' and <= '～';

    private static string Narrow(string text) => string.Concat(text.Select(c => IsFullWidth(c) ? (char)(c - '！' + '!') : c));

    private static string Composed(string text)
    {
        const string probe = "\uFB01e\u0301"; // the ligature fi, and an e with its accent apart
        if (probe.Normalize(NormalizationForm.FormKC) != "fi\u00E9")
        {
            throw new NotSupportedException("A person's code has letters whose form can't be told here: this system "
                + "runs without Unicode's tables (globalization-invariant mode), and the code would differ from that of another system. "
                + "Write people's codes in plain letters and digits, or run where the tables (ICU) are.");
        }
        try
        {
            return text.Normalize(NormalizationForm.FormKC);
        }
        catch (ArgumentException)
        {
            throw new NotSupportedException("A person's code holds half a letter (an unpaired surrogate). "
                + "Write people's codes in plain letters and digits.");
        }
    }
}
