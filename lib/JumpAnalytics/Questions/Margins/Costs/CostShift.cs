namespace JumpAnalytics;

/// <summary>The shift of least cost along one axis.</summary>
/// <param name="Best">Metres, + downwind or right, with its interval.</param>
/// <param name="CostAtNone">Mean cost of a landing with the exits as they were, metres of walk.</param>
/// <param name="CostAtBest">Mean cost with the shift.</param>
/// <param name="Saving">
/// What the shift would have saved of it, with its interval (learnt from the same landings, so a little too much).
/// </param>
/// <param name="WithinOne">Shifts whose cost is within 1 % of the least.</param>
/// <param name="WithinFive">Shifts whose cost is within 5 % of the least.</param>
[TypeFormatterSource]
public sealed record CostAxis(Estimate Best, double CostAtNone, double CostAtBest, Estimate Saving,
    Interval WithinOne, Interval WithinFive);

/// <summary>
/// Where the exit would have had to be when landing long costs more than landing short, or one side is to be kept out of: the shift of
/// least mean cost, and how flat the cost is there.
/// </summary>
/// <remarks>
/// The cost has a part along the drift and one across, so that each axis has its own shift. Without a side to keep out of, the shift along
/// the drift is minus the quantile of the miss at 1/(1 + ratio), as in the newsvendor's problem (Arrow, Harris and Marschak 1951,
/// Econometrica 19:250-272). Landings are smoothed by a normal (Silverman's width). Intervals: missions resampled, percentiles widened for
/// few missions. Jumpers are taken to steer as they did; landings known only as beyond a distance are left out.
/// </remarks>
public sealed class CostShift : ShownResult
{
    private CostShift() { }

    /// <summary>The cost asked about.</summary>
    public required LandingCost Cost { get; init; }

    /// <summary>Along the drift, or why it can't be told.</summary>
    public required Fit<CostAxis> Along { get; init; }

    /// <summary>Across it.</summary>
    public required Fit<CostAxis> Across { get; init; }

    /// <summary>
    /// Shifts along the drift looked at, metres, and the mean cost of the whole miss at each (the part across as it was).
    /// </summary>
    public required IReadOnlyList<(double Move, double Cost)> Curve { get; init; }

    /// <summary>Missions and landings with a known miss.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings with a known miss.</summary>
    public required int Landings { get; init; }

    /// <summary>Units, confidence, resamples and seed.</summary>
    public required AccuracyOptions Options { get; init; }

    /// <summary>Fewest missions for a shift.</summary>
    public const int FewestMissions = 10;

    /// <summary>Looks for the shift.</summary>
    /// <param name="landings">Landings, for instance of one wind band and terrain.</param>
    /// <param name="options">Units, confidence, resamples and seed.</param>
    /// <param name="cost">What landings cost.</param>
    public static CostShift Of(IReadOnlyList<Landing> landings, AccuracyOptions options, LandingCost cost)
    {
        var missions = landings.Where(l => l.MissDownwind is not null).GroupBy(l => l.Drop.Mission)
            .Select(g => g.Select(l => l.MissDownwind!.Value).ToArray()).ToList();
        var n = missions.Sum(m => m.Length);
        if (missions.Count < FewestMissions || missions.SelectMany(m => m).DistinctBy(m => m.Along).Count() < 3)
        {
            var why = Fit<CostAxis>.Refused($"{Rounding.Count(missions.Count, "mission")} with a known miss; "
                + $"a shift is given from {FewestMissions} on whose misses differ");
            return new CostShift { Cost = cost, Along = why, Across = why, Curve = [],
                Missions = missions.Count, Landings = n, Options = options };
        }
        var along = CostCurve.Of([.. missions.Select(m => m.Select(x => x.Along).ToArray())], cost.Along);
        var across = CostCurve.Of([.. missions.Select(m => m.Select(x => x.Across).ToArray())], cost.Across);
        var (mean, still) = (along.Mean(), across.Mean());
        var rest = still[still.Length / 2];
        return new CostShift
        {
            Cost = cost, Along = Axis(along, options, "cost along"), Across = Axis(across, options, "cost across"),
            Curve = [.. along.Shifts.Zip(mean, (s, c) => (s, c + rest))], Missions = missions.Count, Landings = n, Options = options,
        };
    }

