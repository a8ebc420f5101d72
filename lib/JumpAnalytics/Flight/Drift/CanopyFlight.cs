namespace JumpAnalytics;

/// <summary>
/// How far a class of canopy can be steered: the inputs of its reach, each with where it comes from. Inputs, not facts: put in
/// those of the canopies you fly.
/// </summary>
/// <param name="Canopy">The class, as the log names it.</param>
/// <param name="ForwardSpeed">Metres per second through the air, at full glide.</param>
/// <param name="DescentRate">Metres per second downward.</param>
/// <param name="Source">Where the two figures come from.</param>
[TypeFormatterSource]
public sealed record CanopyFlight(string Canopy, double ForwardSpeed, double DescentRate, string Source)
{
    private static readonly MeasureUnit _mph = MeasureUnit.Speed("mph");
    private static readonly MeasureUnit _feet = MeasureUnit.Distance("ft");

    /// <summary>
    /// Figures to begin with. Forward speeds: a fire aviation trade article of 3 May 2017 gives 9 mph for a slotted round canopy and 20 to
    /// 25 mph for a ram-air one. Descent: 16.7 ft/s for both, common practice, no source. Replace them by those of your canopies.
    /// </summary>
    public static IReadOnlyList<CanopyFlight> Examples { get; } =
    [
        new("round", _mph.ToSi(9), _feet.ToSi(16.7),
            "9 mph: fire aviation trade article, 3 May 2017; 16.7 ft/s: common practice, no source"),
        new("ram-air", _mph.ToSi(20), _feet.ToSi(16.7),
            "20 mph: fire aviation trade article, 3 May 2017 (20 to 25); 16.7 ft/s: common practice, no source"),
    ];

    /// <summary>How fast it comes down, by the density of the air: the rate above holds at sea level.</summary>
    public CanopyDescent Descent => new(DescentRate);

    /// <summary>The figures of a class; null when there are none, or the class is not known.</summary>
    /// <param name="canopy">The class, as the log names it; upper and lower case alike.</param>
    /// <param name="canopies">The figures there are.</param>
    public static CanopyFlight? Of(string? canopy, IReadOnlyList<CanopyFlight> canopies) =>
        canopies.FirstOrDefault(c => string.Equals(c.Canopy, canopy, StringComparison.OrdinalIgnoreCase));

    /// <summary>
    /// Metres that the canopy can be steered in still air from a height: forward speed × usable time. Thin air makes it faster forward and
    /// downward alike, so that the reach is the same at every elevation.
    /// </summary>
    /// <param name="usableHeight">Metres above ground over which it can be steered, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The height is negative or not finite.</exception>
    public double Reach(double usableHeight) =>
        ForwardSpeed * Guard.NotNegative(usableHeight, hint: "metres") / DescentRate;
}
