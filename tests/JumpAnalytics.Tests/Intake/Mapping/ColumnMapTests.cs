using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>A base's own spreadsheet through a map against the same records under the log's headers.</summary>
public sealed class ColumnMapTests
{
    private const string Sheet = """
        {
          // what the base writes, and what the log calls it
          "columns": {
            "Load #": "drop_id", "Fire": "mission", "Fuel": "terrain", "Tgt rad (yds)": "target_radius_yd", "Wind (mph)": "wind_speed_mph",
            "WDI drift": "forecast_drift_yd", "Drift brg": "forecast_to_deg", "Off spot": "landing_distance_yd",
            "Brg": "landing_bearing_deg", "Tree?": "hung_up",
          },
          "values": { "terrain": { "OT": "open timber", "RL": "ridge lee" }, "hung_up": { "T": "yes", "-": "no" } },
          "ignore": ["Load sheet"], /* paper */
        }
        """;

    private static readonly Dictionary<string, string> _own = new(StringComparer.OrdinalIgnoreCase)
    {
        ["drop_id"] = "Load #", ["mission"] = "Fire", ["terrain"] = "Fuel", ["target_radius_yd"] = "Tgt rad (yds)",
        ["wind_speed_mph"] = "Wind (mph)",
        ["forecast_drift_yd"] = "WDI drift", ["forecast_to_deg"] = "Drift brg", ["landing_distance_yd"] = "Off spot",
        ["landing_bearing_deg"] = "Brg", ["hung_up"] = "Tree?",
        ["load_sheet"] = "Load sheet",
    };

    private static readonly Dictionary<string, string> _codes =
        new() { ["open timber"] = "OT", ["ridge lee"] = "RL", ["yes"] = "T", ["no"] = "-" };

    /// <summary>The demo season in the base's words. The demo quotes no field, so fields can be parted at commas.</summary>
    private static TempLog DemoSheet()
    {
        var sheet = new TempLog();
        foreach (var file in new[] { "drops.csv", "landings.csv" })
        {
            var lines = File.ReadAllLines(Path.Combine(DemoLog.Folder, file));
            var text = lines.Select((line, i) => line.Contains('"', StringComparison.Ordinal) ? line
                : string.Join(',', line.Split(',').Select(f => (i == 0 ? _own : _codes).GetValueOrDefault(f.TrimStart('\uFEFF'), f))));
            sheet.With(file, string.Join('\n', text) + "\n");
        }
        return sheet;
    }

    [Fact]
    public void The_demo_season_in_a_base_s_words_is_the_demo_season()
    {
        using var sheet = DemoSheet();
        Assert.Throws<LogFormatException>(sheet.Read);
        var log = JumpLog.Read(sheet.Folder, ColumnMap.Parse(Sheet));
        Assert.Equal(DemoLog.Log.Drops, log.Drops);
        Assert.Equal(DemoLog.Log.Landings.Count, log.Landings.Count);
        Assert.All(DemoLog.Log.Landings.Zip(log.Landings), pair => Assert.Equal(pair.First, pair.Second));
        Assert.Equal(DemoLog.Log.Intake.RowsQuarantined, log.Intake.RowsQuarantined);
        Assert.Contains(log.Drops, d => d.Terrain == "ridge lee");
        Assert.Contains(log.Landings, l => l.HungUp == true);
    }

    [Fact]
    public void A_map_in_the_folder_is_used_by_itself_and_told()
    {
        using var sheet = DemoSheet().With("Columns.JSON", Sheet);
        var log = sheet.Read();
        Assert.Equal(DemoLog.Log.Drops, log.Drops);
        Assert.Equal("Headers were read through Columns.JSON: 10 columns, 2 code lists.", log.Intake.Points[0]);
        Assert.Equal("Left out as Columns.JSON says: Load sheet.", log.Intake.Points[1]);
        Assert.DoesNotContain(log.Intake.Files.SelectMany(f => f.UnknownColumns), u => u.Header == "Load sheet");
        Assert.Contains("terrain: codes that are not in the list of Columns.JSON were kept as written: ",
            log.Intake.Points[3], StringComparison.Ordinal);
        Assert.Contains("'meadow' (", log.Intake.Points[3], StringComparison.Ordinal);
        Assert.DoesNotContain("'RL'", log.Intake.Points[3], StringComparison.Ordinal);
    }

