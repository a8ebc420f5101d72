namespace JumpAnalytics;

/// <summary>The earth's main magnetic field at a place and moment, in geodetic north, east and down.</summary>
/// <remarks>
/// It is the model's field, from the earth's core; rock, steel and magnetic storms at the place add to it.
/// <see cref="DeclinationError"/> counts rock and storms, not steel.
/// </remarks>
[TypeFormatterSource]
public sealed record MagneticField
{
    internal const double BlackoutBelow = 2000;
    internal const double CautionBelow = 6000;

    internal MagneticField(MagneticVector field, MagneticVector rate)
    {
        (North, East, Down) = field;
        Horizontal = Math.Sqrt(North * North + East * East);
        Total = Math.Sqrt(Horizontal * Horizontal + Down * Down);
        AnnualChange = new MagneticChange(this, rate);
    }

    /// <summary>Component to true north (X), nanotesla.</summary>
    public double North { get; }

    /// <summary>Component to the east (Y), nanotesla.</summary>
    public double East { get; }

    /// <summary>Component downward (Z), nanotesla; negative over most of the southern hemisphere.</summary>
    public double Down { get; }

    /// <summary>Strength of the horizontal part (H), which turns a compass needle, nanotesla.</summary>
    public double Horizontal { get; }

    /// <summary>Strength of the whole field (F), nanotesla.</summary>
    public double Total { get; }

    /// <summary>
    /// Declination (D, the variation of charts): degrees from true north to magnetic north, −180 to 180, positive east.
    /// True bearing = magnetic bearing + declination.
    /// </summary>
    public double Declination => double.RadiansToDegrees(Math.Atan2(East, North));

    /// <summary>Inclination (I, dip): degrees of the field below the horizontal, −90 to 90, positive down.</summary>
    public double Inclination => double.RadiansToDegrees(Math.Atan2(Down, Horizontal));

    /// <summary>How much each of these changes in a year, by the model's secular variation.</summary>
    public MagneticChange AnnualChange { get; }

    /// <summary>
    /// Standard error of the declination as a compass would show it, degrees: √(0.26² + (5417 / H)²); 0.39° at 47° N,
    /// 114° W, 0.94° at the edge of the caution zone.
    /// </summary>
    /// <remarks>
    /// Source: error model of WMM2025 (technical report, section 3.4, equation 43), one standard deviation on the ground
    /// over the model's five years, rock and storms included. Quoted from memory and found alike in second-hand
    /// copies; not compared with the report itself.
    /// </remarks>
    public double DeclinationError => double.Hypot(0.26, 5417 / Horizontal);

    /// <summary>
    /// Whether the place is in the caution zone about a magnetic pole, horizontal field below 6000 nT: a compass may be
    /// off by degrees. (Below 2000 nT, in the blackout zone, the model gives no field.)
    /// </summary>
    /// <remarks>Source: WMM2025 technical report, section 1.8, from memory and second-hand copies.</remarks>
    public bool IsInCautionZone => Horizontal < CautionBelow;
}

/// <summary>What the elements of a <see cref="MagneticField"/> change by in a year.</summary>
[TypeFormatterSource]
public readonly record struct MagneticChange
{
    internal MagneticChange(MagneticField field, MagneticVector rate)
    {
        (North, East, Down) = rate;
        Horizontal = (field.North * North + field.East * East) / field.Horizontal;
        Total = (field.Horizontal * Horizontal + field.Down * Down) / field.Total;
        Declination = double.RadiansToDegrees(
            (field.North * East - field.East * North) / (field.Horizontal * field.Horizontal));
        Inclination = double.RadiansToDegrees(
            (field.Horizontal * Down - field.Down * Horizontal) / (field.Total * field.Total));
    }

    /// <summary>Change of the north component, nanotesla per year.</summary>
    public double North { get; }

    /// <summary>Change of the east component, nanotesla per year.</summary>
    public double East { get; }

    /// <summary>Change of the downward component, nanotesla per year.</summary>
    public double Down { get; }

    /// <summary>Change of the horizontal strength, nanotesla per year.</summary>
    public double Horizontal { get; }

    /// <summary>Change of the total strength, nanotesla per year.</summary>
    public double Total { get; }

    /// <summary>Change of the declination, degrees per year, positive when magnetic north moves east.</summary>
    public double Declination { get; }

    /// <summary>Change of the inclination, degrees per year, positive when the dip grows.</summary>
    public double Inclination { get; }
}

/// <summary>Three components, nanotesla or nanotesla per year.</summary>
internal readonly record struct MagneticVector(double North, double East, double Down)
{
    /// <summary>Adds the weights times one factor north and down and another east.</summary>
    public MagneticVector Plus(MagneticVector weight, double northAndDown, double east) =>
        new(North + weight.North * northAndDown, East + weight.East * east, Down + weight.Down * northAndDown);

    /// <summary>Turned about east from geocentric to geodetic, by geocentric minus geodetic latitude.</summary>
    public MagneticVector Tilted(double sin, double cos) =>
        new(North * cos - Down * sin, East, North * sin + Down * cos);
}
