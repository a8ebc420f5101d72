namespace JumpAnalytics;

/// <summary>A way to state the chance of a hit before a landing, from landings that came before.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Learn">From earlier landings to a forecast for another landing's drop, or why it can't be made.</param>
/// <param name="Pace">How often it can be learnt anew within a report's patience.</param>
internal sealed record RateForecaster(string Name, Func<IReadOnlyList<Landing>, AccuracyOptions, Fit<Func<Drop, StatedChance>>> Learn,
    LearningPace Pace = LearningPace.EachMission)
{
    /// <summary>The forecaster that the others are compared with first.</summary>
    public const string AlwaysBenchmark = "always the benchmark";

    /// <summary>The rate of all earlier landings: the climatology of the base.</summary>
    public const string BaseRate = "rate of the base";

    /// <summary>The pooled rate of the cell.</summary>
    public const string Pooled = "pooled rate of the cell";

    public static IReadOnlyList<RateForecaster> All { get; } =
    [
        new(AlwaysBenchmark, (_, options) => Made(_ => options.Benchmark)),
        new(BaseRate, (past, _) => Shrunk(past) is { } rate ? Made(_ => rate) : Refused("no earlier landing")),
        new("counted rate of the cell", Counted),
        new("rate by band and terrain", (past, options) => PooledCells(past, options, cellEffect: false), LearningPace.Tenths),
        new(Pooled, (past, options) => PooledCells(past, options, cellEffect: true), LearningPace.Seasons),
        new("fitted normal", Normal),
        new("fitted t", StudentT, LearningPace.Seasons),
    ];

    private static Fit<Func<Drop, StatedChance>> Made(Func<Drop, double> forecast) =>
        Fit<Func<Drop, StatedChance>>.Made(drop => new StatedChance(forecast(drop)));

    private static Fit<Func<Drop, StatedChance>> Refused(string why) => Fit<Func<Drop, StatedChance>>.Refused(why);

    /// <summary>Hits and a half over landings and one, so that no forecast is certain; null without landings.</summary>
    private static double? Shrunk(IEnumerable<Landing> landings)
    {
        var (hits, all) = (0, 0);
        foreach (var l in landings)
        {
            if (l.Outcome == LandingOutcome.Undecided) continue;
            all++;
            if (l.Outcome == LandingOutcome.Hit) hits++;
        }
        return all == 0 ? null : (hits + 0.5) / (all + 1);
    }

    private static Fit<Func<Drop, StatedChance>> Counted(IReadOnlyList<Landing> past, AccuracyOptions options)
    {
        if (Shrunk(past) is not { } rate) return Refused("no earlier landing");
        var cells = past.GroupBy(l => Cell.Of(l.Drop, options.Bands)).ToDictionary(g => g.Key, g => Shrunk(g));
        return Made(drop => cells.GetValueOrDefault(Cell.Of(drop, options.Bands)) ?? rate);
    }

    private static Fit<Func<Drop, StatedChance>> PooledCells(IReadOnlyList<Landing> past, AccuracyOptions options, bool cellEffect)
    {
        if (Shrunk(past) is not { } rate) return Refused("no earlier landing");
        var asked = new PoolingOptions { CellEffect = cellEffect };
        var fit = PooledRates.Of(PooledCount.Of(past, options.Bands), asked);
        if (!fit.Success) return Refused(fit.Reason);
        var shared = MissionSample.Of(past).CountedRate(asked.Confidence).Value?.Rate is { Range: not null } all
            ? Error(all, asked.Confidence) : 0;
        var cells = fit.Value.Cells.Where(c => c.Rate.Success).ToDictionary(c => c.Cell, c => new StatedChance(c.Rate.Value!.Value,
            Math.Sqrt(Math.Max(0, Math.Pow(Error(c.Rate.Value, asked.Confidence), 2) - shared * shared)), shared));
        return Fit<Func<Drop, StatedChance>>.Made(drop => cells.GetValueOrDefault(Cell.Of(drop, options.Bands), new StatedChance(rate)));
    }

    /// <summary>Standard error of a rate on the scale of its normal quantile, from its interval.</summary>
    private static double Error(Estimate rate, double confidence)
    {
        var range = rate.Range!.Value;
        return (Quantile(range.High) - Quantile(range.Low)) / 2 / QuantileOf.Normal(TailShare.Middle(confidence));

        static double Quantile(double share) => QuantileOf.Normal(TailShare.Below(Math.Clamp(share, 1e-9, 1 - 1e-9)));
    }

    private static Fit<Func<Drop, StatedChance>> Normal(IReadOnlyList<Landing> past, AccuracyOptions options) =>
        BivariateNormal.FitTo([.. past.Select(l => l.MissDownwind).OfType<PlaneVector>()]) is { Success: true } fit
            ? Made(drop => fit.Value.ProbabilityWithin(drop.TargetRadius)) : Refused("no normal can be fitted to the earlier misses");

    private static Fit<Func<Drop, StatedChance>> StudentT(IReadOnlyList<Landing> past, AccuracyOptions options)
    {
        var fit = BivariateT.FitTo(MissionSample.Of(past).Misses());
        return fit.Success ? Made(drop => fit.Value.Model.ProbabilityWithin(drop.TargetRadius)) : Refused(fit.Reason);
    }
}

/// <summary>How often a forecaster can be learnt anew.</summary>
internal enum LearningPace
{
    /// <summary>For each mission from all others.</summary>
    EachMission,

    /// <summary>For a tenth of the missions from the other nine.</summary>
    Tenths,

    /// <summary>For each season alone.</summary>
    Seasons,
}

/// <summary>A chance of a hit as it was stated.</summary>
/// <param name="Chance">The chance.</param>
/// <param name="OwnError">Standard error that the landings of one cell share, on the scale of the normal quantile of the chance.</param>
/// <param name="SharedError">Standard error that all landings share, on the same scale.</param>
internal readonly record struct StatedChance(double Chance, double OwnError = 0, double SharedError = 0);
