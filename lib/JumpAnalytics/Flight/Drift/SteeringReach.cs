namespace JumpAnalytics;

/// <summary>
/// Where a canopy can still be steered to: the place the wind alone would take it to, and a circle about it of what it can fly through the air in the time left.
/// </summary>
/// <remarks>Thin air makes a canopy faster through the air and downward alike, both as one over the root of the density, so that the circle hardly depends on the elevation.</remarks>
/// <param name="Height">Metres above the landing ground.</param>
/// <param name="Seconds">Time left.</param>
/// <param name="Drift">Metres that the wind carries it in that time.</param>
/// <param name="Radius">Metres it can fly through the air in that time, as far as it may be used.</param>
[TypeFormatterSource]
public sealed record SteeringReach(double Height, double Seconds, LocalVector Drift, double Radius)
{
    /// <summary>Middle of the window: of the circle of places at this height, of the radius of the reach, from which the spot can still be reached. Metres east and north of the spot; upwind of it.</summary>
    public LocalVector WindowCentre => -Drift;

    /// <summary>Whether a canopy at this height can come down on the spot.</summary>
    /// <param name="place">Metres east and north of the spot.</param>
    public bool HoldsSpot(LocalVector place) => (place + Drift).Length <= Radius;

    /// <summary>How far it is beyond reach, or how much reach is left over (negative), metres.</summary>
    /// <param name="place">Metres east and north of the spot.</param>
    public double Beyond(LocalVector place) => (place + Drift).Length - Radius;

    /// <summary>The reach at a height.</summary>
    /// <param name="height">Metres above the landing ground, zero or more.</param>
    /// <param name="wind">The wind by height.</param>
    /// <param name="canopy">How fast the canopy comes down.</param>
    /// <param name="forwardSpeed">Metres per second through the air, at the density where the descent rate is told.</param>
    /// <param name="groundElevation">Metres above sea level.</param>
    /// <param name="usable">Share of it that may be used: the rest is kept for the pattern and the last turn. 1 unless said otherwise; an input of the reader's.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative height or speed, or a share that is not between 0 and 1.</exception>
    public static SteeringReach At(double height, WindProfile wind, CanopyDescent canopy, double forwardSpeed, double groundElevation = 0, double usable = 1)
    {
        if (!(height >= 0) || !(forwardSpeed >= 0) || !(usable is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(height), height, "A height and a forward speed of zero or more, and a usable share between 0 and 1.");
        if (height == 0) return new SteeringReach(0, 0, default, 0);
        var path = DriftModel.Drift(wind, canopy, height, groundElevation);
        // forward speed / descent rate is the same at every density: what is flown is glide × height
        return new SteeringReach(height, path.Seconds, path.Drift, usable * forwardSpeed / canopy.RateAt(0) * height);
    }
}
