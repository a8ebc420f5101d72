namespace JumpAnalytics;

public sealed partial class SpotterPatterns
{
    private MeasureUnit Unit => Options.Units.Distance;

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var thin = Spotters.Count(s => !s.Downwind.Success);
            var told = Spotters.Where(s => Found(s, SpotterPattern.MeanLook)).ToList();
            var tested = Spotters.Count - thin;
            return $"{Rounding.Count(Base.Missions, "mission")}, {Rounding.Count(Base.Placed, "landing")} with a known place, "
                + $"{Rounding.Count(Spotters.Count, "spotter")}. "
                + (Base.Downwind.Value is { } all
                    ? $"The base's mean miss is {Both(all)}. " : $"The base's mean miss can't be given: {Base.Downwind.Reason}. ")
                + (tested == 0 ? "No spotter has missions enough for a pattern of their own. "
                    : $"Of {Rounding.Count(tested, "spotter")} with {Settings.FewestMissions} missions or more, "
                        + (told.Count == 0 ? $"none has a mean miss beyond chance after {Looked}. "
                            : $"{string.Join(", ", told.Select(s => s.Spotter))} {(told.Count == 1 ? "has" : "have")} "
                                + $"a mean miss beyond chance after {Looked}: "
                                + $"{string.Join("; ", told.Select(s => $"{s.Spotter} {Both(s.Downwind.Value!)}, {Missions(s)}"))}. "))
                + (thin > 0 ? $"{Rounding.Count(thin, "spotter")} {(thin == 1 ? "has" : "have")} too few missions for a pattern. " : "")
                + "A mean miss belongs to missions as they were flown, with their winds, ground, canopies and jumpers; "
                + "it does not rate a person.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. new[] { Base }.Concat(Spotters).SelectMany(PointsOf),
        .. Spotters.Any(s => s.Downwind.Success)
            ? new[] { $"A direction is named only where the chance of even one false finding among {Looked} is below "
                + $"{Rounding.Percent(1 - Options.Confidence)}. An interval in a table that leaves out zero is no finding by itself." }
            : [],
    ];

    private string Looked => $"{Rounding.Count(Looks.Count, "look")} (Holm, {Rounding.Percent(1 - Options.Confidence)} level)";

    private bool Found(SpotterPattern s, string what) => Looks.Found(s.Spotter, what, Options.Confidence);

    private static string Missions(SpotterPattern s) =>
        $"{Rounding.Count(s.Missions, "mission")} and {Rounding.Count(s.Placed, "landing")}";

    private string In(Estimate metres, bool signed = true) => $"{Rounding.Number(metres.Select(Unit.FromSi), signed)} {Unit.Suffix}";

    private string Both(MeanMiss mean) => $"{In(mean.First)} downwind (+ long) and {In(mean.Second)} right";

    private IEnumerable<string> PointsOf(SpotterPattern s)
    {
        var who = s.IsBase ? "Whole base" : s.Spotter;
        if (s.Downwind.Value is not { } mean)
        {
            yield return $"{who}: {s.Downwind.Reason}.";
            yield break;
        }
        var place = $"{who} ({Missions(s)})";
        var (along, across) = Found(s, SpotterPattern.MeanLook) ? (Side(mean.First), Side(mean.Second)) : (0, 0);
        if (along != 0)
            yield return $"{place}: mean miss {In(mean.First)} along the drift, {(along > 0 ? "long" : "short")}. "
                + $"Look next at what makes the drift {(along > 0 ? "longer" : "shorter")} than forecast: "
                + (along > 0
                    ? "wind read low, or growing after the streamers or above their height; exit height; a slower descent"
                    : "wind read high, or falling after the streamers; exit height; a faster descent") + " than reckoned.";
        if (across != 0)
            yield return $"{place}: mean miss {In(mean.Second)} across the drift, {(across > 0 ? "right" : "left")}. "
                + "Look next at the wind line: north (true or magnetic) of the drift's bearing, wind turning with height or time.";
        if (along == 0 && across == 0) yield return Nothing(place, s, mean);
        if (s.LongWithDrift.Value is { } slope && Found(s, SpotterPattern.LongLook))
            yield return $"{place}: the miss along the drift {(slope.Share.Value > 0 ? "grows" : "falls")} with the forecast drift by "
                + $"{Rounding.Points(slope.Share)} {Unit.Suffix} per 100 {Unit.Suffix}"
                + (Side(slope.AtNoDrift) == 0
                    ? ", and is not clearly different from nothing at no drift: an error in proportion, as of a wind read off by some "
                        + "percent."
                    : $", and is {In(slope.AtNoDrift)} at no drift: not in proportion alone.");
        if (s.RightWithDrift.Value is { } turn && Found(s, SpotterPattern.RightLook))
            yield return $"{place}: the miss across the drift goes with the forecast drift by {Rounding.Points(turn.Share)} {Unit.Suffix} "
                + $"per 100 {Unit.Suffix} (+ right): as of a bearing some degrees off. Look next at north and declination.";
        foreach (var point in Elsewhere(place, s)) yield return point;
    }

    private string Nothing(string place, SpotterPattern s, MeanMiss mean)
    {
        var most = new[] { mean.First.Range!.Value, mean.Second.Range!.Value }.Max(r => Math.Max(Math.Abs(r.Low), Math.Abs(r.High)));
        var found = Found(s, SpotterPattern.MeanLook) ? "beyond chance, on neither axis by itself" : $"within chance after {Looked}";
        return $"{place}: mean miss {Both(mean)}: {found}. It may be as much as {Rounding.Fixed(Unit.FromSi(most), 0)} {Unit.Suffix} on an "
            + "axis" + (most <= Settings.NamedDistance ? "." : $"; about {s.MissionsForNamedDistance} missions would give it to within "
                + $"{Rounding.Short(Unit.FromSi(Settings.NamedDistance))} {Unit.Suffix}.");
    }

    private IEnumerable<string> Elsewhere(string place, SpotterPattern s)
    {
        if (s.ExitPlacement.Value is { } exit && Found(s, SpotterPattern.ExitLook) && Side(exit.First) is var late and not 0)
            yield return $"{place}: jumpers left {In(exit.First)} along the run from the planned exit ({(late > 0 ? "late" : "early")}; "
                + $"{Rounding.Count(exit.Missions, "mission")} and {Rounding.Count(exit.Landings, "landing")} with the exit recorded). "
                + "Look next at exit timing and ground speed.";
        if (s.AlongRun.Value is { } run && Found(s, SpotterPattern.RunLook) && Side(run.First) is var beyond and not 0)
            yield return $"{place}: landings lie {In(run.First)} "
                + $"along the run ({(beyond > 0 ? "beyond the spot as the aircraft flies" : "before the spot")}). "
                + "Where runs are into the wind this is the same as short or long; else look at exit timing and forward throw.";
        if (s.Compass.Value is { } compass && s.Downwind.Value is { } frame && compass.NoBias.PValue < frame.NoBias.PValue
            && Found(s, SpotterPattern.CompassLook) && compass.Direction.Range is { } cone)
            yield return $"{place}: misses keep to the compass more than to the drift, towards {Degrees(compass.Direction.Direction)}° "
                + $"true ({Degrees(cone.Low)} to {Degrees(cone.High)}): as of a wind set below the streamers' height or a shift of "
                + "recorded places (datum). Look next at those.";
    }

    private static string Degrees(double radians) => Rounding.Fixed(double.RadiansToDegrees(DirectionSummary.Turned(radians)), 0);

    private static int Side(Estimate estimate) => estimate.Range switch { { Low: > 0 } => 1, { High: < 0 } => -1, _ => 0 };
}
