using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;

namespace JumpAnalytics;

/// <summary>A date as it was written.</summary>
/// <param name="Date">The day; null when the order of day and month is not settled.</param>
/// <param name="IsOpen">Whether it would be another day with day and month the other way round.</param>
/// <param name="IsSerial">Whether it is a spreadsheet's count of days.</param>
/// <param name="Clock">The time of day that a serial number holds behind its point; null for a whole day.</param>
internal readonly record struct WrittenDate(LocalDate? Date, bool IsOpen = false, bool IsSerial = false, LocalTime? Clock = null);

/// <summary>Dates in the forms people and spreadsheets write them.</summary>
internal static partial class WrittenDates
{
    /// <summary>Serial numbers from 1954 to 2119 in the calendar from 1900; nothing else in a column of dates has five digits.</summary>
    private const double FirstSerial = 20_000, LastSerial = 80_000;

    /// <summary>Days by which the spreadsheet calendar from 1904 is behind the one from 1900.</summary>
    private const int DaysOf1904 = 1462;

    private const int SecondsOfDay = 86_400;

    private static readonly string[] _months =
        ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

    /// <summary>The date of a text; null when it is none.</summary>
    /// <param name="text">The text, trimmed.</param>
    /// <param name="order">Which of day and month comes first, where the text leaves it open.</param>
    /// <param name="from1904">Whether serial numbers count from 1904.</param>
    public static WrittenDate? Read(string text, DayOrder order, bool from1904 = false)
    {
        if (YearFirst().Match(text) is { Success: true } iso) return Of(Day(Number(iso, 1), Number(iso, 2), Number(iso, 3)));
        if (MonthAndDay().Match(text) is { Success: true } numbers)
        {
            var (first, second, year) = (Number(numbers, 1), Number(numbers, 3), Year(numbers.Groups[4].Value));
            var (monthFirst, dayFirst) = (Day(year, first, second), Day(year, second, first));
            if (monthFirst is null || dayFirst is null || monthFirst == dayFirst)
                return Of(order == DayOrder.DayFirst ? dayFirst : order == DayOrder.MonthFirst ? monthFirst : monthFirst ?? dayFirst);
            return new WrittenDate(order switch { DayOrder.MonthFirst => monthFirst, DayOrder.DayFirst => dayFirst, _ => null },
                IsOpen: true);
        }
        if (DayAndName().Match(text) is { Success: true } named)
            return Of(Day(Year(named.Groups["y"].Value), Month(named.Groups["m"].Value), Number(named, "d")));
        return Serial(text) is { } days ? OfSerial(from1904 ? days + DaysOf1904 : days) : null;
    }

    /// <summary>The order that a text shows by itself, as 6/25/2031 does; unknown for any other.</summary>
    public static DayOrder Shown(string text)
    {
        if (MonthAndDay().Match(text) is not { Success: true } numbers) return DayOrder.Unknown;
        var (first, second, year) = (Number(numbers, 1), Number(numbers, 3), Year(numbers.Groups[4].Value));
        return (Day(year, first, second), Day(year, second, first)) switch
        {
            ({ }, null) => DayOrder.MonthFirst,
            (null, { }) => DayOrder.DayFirst,
            _ => DayOrder.Unknown,
        };
    }

    /// <summary>Whether a text leaves the order of day and month open.</summary>
    public static bool LeavesOpen(string text) => Read(text, DayOrder.Unknown) is { IsOpen: true };

    /// <summary>A number that is a spreadsheet's count of days; null for any other text.</summary>
    public static double? Serial(string text) => SerialDays().IsMatch(text)
        && double.Parse(text, CultureInfo.InvariantCulture) is >= FirstSerial and <= LastSerial and var days ? days : null;

    private static WrittenDate? Of(LocalDate? date) => date is { } day ? new WrittenDate(day) : null;

    /// <summary>Counted from 30 December 1899 the days are right from March 1900 on.</summary>
    private static WrittenDate OfSerial(double days)
    {
        var seconds = (long)Math.Round(days * SecondsOfDay);
        var clock = (int)(seconds % SecondsOfDay);
        return new WrittenDate(new LocalDate(1899, 12, 30).PlusDays((int)(seconds / SecondsOfDay)), IsSerial: true,
            Clock: clock == 0 ? null : LocalTime.FromSecondsSinceMidnight(clock));
    }

    /// <summary>Two figures as POSIX reads them: 69 to 99 of the last century, 00 to 68 of this.</summary>
    private static int Year(string text) =>
        int.Parse(text, CultureInfo.InvariantCulture) is var year && text.Length == 2 ? year + (year >= 69 ? 1900 : 2000) : year;

    private static int Month(string name) => name.Length < 3 ? 0 : name.Equals("sept", StringComparison.OrdinalIgnoreCase) ? 9
        : 1 + Array.FindIndex(_months, m => m.Equals(name, StringComparison.OrdinalIgnoreCase)
            || (name.Length == 3 && m.StartsWith(name, StringComparison.OrdinalIgnoreCase)));

    private static LocalDate? Day(int year, int month, int day) => year is >= 1900 and <= 2200 && month is >= 1 and <= 12 && day >= 1
        && day <= CalendarSystem.Iso.GetDaysInMonth(year, month) ? new LocalDate(year, month, day) : null;

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^([0-9]{4})(?:[-/.]|(?=[0-9]{4}$))([0-9]{1,2})(?:[-/.]|(?<=^[0-9]{6}))([0-9]{1,2})$")]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})$")]
    private static partial Regex MonthAndDay();

    [GeneratedRegex(@"^(?<d>[0-9]{1,2})[ .-]{0,2}(?<m>[A-Za-z]{3,9})[ .,-]{0,2}(?<y>[0-9]{4}|[0-9]{2})$"
        + @"|^(?<m>[A-Za-z]{3,9})[ .-]{1,2}(?<d>[0-9]{1,2})(?:st|nd|rd|th)?[ ,]{1,2}(?<y>[0-9]{4})$")]
    private static partial Regex DayAndName();

    [GeneratedRegex(@"^[0-9]{5}(?:\.[0-9]+)?$")]
    private static partial Regex SerialDays();
}
