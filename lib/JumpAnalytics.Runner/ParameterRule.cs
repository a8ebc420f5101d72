using System.Globalization;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Runner;

/// <summary>
/// What the help of a parameter allows, so that a wrong value is refused before a notebook starts: <c>…: m, ft or yd</c> at its end allows
/// these words, <c>between 0 and 1</c> the numbers between, <c>rising from 0</c> a list such as <c>0,5,10</c>. The notebook checks again.
/// </summary>
internal static partial class ParameterRule
{
    /// <summary>What is wrong with a typed value; null when nothing is, or the help says nothing.</summary>
    public static string? Fault(string help, string typed)
    {
        if (Words().Match(help) is { Success: true } words)
        {
            List<string> allowed = [.. words.Groups["word"].Captures.Select(w => w.Value)];
            return allowed.Contains(typed.Trim(), StringComparer.OrdinalIgnoreCase) ? null
                : $"is none of {string.Join(", ", allowed)}";
        }
        if (Between().Match(help) is { Success: true } between)
        {
            var (low, high) = (Number(between.Groups["low"].Value), Number(between.Groups["high"].Value));
            return Number(typed) is { } value && value > low && value < high ? null
                : $"is not between {between.Groups["low"].Value} and {between.Groups["high"].Value}";
        }
        if (Rising().Match(help) is { Success: true } rising)
        {
            List<double?> numbers = [.. typed.Split(',').Select(Number)];
            return numbers[0] >= Number(rising.Groups["low"].Value) && numbers.Zip(numbers.Skip(1)).All(n => n.Second > n.First) ? null
                : $"is not a list of rising numbers from {rising.Groups["low"].Value}, such as 0,5,10";
        }
        return null;
    }

    private static double? Number(string text) =>
        double.TryParse(text.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value : null;

    [GeneratedRegex(@": (?:(?<word>[a-z]{1,12}), )*(?<word>[a-z]{1,12}) or (?<word>[a-z]{1,12})$")]
    private static partial Regex Words();

    [GeneratedRegex(@"\bbetween (?<low>[0-9.]+) and (?<high>[0-9.]+)")]
    private static partial Regex Between();

    [GeneratedRegex(@"\brising from (?<low>[0-9.]+)")]
    private static partial Regex Rising();
}
