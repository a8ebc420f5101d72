namespace JumpAnalytics;

/// <summary>The landings of one season or group, or of all: counts, rate, bias and miss distances.</summary>
[TypeFormatterSource]
public sealed record MissSummary
{
    /// <summary>The shares of landings whose miss distance is given.</summary>
    public static IReadOnlyList<int> Percents { get; } = [50, 85, 95];

    /// <summary>The season or group, or <see cref="JumpLog.All"/>.</summary>
    public required string Season { get; init; }

    /// <summary>Landings whose place is known.</summary>
    public required int Placed { get; init; }

    /// <summary>Missions that have such a landing.</summary>
    public required int PlacedMissions { get; init; }

    /// <summary>Landings known only as beyond the target radius.</summary>
    public required int BeyondMisses { get; init; }

    /// <summary>Landings known only as beyond a distance shorter than the target radius.</summary>
    public required int Undecided { get; init; }

    /// <summary>Landing rate.</summary>
    public required Fit<ClusteredProportion> Rate { get; init; }

    /// <summary>Mean miss along the forecast drift, metres, + long.</summary>
    public required Fit<Estimate> BiasDownwind { get; init; }

    /// <summary>Mean miss across it, metres, + right.</summary>
    public required Fit<Estimate> BiasRight { get; init; }

    /// <summary>Miss distance in metres that each of <see cref="Percents"/> of the landings does not pass (quantile type 8),
    /// distances that were rounded laid evenly over their rounding.</summary>
    public required IReadOnlyList<Fit<Estimate>> MissQuantiles { get; init; }

    internal static MissSummary Of(string season, IEnumerable<Landing> landings, AccuracyOptions options, WrittenSteps? steps = null)
    {
        var sample = MissionSample.Of(landings);
        return new MissSummary
        {
            Season = season,
            Placed = sample.Landings.Count(l => !l.IsCensored),
            PlacedMissions = sample.Missions.Count(m => m.Any(l => !l.IsCensored)),
            BeyondMisses = sample.BeyondMisses,
            Undecided = sample.Count(LandingOutcome.Undecided),
            Rate = sample.CountedRate(options.Confidence),
            BiasDownwind = Mean(sample, m => m.Along, options.Confidence),
            BiasRight = Mean(sample, m => m.Across, options.Confidence),
            MissQuantiles = DistancesHolding(sample, options, steps ?? WrittenSteps.Of(sample.Landings), $"distances of season {season}"),
        };
    }

    /// <summary>Mean of a coordinate of the miss with the between-mission interval of a ratio of totals, t on missions − 1.</summary>
    private static Fit<Estimate> Mean(MissionSample sample, Func<PlaneVector, double> coordinate, double confidence)
    {
        var missions = sample.Missions
            .Select(m => m.Select(l => l.MissDownwind).OfType<PlaneVector>().Select(coordinate).ToList())
            .Where(m => m.Count > 0).ToList();
        if (missions.Count == 0) return Fit<Estimate>.Refused("no landing with a known place");
        var n = missions.Sum(m => m.Count);
        var mean = missions.Sum(m => m.Sum()) / n;
        if (missions.Count < 2) return Fit<Estimate>.Made(Estimate.WithoutRange(mean, "a single mission"));
        var variance = missions.Sum(m => Math.Pow(m.Sum(x => x - mean), 2)) * missions.Count / (missions.Count - 1) / ((double)n * n);
        var half = QuantileOf.T(missions.Count - 1, TailShare.Middle(confidence)) * Math.Sqrt(variance);
        return Fit<Estimate>.Made(Estimate.Of(mean, new Interval(mean - half, mean + half)));
    }

    /// <summary>
    /// The distances that hold each share of the landings. A landing known only as beyond a distance is taken as farther than any other:
    /// the quantile is exact below all such distances and errs on the far side above. Rounded distances are laid evenly over what rounds to
    /// them (<see cref="WrittenSteps.Spread"/>): else every resample has its quantile on the same step.
    /// </summary>
    private static IReadOnlyList<Fit<Estimate>> DistancesHolding(MissionSample sample, AccuracyOptions options, WrittenSteps steps,
        string purpose)
    {
        var distances = steps.Spread([.. sample.Missions.SelectMany(m => m)], options.Seed);
        var sorted = sample.Missions
            .SelectMany((m, i) => m.Select(_ => i)).Zip(distances, (i, d) => (Mission: i, Distance: d))
            .OrderBy(l => l.Distance).ToArray();
        if (sorted.Length == 0) return [.. Percents.Select(_ => Fit<Estimate>.Refused("no landing"))];
        return [.. ClusterBootstrap.OfMany(sample.Missions.Count,
            [.. Percents.Select(p => (Func<int[], double?>)(draws => DrawnQuantile.Of(sorted, draws, p / 100.0)))],
            options.Resampling(purpose))
            .Select(b => b.Success ? Fit<Estimate>.Made(b.Value.Interval(BootstrapMethod.WidenedPercentile, options.Confidence))
                : Fit<Estimate>.Refused($"{Rounding.Count(sample.Landings.Count(l => l.IsCensored))} of "
                    + $"{Rounding.Count(sample.Landings.Count, "landing")} are "
                    + "known only as beyond a distance"))];
    }
}
