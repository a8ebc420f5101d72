namespace JumpAnalytics.Tests;

/// <summary>The standard atmosphere against its table, and what density does to speeds.</summary>
public sealed class StandardAtmosphereTests
{
    /// <summary>
    /// Feet; density, pressure over those at sea level; kelvin. U.S. Standard Atmosphere 1976, computed from its definition to six digits.
    /// </summary>
    [Theory]
    [InlineData(0, 1, 1, 288.15)]
    [InlineData(1000, .971064, .964388, 286.1688)]
    [InlineData(3000, .915117, .896241, 282.2064)]
    [InlineData(5000, .861670, .832048, 278.2440)]
    [InlineData(8000, .786016, .742782, 272.3004)]
    [InlineData(12500, .682187, .623556, 263.3850)]
    [InlineData(20000, .532811, .459543, 248.5260)]
    [InlineData(30000, .374132, .296961, 228.7140)]
    public void It_agrees_with_its_table(double feet, double density, double pressure, double kelvin)
    {
        var altitude = MeasureUnit.Distance("ft").ToSi(feet);
        Close.Absolute(density, StandardAtmosphere.DensityRatio(altitude), 1e-6, "density");
        Close.Absolute(pressure, StandardAtmosphere.PressureRatio(altitude), 1e-6, "pressure");
        Close.Absolute(kelvin, StandardAtmosphere.Temperature(altitude), 1e-9, "temperature");
    }

    [Theory]
    [InlineData(-1001)]
    [InlineData(11001)]
    [InlineData(double.NaN)]
    public void Altitudes_beyond_its_lowest_layer_are_refused(double altitude) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.DensityRatio(altitude));

    /// <summary>1/√(density ratio) of the U.S. Standard Atmosphere 1976, computed by hand to three decimals.</summary>
    [Theory]
    [InlineData(3000, 1.045)]
    [InlineData(5000, 1.077)]
    [InlineData(6000, 1.094)]
    [InlineData(8000, 1.128)]
    [InlineData(10000, 1.164)]
    public void Thin_air_makes_descents_faster(double feet, double factor) =>
        Close.Absolute(factor, new CanopyDescent(5).RateAt(MeasureUnit.Distance("ft").ToSi(feet)) / 5, 6e-4);
}
