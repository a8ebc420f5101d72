using System.Text;

namespace JumpAnalytics;

/// <summary>File names of cards: lower-case letters, digits and hyphens, each once.</summary>
internal sealed class CardFiles
{
    private readonly HashSet<string> _taken = new(StringComparer.Ordinal);

    /// <summary>The name of the file for a place.</summary>
    public string For(string place)
    {
        var plain = Plain(place);
        var name = plain;
        for (var i = 2; !_taken.Add(name); i++) name = $"{plain}-{i}";
        return $"margin-card-{name}.html";
    }

    private static string Plain(string place)
    {
        var plain = new StringBuilder();
        foreach (var c in place.ToLowerInvariant())
        {
            if (char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c)) plain.Append(c);
            else if (plain.Length > 0 && plain[^1] != '-') plain.Append('-');
        }
        return plain.ToString().Trim('-') is { Length: > 0 } text ? text[..Math.Min(text.Length, 60)] : "base";
    }
}
