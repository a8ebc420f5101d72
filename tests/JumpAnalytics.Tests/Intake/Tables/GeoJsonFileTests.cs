namespace JumpAnalytics.Tests;

public sealed class GeoJsonFileTests
{
    private const string DropsJson = """
        { "type": "FeatureCollection", "name": "drops", "features": [
          { "type": "Feature",
            "properties": { "drop_id": "d1", "mission": "m1", "time": "2031-07-14T15:20-06:00", "terrain": "timber", "target_radius_yd": 25,
              "wind_speed_mph": 8.50, "forecast_drift_yd": 300, "forecast_to_deg": 90, "tags": ["a", { "b": 1 }] },
            "geometry": { "type": "Point", "coordinates": [-116.3, 46.95, 900.0] } }
        ] }
        """;

    private static string Landings(params string[] features) =>
        "\uFEFF{\"features\":[\n" + string.Join(",\n", features) + "],\n\"type\":\"FeatureCollection\"}";

    private static string Landing(string properties, string geometry = "{\"type\":\"Point\",\"coordinates\":[-116.3,46.951]}") =>
        $"{{\"type\":\"Feature\",\"geometry\":{geometry},\"properties\":{properties}}}";

    private static JumpLog Read(string landings, string drops = DropsJson)
    {
        using var log = new TempLog().With("drops.geojson", drops).With("landings.json", landings);
        return log.Read();
    }

    private static string Refusal(string landings, string drops = DropsJson) =>
        Assert.Throws<LogFormatException>(() => Read(landings, drops)).Message;

    [Fact]
    public void Properties_are_columns_and_points_are_places()
    {
        var log = Read(Landings(
            Landing("{\"drop_id\":\"d1\",\"jumper\":\"J1\",\"hung_up\":true}"),
            Landing("{\"drop_id\":\"d1\",\"exit_order\":2,\"hung_up\":null,\"remarks\":\"a\\nb\"}"),
            Landing("{\"drop_id\":\"d1\"}", "{\"type\":\"LineString\",\"coordinates\":[[1,2],[3,4]]}"),
            Landing("{\"drop_id\":\"d1\"}", "null"), Landing("null"), "7"));
        var drop = Assert.Single(log.Drops);
        Assert.Equal((new GeoPosition(46.95, -116.3), 2), (drop.Spot, drop.Source.Line));
        Assert.Equal([true, null], log.Landings.Select(l => l.HungUp));
        Assert.Equal((2, "a\nb", 3), (log.Landings[1].ExitOrder, log.Landings[1].Remarks, log.Landings[1].Source.Line));
        Close.Absolute(new LocalVector(0, 111.2), log.Landings[0].Miss!.Value, 0.1);
        Assert.Equal([4, 5, 6], log.Intake.Quarantine.Select(q => q.Source.Line));
        Assert.Contains("LineString", log.Intake.Quarantine[0].Problems[0].Value, StringComparison.Ordinal);
        Assert.Equal(["tags"], log.Intake.Files[0].UnknownColumns.Select(u => u.Header));
        Assert.Equal(["points were read as landing_lat and landing_lon"], log.Intake.Files[1].Remarks);
    }

    [Theory]
    [InlineData("[]", "is not GeoJSON")]
    [InlineData("{\"type\":\"Point\"}", "is not GeoJSON")]
    [InlineData("{\"features\":[{}", "can't be read as GeoJSON")]
    [InlineData("", "can't be read as GeoJSON")]
    [InlineData("{\"features\":[{\"properties\":{\"drop_id\":\"\\ud800\"}}]}", "can't be read as GeoJSON")]
    public void What_can_not_be_read_is_told(string json, string message) =>
        Assert.Contains(message, Refusal(json), StringComparison.Ordinal);

    [Fact]
    public void Nesting_without_end_is_refused() =>
        Assert.Contains("can't be read as GeoJSON", Refusal(Landings(Landing($"{{\"x\":{new string('[', 40)}{new string(']', 40)}}}"))),
            StringComparison.Ordinal);

    [Fact]
    public void A_position_given_twice_is_not_guessed_at() =>
        Assert.Contains("landings.json gives landing_lat as a property",
            Refusal(Landings(Landing("{\"drop_id\":\"d1\",\"Landing_Lat\":46.9}"))), StringComparison.OrdinalIgnoreCase);
}
