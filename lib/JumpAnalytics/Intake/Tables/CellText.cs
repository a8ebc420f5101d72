using System.Globalization;

namespace JumpAnalytics;

/// <summary>Typed values of workbooks, Parquet and JSON as the text a log is written in.</summary>
internal static class CellText
{
    /// <summary>The shortest digits that read back as the same number.</summary>
    public static string Of(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    public static string Of(bool value) => value ? "yes" : "no";

    /// <summary>ISO 8601; a time of UTC ends in Z, any other has no offset.</summary>
    public static string Of(DateTime value) =>
        value.ToString(value.Ticks % TimeSpan.TicksPerMinute == 0 ? "yyyy-MM-dd'T'HH:mm" : "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF",
            CultureInfo.InvariantCulture)
        + (value.Kind == DateTimeKind.Utc ? "Z" : "");

    /// <summary>Any value a file may hold; empty for none.</summary>
    public static string Of(object? value) => value switch
    {
        null => "",
        double number => Of(number),
        bool yes => Of(yes),
        DateTime time => Of(time),
        DateOnly date => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };
}
