using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Makes the pattern of one group of landings.</summary>
internal sealed class SpotterPatternMaking(AccuracyOptions options, SpotterPatternOptions settings)
{
    public SpotterPattern Of(string spotter, IReadOnlyList<Landing> landings, SpotterPattern? whole)
    {
        var missions = landings.GroupBy(l => l.Drop.Mission).Select(g => (IReadOnlyList<Landing>)[.. g]).ToList();
        var isBase = whole is null;
        var thin = missions.Count < (isBase ? MeanMiss.FewestMissions : settings.FewestMissions);
        var downwind = MeanMiss.Of(Readings(landings, l => l.MissDownwind), options.Confidence);
        var variance = whole?.Downwind.Value is { } all
            ? (all.Missions * Math.Max(all.Errors.VarianceAlong, all.Errors.VarianceAcross)) : (double?)null;
        var needed = !thin && downwind.Success ? downwind.Value.MissionsFor(settings.NamedDistance)
            : variance is { } v ? MeanMiss.MissionsFor(v, settings.NamedDistance, options.Confidence) : (int?)null;
        var why = $"{Rounding.Count(missions.Count, "mission")}: a pattern is given from "
            + $"{(isBase ? MeanMiss.FewestMissions : settings.FewestMissions)} on"
            + (needed is { } n ? $"; if they are like the base's, about {n} would give the mean miss to within {Named}" : "");
        var placed = missions.Select(m => (IReadOnlyList<Landing>)[.. m.Where(l => l.MissDownwind is not null)])
            .Where(m => m.Count > 0).ToList();
        var shares = thin ? Fit<ForecastShares>.Refused(why) : Levels(landings);
        var ofBase = !isBase && !Told(shares) && whole!.Shares.Success;
        return new SpotterPattern
        {
            Spotter = spotter,
            IsBase = isBase,
            Missions = missions.Count,
            Placed = landings.Count(l => !l.IsCensored),
            Beyond = landings.Count(l => l.IsCensored),
            Downwind = Unless(() => downwind),
            AlongRun = Unless(() => Mean(landings, AlongRun, "a run heading")),
            ExitPlacement = Unless(() => Mean(landings, Placement, "a recorded exit that gives each jumper's own")),
            Compass = Unless(() => Mean(landings, NorthEast, "a place")),
            LongWithDrift = Unless(() => Slope(m => m.Along)),
            RightWithDrift = Unless(() => Slope(m => m.Across)),
            Spread = Unless(() => Fit<MissSpread>.Made(MissSpread.Of(missions, options, isBase ? "the base" : "spotter " + spotter))),
            Shares = ofBase ? whole!.Shares : shares,
            SharesOfBase = ofBase,
            Relative = Directions(placed, l => l.MissDownwind!.Value),
            Bearings = Directions(placed, l => NorthEast(l)!.Value),
            MissionsForNamedDistance = needed,
            TargetRadius = landings.Count == 0 ? 0 : landings.Select(l => l.Drop.TargetRadius).Median(),
        };

        Fit<T> Unless<T>(Func<Fit<T>> make) where T : class => thin ? Fit<T>.Refused(why) : make();

        Fit<DriftSlope> Slope(Func<PlaneVector, double> axis) => DriftSlope.Of(
            [.. placed.Select(m => (IReadOnlyList<(double, double)>)[
                .. m.Select(l => (l.Drop.ForecastDrift.Length, axis(l.MissDownwind!.Value)))])], options.Confidence);
    }

    private string Named => $"{Rounding.Short(options.Units.Distance.FromSi(settings.NamedDistance))} {options.Units.Distance.Suffix}";

    /// <summary>Whether the shares have an interval.</summary>
    private static bool Told(Fit<ForecastShares> shares) => shares.Value?.Overall.Share.Range is not null;

    private Fit<ForecastShares> Levels(IReadOnlyList<Landing> landings)
    {
        var model = TwoLevelModel.FitTo(landings, confidence: options.Confidence);
        return model.Success ? Fit<ForecastShares>.Made(model.Value.Forecast) : Fit<ForecastShares>.Refused(model.Reason);
    }

    private MissionDirections Directions(IReadOnlyList<IReadOnlyList<Landing>> placed, Func<Landing, PlaneVector> miss) =>
        MissionDirections.Of(
            [.. placed.Select(m => (m.Average(l => miss(l).Along), m.Average(l => miss(l).Across)))],
            settings.NoDirectionWithin, options.Confidence);

    private Fit<MeanMiss> Mean(IReadOnlyList<Landing> landings, Func<Landing, PlaneVector?> vector, string what)
    {
        var sample = Readings(landings, vector);
        return sample.Clusters < settings.FewestMissions
            ? Fit<MeanMiss>.Refused($"{Rounding.Count(sample.Clusters, "mission")} with {what}; "
                + $"a mean is given from {settings.FewestMissions} on")
            : MeanMiss.Of(sample, options.Confidence);
    }

    private static PlaneSample Readings(IReadOnlyList<Landing> landings, Func<Landing, PlaneVector?> vector) =>
        PlaneSample.Of(landings.Select(l => (l, Vector: vector(l))).Where(p => p.Vector is not null)
            .Select(p => new PlaneReading(p.l.Drop.Mission, p.Vector, MeasuredSd: p.l.MeasuredSd)), TradeNouns.Value);

    private static PlaneVector? NorthEast(Landing landing) => landing.Miss is { } miss ? new(miss.North, miss.East) : null;

    private static PlaneVector? AlongRun(Landing landing) => landing.Miss is { } miss ? OnRun(miss, landing.Drop) : null;

    private static PlaneVector? Placement(Landing landing) =>
        StickExit.Of(landing.Drop, landing.ExitOrder).Vector is { } exit ? OnRun(exit - landing.Drop.PlannedExit, landing.Drop) : null;

    private static PlaneVector? OnRun(LocalVector vector, Drop drop) =>
        drop.RunHeading is { } heading ? DownwindFrame.Along(LocalVector.FromPolar(1, heading))!.ToDownwind(vector) : null;
}
