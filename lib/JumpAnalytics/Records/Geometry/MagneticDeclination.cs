namespace JumpAnalytics;

/// <summary>The angle from true north to magnetic north at a place and date.</summary>
/// <param name="Degrees">Degrees, positive east: true bearing = magnetic bearing + declination.</param>
/// <param name="StandardError">One standard deviation, degrees; see <see cref="MagneticField.DeclinationError"/>.</param>
/// <param name="IsInCautionZone">
/// Whether a compass may be off by degrees; see <see cref="MagneticField.IsInCautionZone"/>.
/// </param>
[TypeFormatterSource]
public sealed record MagneticDeclination(double Degrees, double StandardError, bool IsInCautionZone)
{
    /// <summary>The true bearing of a magnetic one.</summary>
    /// <param name="magneticDegrees">Degrees clockwise from magnetic north, any finite value.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public Bearing ToTrue(double magneticDegrees) => Bearing.FromDegrees(magneticDegrees + Degrees);
}
