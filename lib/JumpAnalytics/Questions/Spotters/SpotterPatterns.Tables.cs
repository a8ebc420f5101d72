namespace JumpAnalytics;

public sealed partial class SpotterPatterns
{
    private IEnumerable<SpotterPattern> All => Spotters.Prepend(Base);

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [BiasTable, FrameTable, SlopeTable, SpreadTable, DirectionTable];

    private string Intervals => $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions.";

    private TableView BiasTable => new TableOf<SpotterPattern>("spotter-bias", "Mean miss in the downwind frame", All,
        $"{Intervals} + long, + right. Ellipse and p look at both axes at once (Hotelling), p of all spotters together by Holm. The named "
        + $"distance is {Rounding.Short(Unit.FromSi(Settings.NamedDistance))} {Unit.Suffix}, a setting of the reader's. Ordered by code.")
    {
        { Columns.SpotterCode, s => s.Spotter }, { Columns.Missions, s => s.Missions }, { Columns.Placed, s => s.Placed },
        { Columns.BiasDownwind(Unit), s => Shown(s.Downwind.Value?.First) },
        { Columns.BiasRight(Unit), s => Shown(s.Downwind.Value?.Second) },
        {
            Columns.Measure("ellipse_half_length", "ellipse, half length", Unit,
                "Longer half axis of the ellipse that holds the true mean miss."),
            s => Unit.FromSi(s.Downwind.Value?.Ellipse.HalfLength)
        },
        {
            Columns.Measure("ellipse_half_width", "half width", Unit, "Shorter half axis of that ellipse."),
            s => Unit.FromSi(s.Downwind.Value?.Ellipse.HalfWidth)
        },
        { Columns.TSquared, s => s.Downwind.Value?.NoBias.TSquared }, { Columns.NoBiasP, s => s.Downwind.Value?.NoBias.PValue },
        { Columns.AdjustedP, s => s.AdjustedP }, { Columns.MissionsForDistance, s => s.MissionsForNamedDistance },
        { Columns.Note, s => s.Downwind.Reason ?? Beyond(s) },
    };

    private static string? Beyond(SpotterPattern s) =>
        s.Beyond == 0 ? null : $"{Rounding.Count(s.Beyond, "landing")} known only as beyond a distance left out";

    private sealed record FrameRow(SpotterPattern Of, string Frame, string Towards, Fit<MeanMiss> Mean, Estimate? Miss);

    private TableView FrameTable => new TableOf<FrameRow>("spotter-frames", "Mean miss in three frames, and of the exits",
        All.SelectMany(s => (IEnumerable<FrameRow>)
        [
            .. Rows(s, "forecast drift", s.Downwind, "long", "right"),
            .. Rows(s, "run", s.AlongRun, "beyond, as flown", "right of the run"),
            .. Rows(s, "exit on the run", s.ExitPlacement, "late, as flown", "right of the run"),
            .. Rows(s, "compass", s.Compass, "north", "east"),
        ]),
        $"{Intervals} Along the forecast drift: drift length, that is descent rate, height, wind read and wind growth. Across it: the wind "
        + "line and north. Along the run: exit timing and forward throw. Exits: each jumper's, from the recorded exit of the first, ground "
        + "speed and spacing. Compass: a wind set, or a shift of places.")
    {
        { Columns.SpotterCode, r => r.Of.Spotter }, { Columns.PatternFrame, r => r.Frame }, { Columns.PositiveTowards, r => r.Towards },
        { Columns.Missions, r => r.Mean.Value?.Missions ?? r.Of.Missions }, { Columns.Placed, r => r.Mean.Value?.Landings ?? r.Of.Placed },
        {
            Columns.SignedDistance("mean_miss", "mean miss", Unit, "Mean miss towards that side, or of the exits from the planned exit."),
            r => Shown(r.Miss)
        },
        { Columns.Note, r => r.Mean.Reason },
    };

    private static IEnumerable<FrameRow> Rows(SpotterPattern s, string frame, Fit<MeanMiss> mean, string first, string second) =>
        mean.Value is { } m ? [new(s, frame, first, mean, m.First), new(s, frame, second, mean, m.Second)]
        : [new(s, frame, $"{first}; {second}", mean, null)];

    private TableView SlopeTable => new TableOf<(SpotterPattern Of, string Towards, Fit<DriftSlope> Slope)>(
        "spotter-drift-slope", "How the miss goes with the length of the forecast drift",
        All.SelectMany(s => new[] { (s, "long", s.LongWithDrift), (s, "right", s.RightWithDrift) }),
        $"{Intervals} Least squares over landings, errors by leaving out each mission. A share other than zero: an error in proportion to "
        + "the drift; a miss at no drift: so much whatever the drift.")
    {
        { Columns.SpotterCode, r => r.Of.Spotter }, { Columns.PositiveTowards, r => r.Towards },
        { Columns.Missions, r => r.Slope.Value?.Missions ?? r.Of.Missions },
        { Columns.Placed, r => r.Slope.Value?.Landings ?? r.Of.Placed }, { Columns.MissPerDrift, r => r.Slope.Value?.Share },
        {
            Columns.SignedDistance("miss_at_no_drift", "at no drift", Unit, "Miss that the line has where the forecast drift is zero."),
            r => Shown(r.Slope.Value?.AtNoDrift)
        },
        { Columns.Measure("drift_from", "drift from", Unit, "Shortest forecast drift."), r => Unit.FromSi(r.Slope.Value?.ShortestDrift) },
        { Columns.Measure("drift_to", "to", Unit, "Longest forecast drift."), r => Unit.FromSi(r.Slope.Value?.LongestDrift) },
        { Columns.Note, r => r.Slope.Reason },
    };

