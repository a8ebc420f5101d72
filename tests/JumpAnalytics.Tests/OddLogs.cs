using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>A log that is odd in one way, as text of its two tables.</summary>
/// <param name="Name">What is odd.</param>
/// <param name="Drops">The table of drops.</param>
/// <param name="Landings">The table of landings.</param>
internal sealed record OddLog(string Name, string Drops, string Landings)
{
    public override string ToString() => Name;

    /// <summary>Writes both tables.</summary>
    public void WriteTo(string folder)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "drops.csv"), Drops);
        File.WriteAllText(Path.Combine(folder, "landings.csv"), Landings);
    }

    /// <summary>The log as it is read from files, which are gone afterwards.</summary>
    public JumpLog Read()
    {
        var folder = Directory.CreateTempSubdirectory("jump-odd-").FullName;
        try
        {
            WriteTo(folder);
            return JumpLog.Read(folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}

/// <summary>
/// Logs at the edge of what a log can be, made from one plain log of 24 missions in two seasons, two passes each, three jumpers a pass,
/// with every optional column.
/// </summary>
internal static class OddLogs
{
    private sealed class Row(IEnumerable<(string Column, string Value)> values)
    {
        private readonly Dictionary<string, string> _values = values.ToDictionary(v => v.Column, v => v.Value);

        public string this[string column]
        {
            get => _values.GetValueOrDefault(column, "");
            set => _values[column] = value;
        }

        public int Number { get; init; }
    }

    private sealed class Tables
    {
        public List<Row> Drops { get; set; } = [];

        public List<Row> Landings { get; set; } = [];

        public HashSet<string> Without { get; } = [];
    }

    private static readonly string[] _drops =
        ["drop_id", "mission", "time", "season", "base", "spotter", "aircraft", "terrain", "target_radius_yd", "wind_speed_mph",
            "wind_from_deg", "surface_wind_speed_mph", "forecast_drift_yd", "forecast_to_deg", "exit_height_ft", "streamer_minutes",
            "run_heading_deg", "ground_speed_kt", "exit_spacing_s", "exit_distance_yd", "exit_bearing_deg", "spot_lat", "spot_lon",
            "spot_elevation_ft", "remarks"];

    private static readonly string[] _landings =
        ["drop_id", "jumper", "exit_order", "canopy", "hung_up", "injured", "measured_by", "measured_sd_m", "landing_distance_yd",
            "landing_bearing_deg", "landing_beyond_yd", "note"];

    /// <summary>Optional columns; those that are of use only together go together.</summary>
    private static readonly string[] _optional =
        ["season", "base", "spotter", "aircraft", "wind_from_deg", "surface_wind_speed_mph", "exit_height_ft", "streamer_minutes",
            "run_heading_deg", "ground_speed_kt", "exit_spacing_s", "exit_distance_yd exit_bearing_deg", "spot_lat spot_lon",
            "spot_elevation_ft", "remarks", "jumper", "exit_order", "canopy", "hung_up", "injured", "measured_by", "measured_sd_m"];

    /// <summary>The plain log.</summary>
    public static OddLog Plain { get; } = Made("plain", _ => { });

    /// <summary>Each oddity by itself, and each optional column left out.</summary>
    public static IReadOnlyList<OddLog> All { get; } =
    [
        Plain,
        Made("one mission", t => Keep(t, d => d.Number < 2)),
        Made("two missions", t => Keep(t, d => d.Number < 4)),
        Made("one landing", t =>
        {
            Keep(t, d => d.Number < 1);
            t.Landings = t.Landings[..1];
        }),
        Made("one landing a mission", t =>
        {
            Keep(t, d => d.Number % 2 == 0);
            t.Landings = [.. t.Landings.Where(l => l["exit_order"] == "1")];
        }),
        Made("one jumper a pass", t => t.Landings = [.. t.Landings.Where(l => l["exit_order"] == "1")]),
        Made("one pass a mission", t => Keep(t, d => d.Number % 2 == 0)),
        Made("all hits", t => t.Landings.ForEach(l => l["landing_distance_yd"] = $"{1 + l.Number % 20}")),
        Made("all misses", t => t.Landings.ForEach(l => l["landing_distance_yd"] = $"{60 + l.Number % 50}")),
        Made("all beyond", t => t.Landings.ForEach(l => Beyond(l, 80))),
        Made("all but one beyond", t => t.Landings[1..].ForEach(l => Beyond(l, 80))),
        Made("all on the spot", t => t.Landings.ForEach(l => l["landing_distance_yd"] = "0")),
        Made("all on the rim", t => t.Landings.ForEach(l => l["landing_distance_yd"] = "40")),
        Made("one on the rim", t => t.Landings[0]["landing_distance_yd"] = "40"),
        Made("all at one place", t => t.Landings.ForEach(l => (l["landing_distance_yd"], l["landing_bearing_deg"]) = ("12", "100"))),
        Made("all on one line", t => t.Landings.ForEach(l => l["landing_bearing_deg"] = l.Number % 2 == 0 ? "75" : "255")),
        Made("a spotter for each terrain", t => t.Drops.ForEach(d => d["spotter"] = d["terrain"] == "meadow" ? "S1" : "S2")),
        Made("one spotter", t => t.Drops.ForEach(d => d["spotter"] = "S1")),
        Made("a spotter for each mission", t => t.Drops.ForEach(d => d["spotter"] = "S" + d["mission"])),
        Made("a terrain for each mission", t => t.Drops.ForEach(d => d["terrain"] = "ground of " + d["mission"])),
        Made("a season for each mission", t => t.Drops.ForEach(d => d["season"] = "s" + d["mission"])),
        Made("one jumper in all sticks", t => t.Landings.ForEach(l => l["jumper"] = "J1")),
        Made("equal ages", t => t.Drops.ForEach(d => d["streamer_minutes"] = "8")),
        Made("ages of nothing", t => t.Drops.ForEach(d => d["streamer_minutes"] = "0")),
        Made("no wind", t => t.Drops.ForEach(d => d["wind_speed_mph"] = d["surface_wind_speed_mph"] = "0")),
        Made("no drift", t => t.Drops.ForEach(d => (d["forecast_drift_yd"], d["exit_distance_yd"]) = ("0", "0"))),
        Made("equal drifts and winds", t => t.Drops.ForEach(d => (d["forecast_drift_yd"], d["wind_speed_mph"]) = ("400", "8"))),
        Made("headings on three drops", t => t.Drops.ForEach(d => d["run_heading_deg"] = d.Number % 20 == 3 ? d["run_heading_deg"] : "")),
        Made("headings of one season", t => t.Drops.ForEach(d => d["run_heading_deg"] = d.Number < 24 ? d["run_heading_deg"] : "")),
        Made("runs along the drift", t => t.Drops.ForEach(d => d["run_heading_deg"] = d["forecast_to_deg"])),
        Made("ids that sort oddly", t => Name(t, m => $"M-{m + 1}")),
        Made("ids that fall in time", t => Name(t, m => $"{99 - m}")),
        Made("all at one time", t => t.Drops.ForEach(d => d["time"] = "2031-07-01T10:00")),
        Made("two bases", t => t.Drops.ForEach(d => d["base"] = d.Number % 4 < 2 ? "North" : "South")),
        Made("a base with four missions", t => t.Drops.ForEach(d => d["base"] = d.Number < 8 ? "Small" : "Large")),
        Made("four missions", t => Keep(t, d => d.Number < 8)),
        Made("far away", t => t.Landings[0]["landing_distance_yd"] = "900"),
        Made("a huge miss", t => t.Landings[0]["landing_distance_yd"] = "1e200"),
        Made("huge misses", t => t.Landings.ForEach(l => l["landing_distance_yd"] = $"1e{190 + l.Number % 10}")),
        Made("tiny target radii", t => t.Drops.ForEach(d => d["target_radius_yd"] = "0.001")),
        Made("huge target radii", t => t.Drops.ForEach(d => d["target_radius_yd"] = "100000")),
        Made("a huge stick", t => t.Landings.ForEach(l => l["drop_id"] = t.Drops[0]["drop_id"])),
        Made("orders of exit beyond a count", t => t.Landings[0]["exit_order"] = "3000000000"),
        Made("no passes with landings but one", t => t.Landings = [.. t.Landings.Where(l => l["drop_id"] == t.Drops[5]["drop_id"])]),
        .. _optional.Select(c => Made($"without {c}", t => t.Without.UnionWith(c.Split(' ')))),
        Made("without any optional column", t => t.Without.UnionWith(_optional.SelectMany(c => c.Split(' ')))),
    ];

    /// <summary>Every two optional columns left out.</summary>
    public static IEnumerable<OddLog> Pairs =>
        from i in Enumerable.Range(0, _optional.Length)
        from j in Enumerable.Range(0, i)
        select Made($"without {_optional[j]} and {_optional[i]}", t =>
            t.Without.UnionWith([.. _optional[i].Split(' '), .. _optional[j].Split(' ')]));

    /// <summary>The log that is odd in this way.</summary>
    public static OddLog Named(string name) => All.Single(l => l.Name == name);

    private static OddLog Made(string name, Action<Tables> change)
    {
        var tables = new Tables();
        for (var m = 0; m < 24; m++)
        {
            for (var p = 0; p < 2; p++) Add(tables, m, p);
        }
        change(tables);
        return new OddLog(name, Text(_drops.Except(tables.Without), tables.Drops), Text(_landings.Except(tables.Without), tables.Landings));
    }

    private static void Add(Tables tables, int m, int p)
    {
        var (number, wind) = (2 * m + p, 2 + Spread(m, 16));
        var to = Math.Round(Spread(7 * m + p, 360));
        var drop = new Row(
        [
            ("drop_id", $"d{m:00}-{p}"), ("mission", $"m{m:00}"), ("season", m < 12 ? "2031" : "2032"), ("base", "North"),
            ("time", $"{(m < 12 ? 2031 : 2032)}-07-{1 + 2 * (m % 12):00}T1{p}:00"), ("spotter", $"S{1 + m % 3}"), ("aircraft", "A1"),
            ("terrain", m % 2 == 0 ? "meadow" : "timber"), ("target_radius_yd", "40"), ("wind_speed_mph", F(wind)),
            ("wind_from_deg", F((to + 180) % 360)), ("surface_wind_speed_mph", F(0.7 * wind)), ("forecast_drift_yd", F(60 * wind)),
            ("forecast_to_deg", F(to)), ("exit_height_ft", m % 3 == 0 ? "1500" : "3000"),
            ("streamer_minutes", F(4 + Spread(5 * number, 20))),
            ("run_heading_deg", F(Math.Round(Spread(3 * number, 360)))), ("ground_speed_kt", F(80 + Spread(number, 20))),
            ("exit_spacing_s", "1.5"), ("exit_distance_yd", F(60 * wind + Spread(number, 60) - 30)),
            ("exit_bearing_deg", F((to + 170 + Spread(number, 20)) % 360)), ("spot_lat", "43.5"), ("spot_lon", "-149.5"),
            ("spot_elevation_ft", "2600"),
        ]) { Number = number };
        tables.Drops.Add(drop);
        for (var j = 0; j < 3; j++)
        {
            var i = 3 * number + j;
            tables.Landings.Add(new Row(
            [
                ("drop_id", drop["drop_id"]), ("jumper", $"J{1 + i % 14}"), ("exit_order", $"{j + 1}"),
                ("canopy", m % 4 == 0 ? "round" : "ram-air"), ("hung_up", i % 40 == 0 ? "yes" : "no"), ("injured", "no"),
                ("measured_by", i % 3 == 0 ? "gps" : "pace"), ("measured_sd_m", i % 3 == 0 ? "3" : "6"),
                ("landing_distance_yd", F(2 + 60 * Math.Pow(Spread(11 * i, 1), 2) + Spread(m, 10))),
                ("landing_bearing_deg", F(Math.Round(Spread(13 * i, 360)))),
            ]) { Number = i });
        }
    }

    /// <summary>Numbers from nought to a bound that fill it evenly and repeat nothing.</summary>
    private static double Spread(int i, double bound) => bound * (0.5 + i * 0.6180339887498949 - Math.Floor(0.5 + i * 0.6180339887498949));

    private static string F(double value) => Math.Round(value, 1).ToString(CultureInfo.InvariantCulture);

    private static void Keep(Tables tables, Func<Row, bool> drops)
    {
        tables.Drops = [.. tables.Drops.Where(drops)];
        tables.Landings = [.. tables.Landings.Where(l => tables.Drops.Exists(d => d["drop_id"] == l["drop_id"]))];
    }

    private static void Beyond(Row landing, int distance)
    {
        landing["landing_distance_yd"] = landing["landing_bearing_deg"] = "";
        landing["landing_beyond_yd"] = $"{distance}";
    }

    private static void Name(Tables tables, Func<int, string> id) => tables.Drops.ForEach(d => d["mission"] = id(d.Number / 2));

    private static string Text(IEnumerable<string> columns, List<Row> rows) =>
        string.Concat(rows.Select(r => string.Join(',', columns.Select(c => r[c])) + "\n").Prepend(string.Join(',', columns) + "\n"));
}
