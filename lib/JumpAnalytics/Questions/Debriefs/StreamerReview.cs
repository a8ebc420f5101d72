namespace JumpAnalytics;

/// <summary>
/// What the streamers' own vector would have missed, over passes: had it been taken as it fell for the canopy's drift, without allowing
/// for the canopy's own rate, its height, the wind's change with height and its throw.
/// </summary>
/// <remarks>
/// The wind of each pass is the recorded drift wind, with the change by height that meets the wind near the ground
/// (<see cref="DropWind"/>). Through it streamers fall from a height and at a rate that are assumed, and a canopy of the stick's class
/// from the recorded exit height; the differences are the parts. Means weigh passes alike; their intervals are t between missions,
/// linearised.
/// </remarks>
public sealed class StreamerReview : ShownResult
{
    /// <summary>Fewest missions for an interval.</summary>
    private const int FewestMissions = 4;

    private StreamerReview(
        IReadOnlyList<StreamerMiss> misses, IReadOnlyList<(string Why, int Passes)> leftOut, StreamerFigures figures,
        AccuracyOptions options)
    {
        (LeftOut, Figures, Options) = (leftOut, figures, options);
        Rows = [.. misses.GroupBy(m => m.Canopy, StringComparer.OrdinalIgnoreCase).OrderBy(g => g.Key, StringComparer.Ordinal)
            .SelectMany(g => Parts.Select(p => Row(g.Key, p.Name, [.. g], p.Of, options)))];
    }

    /// <summary>What the vector of one pass would have missed.</summary>
    private sealed record StreamerMiss(Drop Drop, string Canopy, StreamerForecast Forecast);

    /// <summary>One part of what it would have missed, over the passes of one class of canopy.</summary>
    /// <param name="Canopy">The class.</param>
    /// <param name="Part">The part, in words.</param>
    /// <param name="Passes">Passes.</param>
    /// <param name="Missions">Missions that they belong to.</param>
    /// <param name="Along">Mean along the forecast drift, metres: + when the canopy goes farther than the streamers' vector says.</param>
    /// <param name="Right">Mean across it, + right.</param>
    /// <param name="Half">Length that half of them do not pass, metres.</param>
    /// <param name="NineInTen">Length that nine in ten do not pass, metres.</param>
    /// <param name="Outside">Share of passes that it alone would have put outside the target radius, unsteered.</param>
    [TypeFormatterSource]
    public sealed record PartRow(
        string Canopy, string Part, int Passes, int Missions, Estimate Along, Estimate Right, double Half, double NineInTen,
        Estimate Outside);

    internal const string ByRate = "the canopy's own rate", ByHeight = "its greater height", ByWind = "the wind's change with height",
        ByThrow = "its throw", Altogether = "all of these", AfterRule = "what the rule of thumb leaves";

    private static readonly (string Name, Func<StreamerForecast, LocalVector> Of)[] Parts =
    [
        (ByRate, f => f.ByRate), (ByHeight, f => f.ByHeight), (ByWind, f => f.ByWindChange), (ByThrow, f => f.ByThrow),
        (Altogether, f => f.Missing), (AfterRule, f => f.Canopy.Drift - f.Scaled),
    ];

    /// <summary>By class of canopy, part by part.</summary>
    public IReadOnlyList<PartRow> Rows { get; }

    /// <summary>Passes left out, and why.</summary>
    public IReadOnlyList<(string Why, int Passes)> LeftOut { get; }

    /// <summary>What was assumed of streamers.</summary>
    public StreamerFigures Figures { get; }

    /// <summary>Canopies, units and confidence.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Looks back over passes.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Canopies, units and confidence.</param>
    /// <param name="figures">What is assumed of streamers; the defaults when left out.</param>
    public static StreamerReview Of(IReadOnlyList<Landing> landings, AccuracyOptions options, StreamerFigures? figures = null)
    {
        var (given, misses, leftOut) = (figures ?? new StreamerFigures(), new List<StreamerMiss>(), new List<string>());
        foreach (var pass in landings.GroupBy(l => l.Drop.Id))
        {
            var drop = pass.First().Drop;
            var classes = pass.Select(l => CanopyFlight.Of(l.Canopy, options.Canopies)).OfType<CanopyFlight>().Distinct().ToList();
            if (classes.Count == 0) leftOut.Add("no canopy with flight figures was recorded");
            foreach (var canopy in classes)
            {
                var forecast = ForecastOf(drop, canopy, given);
                if (forecast.Success) misses.Add(new(drop, canopy.Canopy, forecast.Value));
                else leftOut.Add(forecast.Reason);
            }
        }
        var reasons = leftOut.CountBy(w => w).OrderByDescending(w => w.Value).ThenBy(w => w.Key, StringComparer.Ordinal);
        return new StreamerReview(misses, [.. reasons.Select(w => (w.Key, w.Value))], given, options);
    }

    private static Fit<StreamerForecast> ForecastOf(Drop drop, CanopyFlight canopy, StreamerFigures figures)
    {
        if (PassStreamers.Of(drop, figures).Reason is { } missing) return Fit<StreamerForecast>.Refused(missing);
        var wind = DropWind.Of(drop, figures.Shape);
        if (!wind.Success) return Fit<StreamerForecast>.Refused(wind.Reason);
        var (exit, elevation) = (drop.ExitHeight!.Value, PassStreamers.ElevationOf(drop));
        var (height, descent) = (Math.Min(figures.ReleaseHeight, exit), new CanopyDescent(canopy.DescentRate * (1 + figures.FasterBy)));
        var streamers = new StreamerSet(height, descent, DriftModel.Drift(wind.Value, descent, height, elevation).Drift);
        return Fit<StreamerForecast>.Made(
            StreamerForecast.Of(streamers, wind.Value.Below, canopy.Descent, exit, elevation, figures.ThrowOf(drop)));
    }

