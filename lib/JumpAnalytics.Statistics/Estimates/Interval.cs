namespace JumpAnalytics.Statistics;

/// <summary>A confidence interval. The default value is the single point 0.</summary>
/// <param name="Low">Lower limit.</param>
/// <param name="High">Upper limit.</param>
[TypeFormatterSource]
public readonly record struct Interval(double Low, double High)
{
    /// <summary>Whether a value lies in the interval, limits included.</summary>
    /// <param name="value">The value asked for.</param>
    public bool Contains(double value) => Low <= value && value <= High;

    /// <summary>In words.</summary>
    public override string ToString() => $"{ResultText.Number(Low, this)} to {ResultText.Number(High, this)}";
}

/// <summary>A number with its uncertainty, or the reason why it has none.</summary>
[TypeFormatterSource]
public sealed record Estimate
{
    private Estimate(double value, Interval? range, string? whyNoRange) => (Value, Range, WhyNoRange) = (value, range, whyNoRange);

    /// <summary>The number.</summary>
    public double Value { get; }

    /// <summary>Its confidence interval; null when none can be given.</summary>
    public Interval? Range { get; }

    /// <summary>Why there is no interval; null when there is one.</summary>
    public string? WhyNoRange { get; }

    /// <summary>A number with its interval.</summary>
    public static Estimate Of(double value, Interval range) => new(value, range, null);

    /// <summary>A number for which no interval can be given.</summary>
    public static Estimate WithoutRange(double value, string why) => new(value, null, why);

    /// <summary>In words: the number with its interval, or why it has none.</summary>
    public override string ToString() =>
        Range is { } r ? $"{ResultText.Number(Value, r)} ({r})" : $"{ResultText.Number(Value)} (no interval: {WhyNoRange})";

    /// <summary>The same number and interval in another unit or sign.</summary>
    /// <param name="convert">A rising function.</param>
    internal Estimate Select(Func<double, double> convert) =>
        new(convert(Value), Range is { } r ? new Interval(convert(r.Low), convert(r.High)) : null, WhyNoRange);
}
