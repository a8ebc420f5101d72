namespace JumpAnalytics;

/// <summary>
/// How the misses of one spotter's missions, or of the whole base's, lie: three frames apart, because each points to something else.
/// </summary>
[TypeFormatterSource]
public sealed record SpotterPattern
{
    /// <summary>Code of the spotter, or <see cref="JumpLog.All"/>.</summary>
    public required string Spotter { get; init; }

    /// <summary>Whether it is the whole base.</summary>
    public required bool IsBase { get; init; }

    /// <summary>Missions with a landing.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings whose place is known.</summary>
    public required int Placed { get; init; }

    /// <summary>Landings known only as beyond a distance: left out of means.</summary>
    public required int Beyond { get; init; }

    /// <summary>Mean miss in the downwind frame: + long, + right. Or why it is not given, and how many missions it would take.</summary>
    public required Fit<MeanMiss> Downwind { get; init; }

    /// <summary>
    /// Mean miss along the run: + beyond the spot as the aircraft flies, + right of the run. Exit timing and forward throw show here.
    /// </summary>
    public required Fit<MeanMiss> AlongRun { get; init; }

    /// <summary>
    /// Mean of each jumper's actual exit less the planned one, along and right of the run, from the recorded exit of the first
    /// jumper, ground speed and spacing.
    /// </summary>
    public required Fit<MeanMiss> ExitPlacement { get; init; }

    /// <summary>Mean miss north and east.</summary>
    public required Fit<MeanMiss> Compass { get; init; }

    /// <summary>How the miss along the forecast drift grows with the drift's length.</summary>
    public required Fit<DriftSlope> LongWithDrift { get; init; }

    /// <summary>How the miss across it grows with the drift's length: a constant angle, as of a wrong north, shows as a share.</summary>
    public required Fit<DriftSlope> RightWithDrift { get; init; }

    /// <summary>How far the misses scatter; the reason why not when there are too few missions.</summary>
    public required Fit<MissSpread> Spread { get; init; }

    /// <summary>The share of the variance that the landings of a mission have in common.</summary>
    public required Fit<ForecastShares> Shares { get; init; }

    /// <summary>Whether <see cref="Shares"/> are those of the whole base, because this spotter's missions can't tell them.</summary>
    public required bool SharesOfBase { get; init; }

    /// <summary>Directions relative to the forecast drift: 0 = long, 90° = right.</summary>
    public required MissionDirections Relative { get; init; }

    /// <summary>Compass directions.</summary>
    public required MissionDirections Bearings { get; init; }

    /// <summary>
    /// P-value of no bias in the downwind frame, held together with all other looks of the patterns, or of the review they are part of
    /// (Holm 1979); null where there is no test.
    /// </summary>
    public double? AdjustedP { get; init; }

    /// <summary>Names of the looks: mean miss, its growth with the drift along and across, exits, run, compass.</summary>
    internal const string MeanLook = "mean miss", LongLook = "miss along with drift", RightLook = "miss across with drift",
        ExitLook = "exit", RunLook = "run", CompassLook = "compass";

    /// <summary>The looks taken at this pattern.</summary>
    internal IEnumerable<Look> LooksTaken =>
        new (string What, double? P)[]
        {
            (MeanLook, Downwind.Value?.NoBias.PValue), (LongLook, LongWithDrift.Value?.PValue), (RightLook, RightWithDrift.Value?.PValue),
            (ExitLook, ExitPlacement.Value?.FirstP), (RunLook, AlongRun.Value?.FirstP), (CompassLook, Compass.Value?.NoBias.PValue),
        }.Where(l => l.P is not null).Select(l => new Look(Spotter, l.What, l.P!.Value));

    /// <summary>Missions that would give both axes to within the named distance; null where nothing can be said.</summary>
    public int? MissionsForNamedDistance { get; init; }

    /// <summary>Median target radius, metres: for scale.</summary>
    public required double TargetRadius { get; init; }
}
