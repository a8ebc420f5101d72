namespace JumpAnalytics.Tests;

/// <summary>Units and norths written behind numbers, by the factors of NIST Special Publication 811 (2008), appendix B.</summary>
public sealed class FieldUnitTests
{
    private static JumpLog Read(string header, string value, string more = "")
    {
        var drops = TempLog.DropsHeader.Replace("wind_speed_mph",
            "wind_speed_mph,exit_height_ft,exit_spacing_s,declination_deg,wind_from_deg", StringComparison.Ordinal);
        var fields = "d1,m1,2031-07-14T15:20,timber,25,8,,,,,300,90".Split(',');
        fields[Array.IndexOf(drops.Split(','), header)] = value;
        if (more.Length > 0) fields[8] = more;
        using var log = TempLog.Of(TempLog.Lines(drops, string.Join(',', fields)), TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        return log.Read();
    }

    [Theory]
    [InlineData("target_radius_yd", "25 yd", 25 * 0.9144, "unit in the field")]
    [InlineData("target_radius_yd", "75 ft", 75 * 0.3048, "another unit in the field")]
    [InlineData("target_radius_yd", "75'", 75 * 0.3048, "another unit in the field")]
    [InlineData("target_radius_yd", "25yds.", 25 * 0.9144, "unit in the field")]
    [InlineData("target_radius_yd", "1 Chain", 20.1168, "another unit in the field")]
    [InlineData("target_radius_yd", "23 m", 23.0, "another unit in the field")]
    [InlineData("wind_speed_mph", "8 MPH", 8 * 0.44704, "unit in the field")]
    [InlineData("wind_speed_mph", "8 kts", 8 * 1852.0 / 3600, "another unit in the field")]
    [InlineData("wind_speed_mph", "4 m/s", 4.0, "another unit in the field")]
    [InlineData("exit_height_ft", "3000 feet", 914.4, "unit in the field")]
    [InlineData("exit_spacing_s", "0.5 min", 30.0, "another unit in the field")]
    [InlineData("wind_speed_mph", "8 km/h", null, "not a number")] // no unit of the log
    [InlineData("wind_speed_mph", "8 ft", null, "not a number")]
    [InlineData("exit_spacing_s", "1 m", null, "not a number")] // metres or minutes
    [InlineData("target_radius_yd", "25 yd 2", null, "not a number")]
    [InlineData("target_radius_yd", "-25 yd", null, "out of range")]
    public void A_measure(string header, string value, double? si, string kind)
    {
        var read = Read(header, value);
        var drop = read.Drops.SingleOrDefault();
        var found = header switch { "target_radius_yd" => drop?.TargetRadius, "wind_speed_mph" => drop?.WindSpeed,
            "exit_height_ft" => drop?.ExitHeight, _ => drop?.ExitSpacing };
        if (si is { } expected) Close.Relative(expected, found!.Value, 1e-14);
        else Assert.Null(found);
        Assert.Equal(kind, read.Intake.Noted.Concat(read.Intake.SetAside)
            .Concat(read.Intake.Quarantine.Where(q => q.Source.File == "drops.csv").SelectMany(q => q.Problems)).Single().Kind);
    }

    [Theory]
    [InlineData("90°", "", 90.0, "")]
    [InlineData("90 deg", "", 90.0, "")]
    [InlineData("90 T", "", 90.0, "")]
    [InlineData("90 true", "", 90.0, "")]
    [InlineData("90°M", "14", 104.0, "north in the field")]
    [InlineData("90 mag", "-14", 76.0, "north in the field")]
    [InlineData("90 M", "", null, "north in the field, magnetic bearing")]
    [InlineData("361°", "", null, "not a bearing")]
    [InlineData("90 W", "", null, "not a bearing")]
    public void A_bearing(string value, string declination, double? degrees, string kind)
    {
        var read = Read("wind_from_deg", value, declination);
        var found = read.Drops.Single().WindFrom?.Degrees;
        if (degrees is { } d) Close.Absolute(d, found!.Value, 1e-12);
        else Assert.Null(found);
        Assert.Equal(kind, string.Join(", ", read.Intake.Noted.Concat(read.Intake.SetAside).Select(p => p.Kind)));
    }
}