    private static PartRow Row(
        string canopy, string part, List<StreamerMiss> misses, Func<StreamerForecast, LocalVector> of, AccuracyOptions options)
    {
        var vectors = misses.Select(m => (m.Drop, Miss: of(m.Forecast))).ToList();
        var missions = vectors.GroupBy(v => v.Drop.Mission).ToList();
        int[] outside = [.. missions.Select(m => m.Count(v => !Landing.IsWithin(v.Miss.Length, v.Drop.TargetRadius)))];
        double[] lengths = [.. vectors.Select(v => Math.Round(v.Miss.Length, 6)).Order()]; // a part that is none comes out as rounding
        Estimate Mean(Func<PlaneVector, double> axis)
        {
            var values = missions.Select(m => m.Select(v => axis(v.Drop.Frame!.ToDownwind(v.Miss))).ToList()).ToList();
            var mean = values.Sum(m => m.Sum()) / vectors.Count;
            if (missions.Count < FewestMissions)
                return Estimate.WithoutRange(mean, $"it rests on {Rounding.Count(missions.Count, "mission")}");
            var squares = values.Sum(m => Math.Pow(m.Sum() - m.Count * mean, 2)) * missions.Count / (missions.Count - 1.0);
            var half = QuantileOf.T(missions.Count - 1, TailShare.Middle(options.Confidence)) * Math.Sqrt(squares) / vectors.Count;
            return Estimate.Of(mean, new Interval(mean - half, mean + half));
        }

        return new PartRow(canopy, part, vectors.Count, missions.Count, Mean(v => v.Along), Mean(v => v.Across),
            HyndmanFan.OfSorted(lengths, 0.5),
            HyndmanFan.OfSorted(lengths, 0.9),
            ClusteredProportion.Of(outside, [.. missions.Select(m => m.Count())], options.Confidence).Rate);
    }

    /// <inheritdoc/>
    public override string Reading => Rows.Count == 0 ? "No pass of the record tells what its streamers would have missed."
        : $"Had the streamers' own vector been taken for the drift, dropped from {Height(Figures.ReleaseHeight)} "
            + $"or the exit height where that is lower and fallen {Rounding.Percent(Figures.FasterBy)} faster than the canopy, "
            + "it would have missed: "
            + string.Join("; ", Rows.Where(r => r.Part == Altogether).Select(Words)) + ".";

    private string Words(PartRow all)
    {
        var largest = Rows.Where(r => r.Canopy == all.Canopy && r.Part is (ByRate or ByHeight or ByWind or ByThrow)).MaxBy(r => r.Half)!;
        return $"for {all.Canopy} canopies {Signed(all.Along)} along the forecast, nine in ten within {Length(all.NineInTen)} "
            + $"({Rounding.Count(all.Passes)} passes of {Rounding.Count(all.Missions, "mission")}), most of it by {largest.Part}; "
            + $"by this alone {Rounding.Percent(all.Outside)} of the passes outside the target radius, unsteered";
    }

    private string Height(double metres) =>
        $"{Rounding.Fixed(Options.Units.Height.FromSi(metres), 0)} {Options.Units.Height.Suffix}";

    private string Length(double metres) => DebriefWords.Distance(metres, Options);

    private string Signed(Estimate metres) =>
        $"{Rounding.Number(metres.Select(Options.Units.Distance.FromSi), signed: true)} {Options.Units.Distance.Suffix}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        $"Assumed, not on record: the height ({Height(Figures.ReleaseHeight)}: common practice, no source) and the rate of the streamers "
            + $"({Rounding.Percent(Figures.FasterBy)} faster: assumption). {StreamerWords.Throw(Figures)} "
            + $"Canopies: {string.Join("; ", Options.Canopies.Select(c => $"{c.Canopy}: {c.Source}"))}.",
        "The wind of a pass is its recorded drift wind; it changes with height by the power law that meets the wind near the ground, "
            + $"or by {Figures.Shape.Words} where none does.",
        "A spotter who scales the vector by height and rate has left what the last row of each canopy says.",
        .. LeftOut.Select(l => $"{Rounding.Count(l.Passes)} pass{(l.Passes == 1 ? "" : "es")} left out: {l.Why}."),
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            return Rows.Count == 0 ? [] :
            [
                new TableOf<PartRow>("streamer-vectors", "What the streamers' own vector would have missed", Rows,
                    $"Intervals at {Rounding.Percent(Options.Confidence)} between missions. "
                        + "+ along: the canopy goes farther than the vector says.")
                {
                    { Columns.CanopyClass, r => r.Canopy },
                    { Columns.StreamerPart, r => r.Part },
                    { Columns.Missions, r => r.Missions },
                    { Columns.Passes, r => r.Passes },
                    {
                        Columns.SignedDistance(
                            "missed_downwind", "along the forecast", unit, "Mean of what is missed, along the forecast drift."),
                        r => r.Along.Select(unit.FromSi)
                    },
                    {
                        Columns.SignedDistance("missed_right", "right", unit, "The same across the forecast drift, + right of it."),
                        r => r.Right.Select(unit.FromSi)
                    },
                    { Columns.Measure("missed_50", "half within", unit, "Length that half do not pass."), r => unit.FromSi(r.Half) },
                    {
                        Columns.Measure("missed_90", "9 in 10 within", unit, "Length that nine in ten do not pass."),
                        r => unit.FromSi(r.NineInTen)
                    },
                    { Columns.OutsideByStreamers, r => r.Outside },
                },
            ];
        }
    }
}
