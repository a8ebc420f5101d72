using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>From a base's own spreadsheet on the command line to a season read through the map.</summary>
public class MapTests
{
    private const string Sheet = """
        Load #,Fire,Date/Time,Fuel,Tgt radius (yds),Wind (kts),WDI drift,Drift brg (true),Dist to spot,Brg from spot (true),Hung up
        L1,Creek,2031-07-14T15:20,TBR,25,8,300,90,12,45,N
        L1,Creek,2031-07-14T15:20,TBR,25,8,300,90,40,100,T
        L2,Ridge,2031-07-15T15:20,GRS,25,6,250,300,8,270,N

        """;

    [Fact]
    public void The_map_comes_out_as_a_file_and_reads_the_sheet_when_it_is_filled_in()
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        Directory.CreateDirectory(workshop.At("base"));
        File.WriteAllText(workshop.At("base", "jumps.csv"), Sheet);
        var outcome = workshop.Report("map", Path.Combine("base", "jumps.csv"));
        Assert.Equal("", outcome.Error);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("File:     out/column-map.json\n", outcome.Output);

        var (header, rows) = Csv.Read(workshop.Read("out", "tables", "column-map.csv"));
        Assert.Equal(["file", "column", "proposed", "sureness", "score", "evidence", "runner_up", "values", "under_each_unit", "note"],
            header);
        Assert.Equal(["drop_id", "mission", "time", "terrain", "target_radius_yd", "wind_speed_kt", "forecast_drift_unit?",
            "forecast_to_deg", "landing_distance_unit?", "landing_bearing_deg", "hung_up"],
            rows.Select(r => r["proposed"]));
        Assert.Contains("unit? jumps.csv, &#39;WDI drift&#39; as forecast_drift_unit?: median 300 ft = 91 m; 300 yd = 274 m;",
            workshop.Read("out", "map.html"));

        var map = workshop.Read("out", "column-map.json");
        File.WriteAllText(workshop.At("base", "columns.json"), map);
        var refused = workshop.Report("season-accuracy", "base", "--replicates", "200", "--out", "season");
        Assert.Equal(1, refused.ExitCode);
        Assert.Contains("columns.json leaves 3 open", refused.Error);
        Assert.Contains("'Dist to spot': 'landing_distance_unit?' needs its unit: landing_distance_ch|ft|km|m|mi|nm|yd", refused.Error);

        File.WriteAllText(workshop.At("base", "columns.json"), map.Replace("_unit?", "_yd").Replace("\"T\": \"?\"", "\"T\": \"yes\""));
        var read = workshop.Report("season-accuracy", "base", "--replicates", "200", "--out", "season");
        Assert.Equal("", read.Error);
        Assert.Equal("3", Assert.Single(Csv.Read(workshop.Read("season", "tables", "files-read.csv")).Rows)["rows_accepted"]);
        Assert.Contains("Headers were read through columns.json: 11 columns, 1 code list.",
            workshop.Read("season", "season-accuracy.html"));
    }

    [Fact]
    public void The_demo_has_the_log_s_own_headers()
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        Assert.Equal("", workshop.Report("map").Error);
        Assert.All(Csv.Read(workshop.Read("out", "tables", "column-map.csv")).Rows,
            r => Assert.True(r["evidence"] == "100 the log's own header" || r["column"] == "load_sheet"));
    }
}
