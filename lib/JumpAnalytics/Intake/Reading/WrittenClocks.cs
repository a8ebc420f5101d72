using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;

namespace JumpAnalytics;

/// <summary>A time of day as it was written.</summary>
/// <param name="Time">The time; null when it may be morning or afternoon.</param>
/// <param name="IsHalfDay">Whether it may be of a clock of twelve hours: one figure for the hour, and neither AM nor PM.</param>
internal readonly record struct WrittenClock(LocalTime? Time, bool IsHalfDay = false);

/// <summary>Times of day in the forms people and spreadsheets write them: 14:20, 1420, 2:20 PM, the fraction of a day.</summary>
internal static partial class WrittenClocks
{
    /// <summary>The time of a text; null when it is none.</summary>
    /// <param name="text">The text, trimmed.</param>
    /// <param name="isOf24Hours">Whether the column goes beyond 12 and so is of a clock of 24 hours.</param>
    public static WrittenClock? Read(string text, bool isOf24Hours)
    {
        if (Colons().Match(text) is { Success: true } clock)
        {
            var (hour, minute) = (Number(clock, "h"), Number(clock, "m"));
            var second = clock.Groups["s"].Success ? Number(clock, "s") : 0;
            if (minute > 59 || second > 59) return null;
            if (clock.Groups["half"].Value is { Length: > 0 } half)
                return hour is < 1 or > 12 ? null : At(hour % 12 + (half is "p" or "P" ? 12 : 0), minute, second);
            if (hour > 23) return null;
            return clock.Groups["h"].Length == 1 && hour > 0 && !isOf24Hours
                ? new WrittenClock(null, IsHalfDay: true) : At(hour, minute, second);
        }
        if (HourAlone().Match(text) is { Success: true } alone)
            return Number(alone, "h") is >= 1 and <= 12 and var h
                ? At(h % 12 + (alone.Groups["half"].Value is "p" or "P" ? 12 : 0), 0, 0) : null;
        if (Figures().Match(text) is { Success: true } figures)
            return Number(figures, "h") is <= 23 and var h && Number(figures, "m") is <= 59 and var m ? At(h, m, 0) : null;
        if (!Fraction().IsMatch(text)) return null;
        var seconds = (int)Math.Round(double.Parse(text, CultureInfo.InvariantCulture) * 86_400);
        return seconds is > 0 and < 86_400 ? new WrittenClock(LocalTime.FromSecondsSinceMidnight(seconds)) : null;
    }

    /// <summary>Whether a text goes beyond 12 hours, so that its column is of a clock of 24.</summary>
    public static bool IsBeyondTwelve(string text) =>
        Colons().Match(text) is { Success: true } clock && !clock.Groups["half"].Success && Number(clock, "h") is > 12 and < 24;

    private static WrittenClock At(int hour, int minute, int second) => new(new LocalTime(hour, minute, second));

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?<h>[0-9]{1,2}):(?<m>[0-9]{2})(?::(?<s>[0-9]{2})(?:\.[0-9]+)?)?(?: ?(?<half>[AaPp])\.?[Mm]\.?)?$")]
    private static partial Regex Colons();

    [GeneratedRegex(@"^(?<h>[0-9]{1,2}) ?(?<half>[AaPp])\.?[Mm]\.?$")]
    private static partial Regex HourAlone();

    [GeneratedRegex(@"^(?<h>[0-9]{1,2})(?<m>[0-9]{2})(?: ?(?:h|hrs?|hours|L))?$")]
    private static partial Regex Figures();

    [GeneratedRegex(@"^0?\.[0-9]+(?:[Ee]-[0-9]+)?$")]
    private static partial Regex Fraction();
}