    private static Fit<CostAxis> Axis(CostCurve curve, AccuracyOptions options, string purpose)
    {
        var mean = curve.Mean();
        var none = mean.Length / 2;
        var (best, savings) = (new List<double>(options.Replicates), new List<double>(options.Replicates));
        var draws = new int[curve.Missions];
        ClusterResamples.Random(draws, options.Replicates, SeedStream.For(options.Seed, purpose), _ =>
        {
            var drawn = curve.Mean(draws);
            best.Add(curve.Best(drawn));
            savings.Add(drawn[none] - drawn.Min());
        });
        var at = curve.Best(mean);
        return Fit<CostAxis>.Made(new CostAxis(Range(at, best), mean[none], mean.Min(), Range(mean[none] - mean.Min(), savings),
            curve.Flat(mean, 0.01), curve.Flat(mean, 0.05)));

        // Percentiles widened for few missions (Hesterberg 2015), as ClusterBootstrap does.
        Estimate Range(double value, List<double> drawn)
        {
            var m = (double)curve.Missions;
            var tail = MathNet.Numerics.Distributions.Normal.CDF(0, 1,
                Math.Sqrt(m / (m - 1)) * QuantileOf.T(m - 1, TailShare.Below((1 - options.Confidence) / 2)));
            return Estimate.Of(value, new Interval(Math.Min(value, HyndmanFan.Quantile(drawn, tail)),
                Math.Max(value, HyndmanFan.Quantile(drawn, 1 - tail))));
        }
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Along.Value is not { } a) return $"No shift of least cost can be given: {Along.Reason}.";
            return $"If a metre long costs {Rounding.Short(Cost.LongOverShort)} times a metre short{KeepOutWords}, "
                + $"moving the exit {Length(a.Best, signed: true)} along the drift (+ downwind) would have cost least: "
                + $"a saving of {Length(a.Saving)} of walk a landing from {Plain(a.CostAtNone)} ({Rounding.Count(Missions, "mission")}, "
                + $"{Rounding.Count(Landings, "landing")}; {Rounding.Percent(Options.Confidence)} intervals). The optimum is "
                + $"{(a.WithinFive.Contains(0) ? "flat enough to hold no shift" : "not so flat as to hold no shift")}: "
                + $"within 5 % of the least cost lie shifts from {Plain(a.WithinFive.Low)} to {Plain(a.WithinFive.High)}, "
                + $"within 1 % from {Plain(a.WithinOne.Low)} to {Plain(a.WithinOne.High)}. The costs are the reader's.";
        }
    }

    private string KeepOutWords => Cost.KeepOut is not { } side ? ""
        : $", and landing {side.ToString().ToLowerInvariant()} by more than {Plain(Cost.KeepOutFrom)} costs "
            + $"{Plain(Cost.KeepOutCost)} of walk beside";

    private string Plain(double metres) => $"{Rounding.Fixed(Options.Units.Distance.FromSi(metres), 1)} {Options.Units.Distance.Suffix}";

    private string Length(Estimate metres, bool signed = false) =>
        $"{Rounding.Number(metres.Select(Options.Units.Distance.FromSi), signed)} {Options.Units.Distance.Suffix}";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            return
            [
                new TableOf<(string Name, Fit<CostAxis> Fit)>("cost-shift", "Shift of least cost",
                    [("along the drift, + downwind", Along), ("across, + right", Across)],
                    "Cost: length of walk, long times the reader's ratio, and what the side to keep out of costs beside. "
                    + "Intervals: missions resampled. Learnt from the landings it is told for, so savings are a little too great.")
                {
                    { Columns.ShiftAxis, a => a.Name },
                    { Columns.MissionsPlaced, _ => Missions },
                    { Columns.Placed, _ => Landings },
                    { Columns.CostShiftBest(unit), a => a.Fit.Value?.Best.Select(unit.FromSi) },
                    {
                        Columns.Measure("cost_none", "cost, no shift", unit,
                            "Mean cost of a landing with the exits as they were, as a length of walk."), a => In(a.Fit.Value?.CostAtNone)
                    },
                    {
                        Columns.Measure("cost_best", "least cost", unit, "Mean cost of a landing with the shift of least cost."),
                        a => In(a.Fit.Value?.CostAtBest)
                    },
                    { Columns.CostSaving(unit), a => a.Fit.Value?.Saving.Select(unit.FromSi) },
                    {
                        Columns.Measure("within_1_from", "within 1 % from", unit, "Least shift whose cost is within 1 % of the least."),
                        a => In(a.Fit.Value?.WithinOne.Low)
                    },
                    { Columns.Measure("within_1_to", "to", unit, "Greatest such shift."), a => In(a.Fit.Value?.WithinOne.High) },
                    {
                        Columns.Measure("within_5_from", "within 5 % from", unit, "Least shift whose cost is within 5 % of the least."),
                        a => In(a.Fit.Value?.WithinFive.Low)
                    },
                    { Columns.Measure("within_5_to", "to", unit, "Greatest such shift."), a => In(a.Fit.Value?.WithinFive.High) },
                    { Columns.Note, a => a.Fit.Reason },
                },
            ];

            object? In(double? metres) => metres is { } m ? unit.FromSi(m) : null;
        }
    }
}
