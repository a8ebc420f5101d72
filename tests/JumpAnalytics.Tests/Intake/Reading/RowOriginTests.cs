namespace JumpAnalytics.Tests;

/// <summary>Every accepted value names its file, its line, its text and what was done to it.</summary>
public sealed class RowOriginTests
{
    private static readonly string _drops = TempLog.Lines(
        "drop_id,mission,time,terrain,target_radius_yd,Wind,forecast_drift_yd,forecast_to_degm,spot_position,load_sheet",
        "d1,m1,2026-07-14T15:20-06:00,TBR,25,8,300,90,\"N 44 30.500 W 116 15.250\",x");

    private const string Map = """{"columns": {"Wind": "wind_speed_mph"}, "values": {"terrain": {"TBR": "timber"}}}""";

    [Fact]
    public void A_drop_tells_text_and_conversions_of_each_value()
    {
        using var files = TempLog.Of(_drops, TempLog.Lines("drop_id,landing_distance_ft,landing_bearing_deg", "d1,30,45"))
            .With("columns.json", Map);
        var log = files.Read();
        var origin = log.OriginOf(Assert.Single(log.Drops));
        Assert.Equal(("drops.csv", 2), (origin.Source.File, origin.Source.Line));
        var values = origin.Values.ToDictionary(v => v.Column);
        Assert.Equal(9, values.Count); // load_sheet is none of the log's
        Assert.Empty(values["mission"].Conversions);
        Assert.Equal(["1 yd = 0.9144 m"], values["target_radius_yd"].Conversions);
        Assert.Equal(["header read through the column map", "1 mph = 0.44704 m/s"], values["Wind"].Conversions);
        Assert.Equal(("TBR", "code 'TBR' is 'timber' in the column map"),
            (values["terrain"].Text, Assert.Single(values["terrain"].Conversions)));
        Assert.Matches(@"^\+ 1\d\.\d° declination to true north, from the magnetic model",
            Assert.Single(values["forecast_to_degm"].Conversions));
        Assert.StartsWith("degrees and minutes, to about 1.", Assert.Single(values["spot_position"].Conversions), StringComparison.Ordinal);
        Assert.Contains("row-origin", origin.TablesAsJson(), StringComparison.Ordinal);

        var landing = log.OriginOf(Assert.Single(log.Landings)).Values;
        Assert.Equal(["d1", "30", "45"], landing.Select(v => v.Text));
        Assert.Equal(["1 ft = 0.3048 m"], landing[1].Conversions);
    }

    /// <summary>The conversions told are those done: text × factor = value, for every row of the demo season.</summary>
    [Fact]
    public void The_factor_told_is_the_factor_used()
    {
        var log = Demo.DemoLog.Log;
        foreach (var drop in log.Drops.Where((_, i) => i % 60 == 0))
        {
            var radius = log.OriginOf(drop).Values.Single(v => v.Quantity == "target_radius");
            Assert.Equal(drop.TargetRadius, 0.9144 * double.Parse(radius.Text, System.Globalization.CultureInfo.InvariantCulture), 1e-9);
        }
    }

    [Fact]
    public void A_row_that_is_gone_is_said()
    {
        using var files = TempLog.Plain([], []);
        var log = files.Read();
        files.With("drops.csv", TempLog.Lines(TempLog.DropsHeader));
        Assert.Contains("can't be found again", Assert.Throws<LogFormatException>(() => log.OriginOf(log.Drops[0])).Message,
            StringComparison.Ordinal);
    }
}