    private TableView SpreadTable => new TableOf<SpotterPattern>(
        "spotter-scatter", "How far misses scatter, and what a mission's landings share", All,
        $"{Intervals} The share is what a mission's landings have in common: what steering left of its forecast error, and whatever else "
        + "they share. The rest is of the jumpers, of single passes and of measuring. "
        + "Where a spotter's missions can't tell it, it is the whole base's.")
    {
        { Columns.SpotterCode, s => s.Spotter }, { Columns.Missions, s => s.Missions }, { Columns.Placed, s => s.Placed },
        {
            Columns.DistanceRange("sd_downwind", "sd downwind", Unit, "Standard deviation along the forecast drift, about the mean miss."),
            s => Shown(s.Spread.Value?.SdDownwind.Value)
        },
        { Columns.DistanceRange("sd_right", "sd right", Unit, "Standard deviation across it."), s => Shown(s.Spread.Value?.SdRight.Value) },
        { Columns.MissQuantile(50, Unit), s => Shown(s.Spread.Value?.Median.Value) },
        { Columns.MissQuantile(90, Unit), s => Shown(s.Spread.Value?.R90.Value) },
        { Columns.ForecastShare, s => s.Shares.Value?.Overall.Share }, { Columns.ShareDownwind, s => s.Shares.Value?.Along.Share },
        { Columns.ShareRight, s => s.Shares.Value?.Right.Share },
        { Columns.SharesFrom, s => !s.Shares.Success ? null : s.SharesOfBase ? "whole base" : "own missions" },
        { Columns.Note, s => s.Spread.Reason ?? s.Shares.Reason ?? Beyond(s) },
    };

    private sealed record DirectionRow(SpotterPattern Of, string Frame, MissionDirections Directions, bool Few)
    {
        /// <summary>What is shown; null with too few missions.</summary>
        public DirectionSummary? Summary => Few ? null : Directions.Summary.Value;
    }

    private TableView DirectionTable => new TableOf<DirectionRow>("spotter-directions", "The way missions miss",
        All.SelectMany(s => new[] { ("forecast drift", s.Relative), ("compass", s.Bearings) },
            (s, d) => new DirectionRow(s, d.Item1, d.Item2, s.Missions < Settings.FewestMissions)),
        "One direction a mission, that of its mean miss, because its landings share a forecast. Degrees clockwise from downwind (0 long, "
        + "90 right, 180 short, 270 left) or from true north. A mean miss within "
        + $"{Rounding.Short(Unit.FromSi(Settings.NoDirectionWithin))} {Unit.Suffix} has no direction. Rayleigh's p is exact and looks for "
        + "one preferred direction. Many tests stand here: a small p among them is a hint, not a finding.")
    {
        { Columns.SpotterCode, r => r.Of.Spotter }, { Columns.PatternFrame, r => r.Frame },
        { Columns.WithDirection, r => r.Directions.Summary.Value?.Count ?? 0 },
        { Columns.WithoutDirection, r => r.Directions.WithoutDirection },
        { Columns.MeanDirection, r => r.Summary is { } d ? Mean(d) : null },
        { Columns.MedianDirection, r => r.Summary is { } d ? Turned(d.Median) : null },
        { Columns.MeanResultant, r => r.Summary?.MeanResultant },
        { Columns.CircularSd, r => r.Summary is { } d ? double.RadiansToDegrees(d.CircularSd) : null },
        { Columns.Concentration, r => r.Summary?.Concentration },
        { Columns.RayleighP, r => r.Summary is null ? null : r.Directions.Rayleigh.Value?.PValue },
        { Columns.MooreP, r => r.Summary is null ? null : r.Directions.Moore.Value?.PValue },
        {
            Columns.Note, r => r.Summary is { } d ? d.WhyNoRange
                : r.Directions.Summary.Reason ?? $"{Rounding.Count(r.Of.Missions, "mission")}: given from {Settings.FewestMissions} on"
        },
    };

    private static Estimate Mean(DirectionSummary d) => d.MeanRange is { } range
        ? Estimate.Of(Turned(d.Mean), new Interval(Turned(range.Low), Turned(range.High)))
        : Estimate.WithoutRange(Turned(d.Mean), d.WhyNoRange!);

    private static double Turned(double radians) => double.RadiansToDegrees(DirectionSummary.Turned(radians));

    private Estimate? Shown(Estimate? metres) => metres?.Select(Unit.FromSi);
}
