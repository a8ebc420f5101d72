namespace JumpAnalytics;

/// <summary>
/// The way a jumper is carried along the run after leaving the aircraft, until the aircraft's speed through the air has decayed:
/// exponentially, so that the whole throw is speed × time constant. Inputs, not facts: published rules give half the airspeed in knots as
/// metres for static lines, and more for free fall (from memory).
/// </summary>
/// <param name="Airspeed">Metres per second of the aircraft through the air at exit, zero or more.</param>
/// <param name="Run">Direction of the run.</param>
/// <param name="Fading">Seconds in which the speed falls to 37 %, above zero.</param>
/// <exception cref="ArgumentOutOfRangeException">A speed below zero or a time that is not above zero.</exception>
[TypeFormatterSource]
public sealed record ExitThrow(double Airspeed, Bearing Run, double Fading)
{
    /// <summary>Metres per second of the aircraft through the air at exit.</summary>
    public double Airspeed { get; } = Guard.NotNegative(Airspeed, hint: "metres per second");

    /// <summary>Seconds in which the speed falls to 37 %.</summary>
    public double Fading { get; } = Guard.Positive(Fading, hint: "seconds");

    /// <summary>How far a jumper has been carried, in still air, some seconds after exit.</summary>
    /// <param name="seconds">Seconds since the exit, zero or more.</param>
    /// <returns>Metres east and north.</returns>
    public LocalVector After(double seconds) =>
        LocalVector.FromPolar(Airspeed * Fading * -Math.Exp(-seconds / Fading) + Airspeed * Fading, Run);
}
