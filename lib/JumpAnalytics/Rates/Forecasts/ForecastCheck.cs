using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>
/// The misses that labelled sources of error predict, beside those that came: by wind band, for landings, and for the forecast's own error
/// where descent tracks tell it.
/// </summary>
/// <remarks>
/// Predicted radii and rates: passes on record simulated one by one, each weighing as its landings. Tests: exp(−q/2), q being the squared
/// distance of a miss in units of its predicted covariance, is uniform when the prediction is a right normal (probability integral
/// transform). Its mean is set against one half, and the share of misses beyond nine in ten as predicted against one tenth, both by t
/// between missions; the smaller p counts twice, for there are two looks.
/// </remarks>
public sealed class ForecastCheck : ShownResult
{
    private const int DescentsEach = 400;

    private ForecastCheck(IReadOnlyList<CheckedCell> cells, ForecastErrorSources sources, AccuracyOptions options) =>
        (Cells, Sources, Options) = (cells, sources, options);

    /// <summary>One comparison.</summary>
    /// <param name="What">Landings, or the forecast's own error.</param>
    /// <param name="Cell">A wind band, or the whole.</param>
    /// <param name="Missions">Missions.</param>
    /// <param name="Cases">Landings.</param>
    /// <param name="Observed">Share inside the target radius.</param>
    /// <param name="Predicted">The share predicted.</param>
    /// <param name="ObservedHalf">Median distance, metres.</param>
    /// <param name="PredictedHalf">The one predicted.</param>
    /// <param name="ObservedNine">Distance that nine in ten do not pass, metres.</param>
    /// <param name="PredictedNine">The one predicted.</param>
    /// <param name="P">Chance of misses so much farther out or in, if the prediction were right; null with fewer than 5 missions.</param>
    /// <param name="TooNarrow">Whether they lie farther out than predicted.</param>
    [TypeFormatterSource]
    public sealed record CheckedCell(
        string What, Cell Cell, int Missions, int Cases, Estimate Observed, double Predicted, double ObservedHalf, double PredictedHalf,
        double ObservedNine, double PredictedNine, double? P, bool TooNarrow)
    {
        /// <summary>Label of the wind band, or <see cref="Cell.Any"/>.</summary>
        public string WindBand => Cell.WindBand;

        internal string Verdict(double confidence) => P switch
        {
            null => "too few missions to tell",
            { } p when p >= 1 - confidence => "in keeping with what came",
            _ => TooNarrow ? "too narrow" : "too wide",
        };
    }

    internal const string OfLandings = "landings", OfForecasts = "forecast error, by track";

    /// <summary>The comparisons.</summary>
    public IReadOnlyList<CheckedCell> Cells { get; }

    /// <summary>What was put in.</summary>
    public ForecastErrorSources Sources { get; }

    /// <summary>Units, bands, confidence and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Compares.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Units, bands, confidence and seed.</param>
    /// <param name="sources">The labelled sources; the defaults when left out.</param>
    /// <param name="forecastErrors">
    /// Forecast errors that descent tracks tell, metres east and north, with the landing they belong to and the covariance of the track's
    /// own error, m²; none when left out.
    /// </param>
    public static ForecastCheck Of(IReadOnlyList<Landing> landings, AccuracyOptions options, ForecastErrorSources? sources = null,
        IReadOnlyList<(Landing Landing, LocalVector Error, PlaneCovariance Of)>? forecastErrors = null)
    {
        var given = sources ?? new ForecastErrorSources();
        List<(string What, Landing Landing, PlaneVector Miss, PlaneCovariance Measured)> cases =
        [
            .. from l in landings
               where l.MissDownwind is not null
               select (OfLandings, l, l.MissDownwind!.Value, PlaneCovariance.Round(l.MeasuredSd ?? 0)),
            .. from e in forecastErrors ?? []
               let frame = e.Landing.Drop.Frame
               where frame is not null
               select (OfForecasts, e.Landing, frame.ToDownwind(e.Error), frame.ErrorDownwind(e.Of)),
        ];
        var cells = new List<CheckedCell>();
        foreach (var what in cases.GroupBy(c => c.What))
        {
            // what exits add is known apart from a forecast error, so it is not predicted there
            var own = what.Key == OfLandings ? given : given.WithoutSteering() with { ExitTiming = 0, ExitAcross = 0 };
            var grid = new Cells(options.Bands, what.Select(c => c.Landing));
            var byCell = grid.Group(what, c => c.Landing.Drop);
            cells.AddRange(grid.OfBands.Append(Cell.All)
                .Select(c => Checked(what.Key, c, [.. byCell[c]], own, options)).OfType<CheckedCell>());
        }
        return new ForecastCheck(cells, given, options);
    }

