namespace JumpAnalytics;

/// <summary>The landings whose forecast was of one class of age, counted.</summary>
[TypeFormatterSource]
public sealed record AgeClass
{
    /// <summary>Class in minutes: <c>under 6</c>, <c>6-10</c>, <c>15+</c>.</summary>
    public required string Label { get; init; }

    /// <summary>Seconds; the mean age of its landings.</summary>
    public required double MeanAge { get; init; }

    /// <summary>Missions with a landing in the class; a mission of several passes may be in several.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings in the class.</summary>
    public required int Landings { get; init; }

    /// <summary>Mean drift wind of its landings, metres per second: classes may differ in more than age.</summary>
    public required double MeanWind { get; init; }

    /// <summary>Landing rate, or why there is none.</summary>
    public required Fit<ClusteredProportion> Rate { get; init; }

    /// <summary>Distance from the spot that 90 % of the landings do not pass (quantile type 8), metres, or why there is none.</summary>
    public required Fit<Estimate> Radius90 { get; init; }

    internal static IReadOnlyList<AgeClass> Of(IReadOnlyList<Landing> aged, AccuracyOptions options, IReadOnlyList<double> edges) =>
        [.. aged.GroupBy(l => edges.Count(e => l.Drop.StreamerAge >= e)).OrderBy(g => g.Key)
            .Select(g => Of([.. g], LabelOf(g.Key, edges), options))];

    private static AgeClass Of(List<Landing> landings, string label, AccuracyOptions options)
    {
        var sample = MissionSample.Of(landings);
        return new AgeClass
        {
            Label = label,
            MeanAge = landings.Average(l => l.Drop.StreamerAge!.Value),
            MeanWind = landings.Average(l => l.Drop.WindSpeed),
            Missions = sample.Missions.Count,
            Landings = landings.Count,
            Rate = sample.CountedRate(options.Confidence),
            Radius90 = Radius(sample, options.Resampling($"90 % distance of age {label}"), options.Confidence),
        };
    }

    private static Fit<Estimate> Radius(MissionSample sample, ResampleOptions resampling, double confidence)
    {
        var sorted = sample.Missions.SelectMany((m, i) => m.Select(l => (Mission: i, Distance: l.MissDistance ?? double.PositiveInfinity)))
            .OrderBy(l => l.Distance).ToArray();
        var bootstrap = ClusterBootstrap.Of(sample.Missions.Count, draws => DrawnQuantile.Of(sorted, draws, 0.9), resampling);
        if (!bootstrap.Success) return Fit<Estimate>.Refused("the 90 % distance lies among landings known only as beyond a distance");
        var corrected = bootstrap.Value.Interval(BootstrapMethod.WidenedBiasCorrected, confidence);
        return Fit<Estimate>.Made(
            corrected.Range is not null ? corrected : bootstrap.Value.Interval(BootstrapMethod.WidenedPercentile, confidence));
    }

    private static string LabelOf(int index, IReadOnlyList<double> edges) =>
        index == 0 ? $"under {Text(edges[0])}"
        : index == edges.Count ? $"{Text(edges[^1])}+"
        : edges[index - 1] == 0 ? $"under {Text(edges[index])}" : $"{Text(edges[index - 1])}-{Text(edges[index])}";

    private static string Text(double seconds) => Rounding.Short(seconds / 60);
}
