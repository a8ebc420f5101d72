namespace JumpAnalytics;

/// <summary>
/// How large the sources of a forecast's error are taken to be. Inputs, not findings: most of the values to begin with are assumptions
/// without a source, and each says so. SI units; each may be zero. Changed with <c>with</c>.
/// </summary>
[TypeFormatterSource]
public sealed record ForecastErrorSources
{
    private static readonly double _mph = MeasureUnit.Speed("mph").Si, _yard = MeasureUnit.Distance("yd").Si;

    /// <summary>
    /// Change of the wind since the streamers, standard deviation per axis at <see cref="ReferenceAge"/>, m/s.
    /// 0.8 mph at 5 minutes: assumption.
    /// </summary>
    public double WindChange { get; init; } = 0.8 * _mph;

    /// <summary>Seconds at which that holds; 5 minutes.</summary>
    public double ReferenceAge { get; init; } = 300;

    /// <summary>
    /// Exponent of the variance of that change with age: 2/3, the shape published for winds aloft (Merceret 1997, J Appl Meteorol 36:1567).
    /// </summary>
    public double AgeExponent { get; init; } = 2 / 3.0;

    /// <summary>Share of that variance which every height has in common; the rest belongs to layers. 0.7: assumption.</summary>
    public double SharedByHeight { get; init; } = 0.7;

    /// <summary>Metres of height over which the layers' part forgets itself. 300: assumption.</summary>
    public double LayerDepth { get; init; } = 300;

    /// <summary>Error of reading the streamers along the drift, as a share of its length. 0.12: assumption (10 to 15 %).</summary>
    public double ReadingShare { get; init; } = 0.12;

    /// <summary>Error of reading their direction, radians. 5 degrees: assumption (4 to 6).</summary>
    public double ReadingAngle { get; init; } = double.DegreesToRadians(5);

    /// <summary>Least error of reading per axis, metres. 15 yards: assumption.</summary>
    public double ReadingFloor { get; init; } = 15 * _yard;

    /// <summary>Error of the exit's timing, seconds along the run. 0.65: computed from 25 to 40 yards (0.5 to 0.8 s).</summary>
    public double ExitTiming { get; init; } = 0.65;

    /// <summary>Error of the exit across the run, metres. 10 yards: assumption.</summary>
    public double ExitAcross { get; init; } = 10 * _yard;

    /// <summary>Spread of descent rates, as a share of the rate. 0.07: computed from 15 ± 1 ft/s, an assumption.</summary>
    public double DescentRate { get; init; } = 0.07;

    /// <summary>Share of the unsteered miss that steering leaves; 1 for an unsteered canopy. 0.2: assumption.</summary>
    public double SteeringLeaves { get; init; } = 0.2;

    /// <summary>
    /// What a jumper adds, standard deviation per axis, metres. 13 yards: from a median miss of 15 to 20 yards, an assumption.
    /// </summary>
    public double JumperOwn { get; init; } = 13 * _yard;

    /// <summary>Nothing goes wrong.</summary>
    public static ForecastErrorSources None { get; } = new()
    {
        WindChange = 0, ReadingShare = 0, ReadingAngle = 0, ReadingFloor = 0, ExitTiming = 0, ExitAcross = 0,
        DescentRate = 0, SteeringLeaves = 1, JumperOwn = 0,
    };

    /// <summary>The same sources for a canopy that nobody steers.</summary>
    public ForecastErrorSources WithoutSteering() => this with { SteeringLeaves = 1, JumperOwn = 0 };

    /// <summary>Standard deviation per axis of the wind's change at an age, m/s.</summary>
    internal double WindSd(double age) => WindChange * Math.Pow(Math.Max(age, 0) / ReferenceAge, AgeExponent / 2);
}
