namespace JumpAnalytics;

/// <summary>
/// What a log does not tell of its drift streamers and has to be assumed. Inputs, not findings: put in your own. SI units; changed with
/// <c>with</c>.
/// </summary>
[TypeFormatterSource]
public sealed record StreamerFigures
{
    private static readonly MeasureUnit _feet = MeasureUnit.Distance("ft");

    /// <summary>
    /// Metres per second at which streamers fall at sea level. 16.7 ft/s, the rate of a canopy, for they are made to fall as fast: common
    /// practice, no source.
    /// </summary>
    public double DescentRate { get; init; } = _feet.ToSi(16.7);

    /// <summary>
    /// How the wind changes with height where no wind near the ground tells it. The seventh root of the height: usual over open ground (AMS
    /// Glossary of Meteorology, wind profile power law).
    /// </summary>
    public WindFill Shape { get; init; } = new(WindLaw.Power);

    /// <summary>
    /// Seconds in which the speed of a jumper along the run falls to 37 %. 0.97: so that 90 knots throw 45 m, half the airspeed in knots as
    /// metres, a rule from memory. The ground speed stands for the airspeed, which is not in the log.
    /// </summary>
    public double ThrowSeconds { get; init; } = 45 / MeasureUnit.Speed("kt").ToSi(90);

    /// <summary>
    /// For looking back over seasons: metres above ground from which streamers are dropped. 1,500 ft: common practice, no source.
    /// </summary>
    public double ReleaseHeight { get; init; } = _feet.ToSi(1500);

    /// <summary>For looking back over seasons: share by which streamers fall faster than the canopy. 0.1: assumption.</summary>
    public double FasterBy { get; init; } = 0.1;

    /// <summary>The throw of a pass; null where run or ground speed were not recorded.</summary>
    internal ExitThrow? ThrowOf(Drop drop) =>
        drop is { RunHeading: { } run, GroundSpeed: { } speed } ? new ExitThrow(speed, run, ThrowSeconds) : null;
}
