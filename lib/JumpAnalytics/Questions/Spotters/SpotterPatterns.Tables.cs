namespace JumpAnalytics;

public sealed partial class SpotterPatterns
{
    private IEnumerable<SpotterPattern> All => Spotters.Prepend(Base);

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [BiasTable, FrameTable, SlopeTable, SpreadTable, DirectionTable];

    private string Intervals => $"Intervals at {Rounding.Percent(Options.Confidence)}, between missions.";

    private TableView BiasTable => new("spotter-bias", "Mean miss in the downwind frame",
        [
            Columns.SpotterCode, Columns.Missions, Columns.Placed, Columns.BiasDownwind(Unit), Columns.BiasRight(Unit),
            Columns.Measure("ellipse_half_length", "ellipse, half length", Unit, "Longer half axis of the ellipse that holds the true mean miss."),
            Columns.Measure("ellipse_half_width", "half width", Unit, "Shorter half axis of that ellipse."),
            Columns.TSquared, Columns.NoBiasP, Columns.AdjustedP, Columns.MissionsForDistance, Columns.Note,
        ],
        [.. All.Select(s => s.Downwind.Value is { } m
            ? new object?[] { s.Spotter, s.Missions, s.Placed, Metres(m.First), Metres(m.Second), Unit.FromSi(m.Ellipse.HalfLength), Unit.FromSi(m.Ellipse.HalfWidth), m.NoBias.TSquared, m.NoBias.PValue, s.AdjustedP, s.MissionsForNamedDistance, Beyond(s) }
            : [s.Spotter, s.Missions, s.Placed, null, null, null, null, null, null, null, s.MissionsForNamedDistance, s.Downwind.Reason])],
        $"{Intervals} + long, + right. Ellipse and p look at both axes at once (Hotelling), p of all spotters together by Holm. The named distance is {Rounding.Short(Unit.FromSi(Settings.NamedDistance))} {Unit.Suffix}, a setting of the reader's. Ordered by code.");

    private static string? Beyond(SpotterPattern s) => s.Beyond == 0 ? null : $"{Rounding.Count(s.Beyond, "landing")} known only as beyond a distance left out";

    private TableView FrameTable => new("spotter-frames", "Mean miss in three frames, and of the exits",
        [
            Columns.SpotterCode, Columns.PatternFrame, Columns.PositiveTowards, Columns.Missions, Columns.Placed,
            Columns.SignedDistance("mean_miss", "mean miss", Unit, "Mean miss towards that side, or of the exits from the planned exit."), Columns.Note,
        ],
        [.. All.SelectMany(s => Rows(s, "forecast drift", s.Downwind, "long", "right")
            .Concat(Rows(s, "run", s.AlongRun, "beyond, as flown", "right of the run"))
            .Concat(Rows(s, "exit on the run", s.ExitPlacement, "late, as flown", "right of the run"))
            .Concat(Rows(s, "compass", s.Compass, "north", "east")))],
        $"{Intervals} Along the forecast drift: drift length, that is descent rate, height, wind read and wind growth. Across it: the wind line and north. Along the run: exit timing and forward throw. "
            + "Exits: each jumper's, from the recorded exit of the first, ground speed and spacing. Compass: a wind set, or a shift of places.");

    private IEnumerable<object?[]> Rows(SpotterPattern s, string frame, Fit<MeanMiss> mean, string first, string second) => mean.Value is { } m
        ? [[s.Spotter, frame, first, m.Missions, m.Landings, Metres(m.First), null], [s.Spotter, frame, second, m.Missions, m.Landings, Metres(m.Second), null]]
        : [[s.Spotter, frame, $"{first}; {second}", s.Missions, s.Placed, null, mean.Reason]];

    private TableView SlopeTable => new("spotter-drift-slope", "How the miss goes with the length of the forecast drift",
        [
            Columns.SpotterCode, Columns.PositiveTowards, Columns.Missions, Columns.Placed, Columns.MissPerDrift,
            Columns.SignedDistance("miss_at_no_drift", "at no drift", Unit, "Miss that the line has where the forecast drift is zero."),
            Columns.Measure("drift_from", "drift from", Unit, "Shortest forecast drift."), Columns.Measure("drift_to", "to", Unit, "Longest forecast drift."), Columns.Note,
        ],
        [.. All.SelectMany(s => new[] { ("long", s.LongWithDrift), ("right", s.RightWithDrift) }.Select(p => p.Item2.Value is { } d
            ? new object?[] { s.Spotter, p.Item1, d.Missions, d.Landings, d.Share, Metres(d.AtNoDrift), Unit.FromSi(d.ShortestDrift), Unit.FromSi(d.LongestDrift), null }
            : [s.Spotter, p.Item1, s.Missions, s.Placed, null, null, null, null, p.Item2.Reason]))],
        $"{Intervals} Least squares over landings, errors by leaving out each mission. A share other than zero: an error in proportion to the drift; a miss at no drift: so much whatever the drift.");

