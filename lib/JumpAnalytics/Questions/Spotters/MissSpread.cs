namespace JumpAnalytics;

/// <summary>How far misses scatter.</summary>
/// <remarks>
/// Intervals: missions resampled, widened percentiles (<see cref="BootstrapMethod.WidenedPercentile"/>). A landing known only as beyond a
/// distance counts as the farthest in distances, and is left out of standard deviations.
/// </remarks>
[TypeFormatterSource]
public sealed record MissSpread
{
    /// <summary>Standard deviation along the forecast drift about the mean, metres.</summary>
    public required Fit<Estimate> SdDownwind { get; init; }

    /// <summary>Standard deviation across it, metres.</summary>
    public required Fit<Estimate> SdRight { get; init; }

    /// <summary>Distance from the spot that half of the landings do not pass, metres: hardly touched by a few far landings.</summary>
    public required Fit<Estimate> Median { get; init; }

    /// <summary>Distance from the spot that 90 % of the landings do not pass, metres (R90, quantile type 8).</summary>
    public required Fit<Estimate> R90 { get; init; }

    internal static MissSpread Of(IReadOnlyList<IReadOnlyList<Landing>> missions, AccuracyOptions options, string whose)
    {
        var sums = new MissionSums([.. missions.Select(m => (IReadOnlyList<(double, double)>)[.. m.Where(l => l.MissDownwind is not null)
            .Select(l => (l.MissDownwind!.Value.Along, l.MissDownwind.Value.Across))])]);
        var sorted = Sorted(missions);
        return new MissSpread
        {
            SdDownwind = Resampled(sums.SdX, "standard deviation downwind"),
            SdRight = Resampled(sums.SdY, "standard deviation right"),
            Median = Resampled(draws => DrawnQuantile.Of(sorted, draws, 0.5), "median distance"),
            R90 = Resampled(draws => DrawnQuantile.Of(sorted, draws, 0.9), "R90"),
        };

        Fit<Estimate> Resampled(Func<int[], double?> figure, string what) =>
            ClusterBootstrap.Of(missions.Count, figure, options.Resampling($"{what} of {whose}")) is { Success: true } bootstrap
                ? Fit<Estimate>.Made(bootstrap.Value.Interval(BootstrapMethod.WidenedPercentile, options.Confidence))
                : Fit<Estimate>.Refused("it lies among landings known only as beyond a distance, or the missions are too few");
    }

    internal static (int Mission, double Distance)[] Sorted(IReadOnlyList<IReadOnlyList<Landing>> missions) =>
        [.. missions.SelectMany((m, i) => m.Select(l => (i, l.MissDistance ?? double.PositiveInfinity))).OrderBy(l => l.Item2)];
}
