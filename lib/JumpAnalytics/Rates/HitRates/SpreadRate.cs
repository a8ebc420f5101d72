namespace JumpAnalytics;

/// <summary>
/// The landing rate with distances spread over what they were rounded to, beside the rate as written: a landing written down on the target
/// radius is a hit by definition, though half of what rounds to it lies outside.
/// </summary>
/// <remarks>
/// Rate: mean of <see cref="WrittenSteps.Inside"/>. Interval: that of the counted rate with its design effect at the spread rate. Spreading
/// takes away part of the scatter between missions that this design effect holds, which leaves room for the error of the spreading itself;
/// coverage is measured by a test.
/// </remarks>
/// <param name="Written">The counted rate.</param>
/// <param name="Rate">The rate with distances spread, with its interval.</param>
/// <param name="Rounded">Landings that were spread.</param>
/// <param name="OnTheRadius">Hits written down exactly on their target radius.</param>
[TypeFormatterSource]
public sealed record SpreadRate(ClusteredProportion Written, Estimate Rate, int Rounded, int OnTheRadius)
{
    /// <summary>The spread rate of landings, or null where no distance was rounded or no landing can be counted.</summary>
    internal static SpreadRate? Of(IReadOnlyList<Landing> landings, WrittenSteps steps, Fit<ClusteredProportion> counted, double confidence)
    {
        var rounded = landings.Count(l => steps.StepOf(l) > 0);
        if (rounded == 0 || counted.Value is not { } written) return null;
        var rate = Math.Clamp(landings.Sum(l => steps.Inside(l, l.Drop.TargetRadius) ?? 0) / written.Landings, 0, 1);
        return new SpreadRate(written,
            written.IntervalAt(rate, written.Landings, confidence) is { } range ? Estimate.Of(rate, range)
                : Estimate.WithoutRange(rate, written.Rate.WhyNoRange ?? "no interval"),
            rounded, landings.Count(l => l.IsOnTheRadius));
    }
}
