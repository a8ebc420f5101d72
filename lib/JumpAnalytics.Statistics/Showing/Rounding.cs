using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>Numbers as a reader should see them: no more digits than the uncertainty supports.</summary>
internal static class Rounding
{
    /// <summary>
    /// Decimals that keep the first digit of the half width of an interval, and one more where a limit near zero would lose its sign.
    /// </summary>
    public static int Decimals(Interval range)
    {
        var half = (range.High - range.Low) / 2;
        if (!(half > 0) || !double.IsFinite(half)) return 0;
        var decimals = Math.Clamp(-(int)Math.Floor(Math.Log10(half)), 0, 4);
        return decimals < 4 && (Vanishes(range.Low) || Vanishes(range.High)) ? decimals + 1 : decimals;

        bool Vanishes(double limit) => limit != 0 && Math.Round(limit, decimals, MidpointRounding.AwayFromZero) == 0;
    }

    /// <summary>A share as percent: <c>82 %</c>.</summary>
    public static string Percent(double share, int decimals = 0) => Fixed(100 * share, decimals) + " %";

    /// <summary>An estimate of a share: <c>82 % (77 to 86 %)</c>.</summary>
    public static string Percent(Estimate share)
    {
        if (share.Range is not { } range) return Percent(share.Value);
        var decimals = Decimals(new Interval(100 * range.Low, 100 * range.High));
        return $"{Percent(share.Value, decimals)} ({Fixed(100 * range.Low, decimals)} to {Percent(range.High, decimals)})";
    }

    /// <summary>A probability as percent, never certain and never impossible: <c>15 %</c>, <c>below 0.1 %</c>.</summary>
    public static string Chance(double probability) => probability switch
    {
        < 0.001 => "below 0.1 %",
        > 0.999 => "above 99.9 %",
        _ => Percent(probability, probability is < 0.05 or > 0.95 ? 1 : 0),
    };

    /// <summary>A p-value: <c>0.032</c>, <c>below 0.001</c>.</summary>
    public static string PValue(double p) => p < 0.001 ? "below 0.001" : Fixed(p, 3);

    /// <summary>A difference of shares in points: <c>−2 (−7 to +3)</c>.</summary>
    public static string Points(Estimate change) => Number(change.Select(share => 100 * share), signed: true);

    /// <summary>An estimate in a unit: <c>24 (21 to 27)</c>.</summary>
    public static string Number(Estimate value, bool signed = false)
    {
        var show = (double x, int d) => signed ? Signed(x, d) : Fixed(x, d);
        if (value.Range is not { } range) return show(value.Value, 0);
        var decimals = Decimals(range);
        return $"{show(value.Value, decimals)} ({show(range.Low, decimals)} to {show(range.High, decimals)})";
    }

    /// <summary>A count with a comma between thousands: <c>1,430</c>.</summary>
    public static string Count(long n) => n.ToString("#,0", CultureInfo.InvariantCulture);

    /// <summary>A count with its noun: <c>1 point</c>, <c>12 points</c>.</summary>
    public static string Count(long n, string noun) => $"{Count(n)} {noun}{(n == 1 ? "" : "s")}";

    /// <summary>A number with fixed decimals and never a negative zero.</summary>
    public static string Fixed(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("#,0." + new string('0', decimals), CultureInfo.InvariantCulture).Replace('-', '−');
    }

    /// <summary>A text as it begins a sentence.</summary>
    public static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>A setting as it was typed: up to two decimals, none that say nothing.</summary>
    public static string Short(double value) =>
        Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture).Replace('-', '−');

    private static string Signed(double value, int decimals)
    {
        var text = Fixed(value, decimals);
        return text.StartsWith('−') || Math.Round(value, decimals, MidpointRounding.AwayFromZero) == 0 ? text : "+" + text;
    }
}
