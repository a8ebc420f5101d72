namespace JumpAnalytics.Tests;

/// <summary>Everything that can be wrong with a map is told with what is accepted.</summary>
public sealed class ColumnMapErrorTests
{
    [Theory]
    [InlineData("{", "is not JSON: line 1")]
    [InlineData("[]", "must be an object with 'columns', 'values', 'ignore' and 'dates'")]
    [InlineData("""{"colums": {}}""", "'colums' is not known; accepted are 'columns', 'values', 'ignore' and 'dates'")]
    [InlineData("""{"columns": []}""", "'columns' must be an object")]
    [InlineData("""{"columns": {"A": 5}}""", "'A' needs a header of the log, or a list of them, as text")]
    [InlineData("""{"columns": {"A": []}}""", "'A' needs a header of the log, or a list of them, as text")]
    [InlineData("""{"columns": {"A": "landing_distanse_yd"}}""",
        "'A': 'landing_distanse_yd' is no header of the log; did you mean landing_distance_yd?")]
    [InlineData("""{"columns": {"A": "wind_speed"}}""",
        "'wind_speed' is no header of the log; needs its unit in the header: wind_speed_kt|mph|mps")]
    [InlineData("""{"columns": {"A": "landing_distance_furlong"}}""", "accepted are landing_distance_ch|ft|km|m|mi|nm|yd")]
    [InlineData("""{"columns": {"A": "bogus-thing"}}""",
        "is no header of the log; accepted are drop_id, mission, time, date, time_of_day, terrain")]
    [InlineData("""{"columns": {"A": "terrain", "a ": "canopy"}}""", "'a ' comes twice in 'columns'")]
    [InlineData("""{"columns": {"A": "terrain"}, "columns": {}}""", "'columns' comes twice in the map")]
    [InlineData("""{"values": {"wind": {}}}""", "'wind' in 'values' is no quantity of the log; accepted are drop_id, mission")]
    [InlineData("""{"values": {"terrain": ["TBR"]}}""", "'terrain' must be an object")]
    [InlineData("""{"values": {"terrain": {"TBR": null}}}""", "'TBR' of terrain needs a word of the log as text")]
    [InlineData("""{"values": {"terrain": {"TBR": "timber", "tbr": "grass"}}}""", "'tbr' comes twice in 'terrain'")]
    [InlineData("""{"values": {"hung_up": {"T": "tree"}}}""", "'T' of hung_up must become yes or no, not 'tree'")]
    [InlineData("""{"ignore": "Load sheet"}""", "'ignore' must be a list of headers")]
    [InlineData("""{"dates": "year first"}""", "'dates' must be 'month first' or 'day first'")]
    [InlineData("""{"dates": ["day first"]}""", "'dates' must be 'month first' or 'day first'")]
    [InlineData("""{"dates": "?"}""", "'dates' needs the order of dates such as 6/1/2031: month first, or day first")]
    [InlineData("""{"ignore": [5]}""", "'ignore' must be a list of headers")]
    [InlineData("""{"columns": {"A": "terrain"}, "ignore": ["a"]}""", "'a' stands in 'columns' and in 'ignore'")]
    [InlineData("""{"columns": {"A": "landing_distance_unit?"}}""", "leaves 1 open, fill in before it is used:\n"
        + "  'A': 'landing_distance_unit?' needs its unit: landing_distance_ch|ft|km|m|mi|nm|yd")]
    [InlineData("""{"columns": {"A": "forecast_to_unit?"}}""", "'A': 'forecast_to_unit?' needs its unit: forecast_to_deg|degm")]
    [InlineData("""{"columns": {"A": "streamer_minutes?"}}""", "'A': 'streamer_minutes?' needs its unit: streamer_minutes")]
    [InlineData("""{"values": {"hung_up": {"X": "?"}}}""", "'X' of hung_up needs yes, no, or nothing for not recorded")]
    public void A_map_that_is_none(string json, string message)
    {
        var error = Assert.Throws<LogFormatException>(() => ColumnMap.Parse(json, "base.json"));
        Assert.StartsWith("base.json ", error.Message, StringComparison.Ordinal);
        Assert.Contains(message, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void All_objections_come_at_once()
    {
        var error = Assert.Throws<LogFormatException>(() => ColumnMap.Parse("""{"x": 1, "columns": {"A": "b"}, "ignore": 5}"""));
        Assert.Equal(4, error.Message.Split('\n').Length);
    }

    [Theory]
    [InlineData("""{"columns": {"Nowhere": "terrain"}}""", "names 1 header that no table has: 'Nowhere'.\n"
        + "drops.csv has: drop_id, mission,")]
    [InlineData("""{"columns": {"terrain": "mission"}}""",
        "the headers 'mission' and 'terrain' are all mission; keep one and put the others into 'ignore'")]
    [InlineData("""{"columns": {"landing_distance_yd": "wind_speed_kt"}}""", "landings.csv lacks 1 required column")]
    [InlineData("""{"columns": {"landing_distance_yd": ["landing_distance_yd", "landing_beyond_yd"]}}""",
        "makes 'landing_distance_yd' landing_distance_yd and landing_beyond_yd, and this table may hold both")]
    [InlineData("""{"ignore": ["terrain"]}""", "drops.csv lacks 1 required column. Missing:\n  terrain")]
    public void A_map_that_does_not_fit_the_tables(string json, string message)
    {
        using var files = TempLog.Plain([], []);
        var error = Assert.Throws<LogFormatException>(() => JumpLog.Read(files.Folder, ColumnMap.Parse(json)));
        Assert.Contains(message, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_target_of_another_table_is_told()
    {
        using var files = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + ",x", TempLog.Drop1 + ",1"),
            TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
        var unknown =
            Assert.Single(JumpLog.Read(files.Folder, ColumnMap.Parse("""{"columns": {"x": "jumper"}}""")).Intake.Files[0].UnknownColumns);
        Assert.Equal(new UnknownColumn("x", "jumper belongs to another table"), unknown);
    }

    [Fact]
    public void A_file_that_is_not_there_is_told() =>
        Assert.Contains("none.json can't be opened", Assert.Throws<LogFormatException>(() => ColumnMap.Load("none.json")).Message,
            StringComparison.Ordinal);

    [Fact]
    public void A_broken_map_in_the_folder_stops_the_reading()
    {
        using var files = TempLog.Plain([], []).With("columns.json", "{");
        Assert.Contains("columns.json is not JSON", Assert.Throws<LogFormatException>(files.Read).Message, StringComparison.Ordinal);
    }
}
