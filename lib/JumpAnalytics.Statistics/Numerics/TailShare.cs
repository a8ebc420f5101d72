namespace JumpAnalytics.Statistics;

/// <summary>
/// Where a quantile is asked for: the share of a distribution below it and the share above it, each with its logarithm, so that neither
/// loses its digits where the other is near 1.
/// </summary>
internal readonly record struct TailShare
{
    private TailShare(double logBelow, double logAbove) => (LogBelow, LogAbove) = (logBelow, logAbove);

    /// <summary>Natural logarithm of the share below; minus infinity at the lower end of the distribution.</summary>
    public double LogBelow { get; }

    /// <summary>Natural logarithm of the share above; minus infinity at the upper end.</summary>
    public double LogAbove { get; }

    /// <summary>Whether the upper tail is the smaller one.</summary>
    public bool IsUpper => LogAbove < LogBelow;

    /// <summary>Natural logarithm of the smaller tail.</summary>
    public double LogLesser => Math.Min(LogBelow, LogAbove);

    /// <summary>The same tail on the other side.</summary>
    public TailShare Opposite => new(LogAbove, LogBelow);

    /// <summary>A share below, from 0 to 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a share.</exception>
    public static TailShare Below(double share)
    {
        Guard.Probability(share);
        return new TailShare(Math.Log(share), share < 1 ? Kernels.Log1p(-share) : double.NegativeInfinity);
    }

    /// <inheritdoc cref="Below"/>
    /// <summary>A share above, from 0 to 1.</summary>
    public static TailShare Above(double share) => Below(share).Opposite;

    /// <summary>The upper end of the middle share of a distribution, as much left out on either side.</summary>
    /// <param name="confidence">The middle share, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public static TailShare Middle(double confidence) => Above((1 - Guard.Confidence(confidence)) / 2);

    /// <summary>A share below by its logarithm, zero or less, which may be below that of the least double.</summary>
    public static TailShare OfLogBelow(double log) => new(log, Kernels.LogOfRestOfExp(log));

    /// <summary>A share above by its logarithm.</summary>
    public static TailShare OfLogAbove(double log) => OfLogBelow(log).Opposite;
}
