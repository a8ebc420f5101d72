namespace JumpAnalytics;

/// <summary>A direction over the ground, clockwise from true north. The default value is north (0°).</summary>
/// <remarks>
/// A bearing alone does not say whether it is a "from" or a "to" direction; the property that carries it does
/// (winds blow <em>from</em>, drift goes <em>to</em>). Magnetic bearings become bearings only once a declination is known.
/// </remarks>
[TypeFormatterSource]
public readonly record struct Bearing
{
    private Bearing(double degrees) => Degrees = degrees;

    /// <summary>Degrees clockwise from true north, in [0, 360).</summary>
    public double Degrees { get; }

    /// <summary>Radians clockwise from true north, in [0, 2π).</summary>
    public double Radians => double.DegreesToRadians(Degrees);

    /// <summary>The opposite direction: turns "from" into "to" and back.</summary>
    public Bearing Reversed => FromDegrees(Degrees + 180);

    /// <summary>Makes a bearing from degrees true; any finite value is brought into [0, 360).</summary>
    /// <param name="degrees">Degrees clockwise from true north.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Bearing FromDegrees(double degrees)
    {
        var turned = Guard.Finite(degrees) % 360;
        if (turned < 0) turned += 360;
        return new Bearing(turned == 360 ? 0 : turned);
    }

    /// <summary>Makes a bearing from radians clockwise from true north.</summary>
    /// <param name="radians">Any finite angle.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Bearing FromRadians(double radians) => FromDegrees(double.RadiansToDegrees(radians));

    /// <inheritdoc/>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Degrees:0.#}° true");
}