    [Fact]
    public void The_example_of_the_guide_is_a_map()
    {
        var guide = File.ReadAllText(Path.Combine(ReferenceFiles.Root, "notebooks", "README.md"));
        var map = ColumnMap.Parse(guide.Split("```json\n")[1].Split("```")[0]);
        Assert.Equal(["landing_distance_yd"], map.Columns["dist to spot"]);
        Assert.Equal("closed timber", map.Values["terrain"]["tbr"]);
        Assert.Equal(["Load sheet"], map.Ignore);
    }

    [Fact]
    public void A_log_without_a_map_says_nothing_of_one() => Assert.Empty(DemoLog.Log.Intake.MapNotes);

    [Fact]
    public void Beside_a_single_table_the_map_is_found_too_and_trouble_is_told_in_the_base_s_words()
    {
        using var files = new TempLog().With("columns.json",
            """{"columns": {"Off": "landing_distance_yd", "HU": "hung_up"}, "values": {"hung_up": {"?": "", "T": "yes"}}}""")
            .With("jumps.csv", TempLog.Lines(TempLog.DropsHeader + ",off,landing_bearing_deg,hu", TempLog.Drop1 + ",12,45,?",
                TempLog.Drop1 + ",far,45,t", TempLog.Drop1 + ",3,45,maybe", TempLog.Drop1 + ",3,45,T"));
        var log = JumpLog.Read(Path.Combine(files.Folder, "jumps.csv"));
        Assert.Equal([null, null, true], log.Landings.Select(l => l.HungUp));
        var problem = Assert.Single(Assert.Single(log.Intake.Quarantine).Problems);
        Assert.Equal(("off", "far"), (problem.Column, problem.Value));
        Assert.Equal("hung_up: codes that are not in the list of columns.json were kept as written: 'maybe' (1 row).",
            log.Intake.MapNotes[1]);
        Assert.Equal("not yes or no", Assert.Single(log.Intake.SetAside).Kind);
    }

    [Fact]
    public void Codes_of_people_are_counted_and_not_named()
    {
        using var files = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines(TempLog.LandingsHeader + ",jumper", TempLog.Landing1 + ",A. Person", TempLog.Landing1 + ",B. Person"));
        var note = JumpLog.Read(files.Folder, ColumnMap.Parse("""{"values": {"jumper": {"A. Person": "J1"}}}""")).Intake.MapNotes[1];
        Assert.Equal("jumper: codes that are not in the list of the column map were kept as written: 1 code in 1 row.", note);
    }

    /// <summary>Both tables of a base may call their bearing a bearing: each takes the target that it can hold.</summary>
    [Fact]
    public void One_header_may_mean_two_things_in_two_tables()
    {
        using var files = TempLog.Of(TempLog.Lines("drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph,Dist,Brg", TempLog.Drop1),
            TempLog.Lines("drop_id,Dist,Brg", TempLog.Landing1));
        var map = ColumnMap.Parse(
            """{"columns": {"Dist": ["forecast_drift_yd", "landing_distance_yd"], "brg": ["forecast_to_deg", "landing_bearing_deg"]}}""");
        var landing = Assert.Single(JumpLog.Read(files.Folder, map).Landings);
        Close.Relative(300 * 0.9144, landing.Drop.ForecastDrift.Length, 1e-12);
        Close.Relative(12 * 0.9144, landing.MissDistance!.Value, 1e-12);
    }
}
