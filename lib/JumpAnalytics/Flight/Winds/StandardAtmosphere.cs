namespace JumpAnalytics;

/// <summary>
/// The International Standard Atmosphere, the same as the U.S. Standard Atmosphere 1976 below 32 km, here up to the tropopause: temperature
/// falls by 6.5 K a kilometre from 288.15 K, pressure follows from the hydrostatic equation.
/// </summary>
/// <remarks>Altitudes are geopotential. T0 = 288.15 K, g = 9.80665 m/s², R = 287.05287 J/(kg K).</remarks>
public static class StandardAtmosphere
{
    private const double SeaLevelTemperature = 288.15, Lapse = 0.0065, Gravity = 9.80665, GasConstant = 287.05287, Tropopause = 11000;

    /// <summary>Whether it reaches to an altitude.</summary>
    internal static bool Holds(double altitude) => altitude is >= -1000 and <= Tropopause;

    /// <summary>Temperature, kelvin.</summary>
    /// <param name="altitude">Metres above sea level, −1,000 to 11,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is outside that range.</exception>
    public static double Temperature(double altitude) =>
        SeaLevelTemperature - Lapse * Guard.Within(altitude, -1000, Tropopause, hint: "metres above sea level");

    /// <summary>Pressure over that at sea level.</summary>
    /// <param name="altitude">Metres above sea level, −1,000 to 11,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is outside that range.</exception>
    public static double PressureRatio(double altitude) =>
        Math.Pow(Temperature(altitude) / SeaLevelTemperature, Gravity / (GasConstant * Lapse));

    /// <summary>Density over that at sea level, σ. Speeds through the air and downward go as 1/√σ.</summary>
    /// <param name="altitude">Metres above sea level, −1,000 to 11,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is outside that range.</exception>
    public static double DensityRatio(double altitude) => PressureRatio(altitude) * SeaLevelTemperature / Temperature(altitude);
}
