using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>A number in words when nothing is known of its unit.</summary>
internal static class ResultText
{
    /// <summary>A number of an interval to two digits of the interval's width.</summary>
    public static string Number(double value, Interval range)
    {
        var width = range.High - range.Low;
        if (!(width > 0) || !double.IsFinite(width) || Math.Log10(width) is < -6 or > 5) return Number(value);
        return value.ToString("F" + Math.Max(0, 1 - (int)Math.Floor(Math.Log10(width))), CultureInfo.InvariantCulture).Replace('-', '−');
    }

    /// <summary>Five digits; no exponent for numbers that a reader can count.</summary>
    public static string Number(double value) =>
        Math.Abs(value) is >= 1e5 and < 1e15 ? value.ToString("#,0", CultureInfo.InvariantCulture).Replace('-', '−')
            : value.ToString("G5", CultureInfo.InvariantCulture).Replace('-', '−');
}