    private static CheckedCell? Checked(
        string what, Cell cell, List<(string, Landing Landing, PlaneVector Miss, PlaneCovariance Measured)> cases,
        ForecastErrorSources sources, AccuracyOptions options)
    {
        var told = cases.Select(c => (c.Landing, c.Miss, c.Measured, Setting: ForecastSetting.Of(c.Landing.Drop)))
            .Where(c => c.Setting.Success).Select(c => (c.Landing, c.Miss, c.Measured, Setting: c.Setting.Value!)).ToList();
        if (told.Count == 0) return null;
        var missions = told.GroupBy(c => c.Landing.Drop.Mission).ToList();
        var passes = told.GroupBy(c => c.Landing.Drop.Id).Select(g => (Id: g.Key, g.First().Setting, Weight: g.Count())).ToList();
        var simulated = passes.AsParallel().AsOrdered().Select(p => (Of: Simulated(p.Id, p.Setting), p.Weight)).ToList();
        double[] observed = [.. told.Select(c => c.Miss.Length).Order()];
        var predicted = simulated.SelectMany(s => s.Of.Distances.Select(d => (Distance: d, s.Weight))).OrderBy(d => d.Distance).ToList();
        int[] hits = [.. missions.Select(m => m.Count(c => Landing.IsWithin(c.Miss.Length, c.Landing.Drop.TargetRadius)))];
        var rate = ClusteredProportion.Of(hits, [.. missions.Select(m => m.Count())], options.Confidence).Rate;
        PlaneCovariance Predicted(ForecastSetting setting) => SourceVariances.Of(setting, sources).Total;
        double[] Transforms(IEnumerable<(Landing, PlaneVector Miss, PlaneCovariance Measured, ForecastSetting Setting)> mission) =>
            [.. mission.Select(c => Transform(c.Miss, Predicted(c.Setting) + c.Measured))];
        List<double[]> transforms = [.. missions.Select(Transforms)];
        var (middle, tail) = (Against([.. transforms.Select(m => m.Sum(u => 0.5 - u))]),
            Against([.. transforms.Select(m => m.Sum(u => (u < 0.1 ? 1 : 0) - 0.1))]));
        var stronger = middle.P < tail.P ? middle : tail;
        return new CheckedCell(what, cell, missions.Count, told.Count, rate,
            simulated.Sum(s => s.Weight * s.Of.HitChance.Value) / told.Count,
            Quantile(observed, 0.5), Weighted(predicted, 0.5), Quantile(observed, 0.9), Weighted(predicted, 0.9),
            missions.Count < 5 ? null : Math.Min(1, 2 * stronger.P), stronger.T > 0);

        // each pass has random numbers of its own, whichever passes stand beside it
        ForecastSimulation Simulated(string id, ForecastSetting setting) =>
            ForecastSimulation.Of(setting, sources, DescentsEach, options.Seed, $"forecast check, pass {id}");

        // positive when misses lie farther out than predicted
        static (double T, double P) Against(double[] sums)
        {
            var t = sums.Sum() / Math.Sqrt(Math.Max(sums.Sum(s => s * s), 1e-300));
            return (t, sums.Length < 2 ? 1 : 2 * StudentT.CDF(0, 1, sums.Length - 1, -Math.Abs(t)));
        }
    }

    private static double Transform(PlaneVector miss, PlaneCovariance predicted) =>
        predicted.SquaredLength(miss.Along, miss.Across) is { } squared ? Math.Exp(-0.5 * squared) : 0.5;