    private TableView SpreadTable => new("spotter-scatter", "How far misses scatter, and what a mission's landings share",
        [
            Columns.SpotterCode, Columns.Missions, Columns.Placed,
            Columns.DistanceRange("sd_downwind", "sd downwind", Unit, "Standard deviation along the forecast drift, about the mean miss."),
            Columns.DistanceRange("sd_right", "sd right", Unit, "Standard deviation across it."),
            Columns.MissQuantile(50, Unit), Columns.MissQuantile(90, Unit), Columns.ForecastShare, Columns.ShareDownwind, Columns.ShareRight, Columns.SharesFrom, Columns.Note,
        ],
        [.. All.Select(s => new object?[]
        {
            s.Spotter, s.Missions, s.Placed, Spread(s, x => x.SdDownwind), Spread(s, x => x.SdRight), Spread(s, x => x.Median), Spread(s, x => x.R90),
            s.Shares.Value?.Overall.Share, s.Shares.Value?.Along.Share, s.Shares.Value?.Right.Share, s.Shares.Success ? (s.SharesOfBase ? "whole base" : "own missions") : null, s.Spread.Reason ?? s.Shares.Reason ?? Beyond(s),
        })],
        $"{Intervals} The share that a mission's landings have in common is the forecast's part of the scatter; the rest is the jumpers' own, measurement included. Where a spotter's missions can't tell it, it is the whole base's.");

    private Estimate? Spread(SpotterPattern s, Func<MissSpread, Fit<Estimate>> figure) => s.Spread.Value is { } spread && figure(spread).Value is { } value ? Metres(value) : null;

    private TableView DirectionTable => new("spotter-directions", "The way missions miss",
        [
            Columns.SpotterCode, Columns.PatternFrame, Columns.WithDirection, Columns.WithoutDirection, Columns.MeanDirection, Columns.MedianDirection, Columns.MeanResultant,
            Columns.CircularSd, Columns.Concentration, Columns.RayleighP, Columns.MooreP, Columns.Note,
        ],
        [.. All.SelectMany(s => new[] { ("forecast drift", s.Relative), ("compass", s.Bearings) }.Select(p => Row(s, p.Item1, p.Item2)))],
        $"One direction a mission, that of its mean miss, because its landings share a forecast. Degrees clockwise from downwind (0 long, 90 right, 180 short, 270 left) or from true north. A mean miss within {Rounding.Short(Unit.FromSi(Settings.NoDirectionWithin))} {Unit.Suffix} has no direction. "
            + "Rayleigh's p is exact and looks for one preferred direction. Many tests stand here: a small p among them is a hint, not a finding.");

    private object?[] Row(SpotterPattern s, string frame, MissionDirections d)
    {
        if (s.Missions < Settings.FewestMissions || d.Summary.Value is not { } v)
            return [s.Spotter, frame, d.Summary.Value?.Count ?? 0, d.WithoutDirection, null, null, null, null, null, null, null, d.Summary.Reason ?? $"{Rounding.Count(s.Missions, "mission")}: given from {Settings.FewestMissions} on"];
        var mean = v.MeanRange is { } range ? Estimate.Of(Turn(v.Mean), new Interval(Turn(range.Low), Turn(range.High))) : Estimate.WithoutRange(Turn(v.Mean), v.WhyNoRange!);
        return [s.Spotter, frame, v.Count, d.WithoutDirection, mean, Turn(v.Median), v.MeanResultant, double.RadiansToDegrees(v.CircularSd), v.Concentration, d.Rayleigh.Value?.PValue, d.Moore.Value?.PValue, v.WhyNoRange];

        static double Turn(double radians) => double.RadiansToDegrees(DirectionSummary.Turned(radians));
    }

    private Estimate Metres(Estimate metres) => metres.Select(Unit.FromSi);
}