    private static double Quantile(double[] sorted, double share) =>
        HyndmanFan.OfSorted(sorted, share);

    private static double Weighted(List<(double Distance, int Weight)> sorted, double share)
    {
        var (total, sum) = (sorted.Sum(s => (double)s.Weight), 0.0);
        foreach (var (distance, weight) in sorted)
        {
            if ((sum += weight) >= share * total) return distance;
        }
        return sorted[^1].Distance;
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Cells.Count == 0) return "Nothing can be compared: no landing with a place and a forecast that has a time aloft.";
            return string.Join(" ", Cells.Where(c => c.Cell.IsWhole).Select(c =>
                $"{Rounding.Capital(c.What)}: {Rounding.Percent(c.Observed)} inside the target radius "
                + $"where the labelled sources predict {Rounding.Percent(c.Predicted)}, nine in ten within {Distance(c.ObservedNine)} "
                + $"where they predict {Distance(c.PredictedNine)}; the prediction is {c.Verdict(Options.Confidence)} "
                + $"({Rounding.Count(c.Missions, "mission")}, {Rounding.Count(c.Cases, "landing")})."));
        }
    }

    private string Distance(double metres) => $"{Rounding.Fixed(Options.Units.Distance.FromSi(metres), 0)} {Options.Units.Distance.Suffix}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        $"Labelled sources, most of them assumptions: wind change {Rounding.Fixed(Options.Units.Speed.FromSi(Sources.WindChange), 1)} "
            + $"{Options.Units.Speed.Suffix} per axis at {Rounding.Fixed(Sources.ReferenceAge / 60, 0)} min, its variance with the "
            + $"power {Rounding.Fixed(Sources.AgeExponent, 2)} of the age; reading {Rounding.Percent(Sources.ReadingShare)} of the drift, "
            + $"{Rounding.Fixed(double.RadiansToDegrees(Sources.ReadingAngle), 0)}° and {Distance(Sources.ReadingFloor)}; "
            + $"exit {Rounding.Fixed(Sources.ExitTiming, 2)} s along the run and {Distance(Sources.ExitAcross)} across; "
            + $"descent rate {Rounding.Percent(Sources.DescentRate)}; steering leaves {Rounding.Percent(Sources.SteeringLeaves)} and the "
            + $"jumper adds {Distance(Sources.JumperOwn)} per axis.",
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            return Cells.Count == 0 ? [] :
            [
                new TableOf<CheckedCell>("forecast-check", "Predicted and observed misses", Cells,
                    $"{DescentsEach} simulated descents for each pass. p: t between missions of how far out misses lie in units of what "
                        + "was predicted and of how they were measured; few missions tell little, and in keeping is then no proof; "
                        + $"several bands are looked at, and one in {Rounding.Fixed(1 / (1 - Options.Confidence), 0)} strays by chance.")
                {
                    { Columns.CheckedWhat, c => c.What },
                    { Columns.WindBand with { Label = $"wind band ({Options.Bands.Unit.Suffix})" }, c => c.WindBand },
                    { Columns.Missions, c => c.Missions },
                    { Columns.Placed, c => c.Cases },
                    { Columns.ObservedRate, c => c.Observed },
                    { Columns.PredictedRate, c => c.Predicted },
                    {
                        Columns.Measure("observed_50", "half within, observed", unit, "Distance that half of them do not pass."),
                        c => unit.FromSi(c.ObservedHalf)
                    },
                    { Columns.Measure("predicted_50", "predicted", unit, "The same as predicted."), c => unit.FromSi(c.PredictedHalf) },
                    {
                        Columns.Measure("observed_90", "9 in 10 within, observed", unit, "Distance that nine in ten of them do not pass."),
                        c => unit.FromSi(c.ObservedNine)
                    },
                    { Columns.Measure("predicted_90", "predicted", unit, "The same as predicted."), c => unit.FromSi(c.PredictedNine) },
                    { Columns.TooNarrowP, c => c.P },
                    { Columns.ForecastVerdict, c => c.Verdict(Options.Confidence) },
                },
            ];
        }
    }
}
