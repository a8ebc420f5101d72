using System.Globalization;

namespace JumpAnalytics.Notebooks.Tests.Figures;

/// <summary>
/// A log small enough to be checked on paper. Metres and metres per second; the forecast drift goes east unless said otherwise.
/// </summary>
internal sealed class HandMadeLog
{
    /// <summary>Places inside and outside a target radius of 50 m, not in one line.</summary>
    public static readonly (double East, double North)
        In1 = (10, 5), In2 = (-20, 15), In3 = (5, -30), Out1 = (80, 10), Out2 = (-70, -40);

    private readonly List<string> _drops =
        ["drop_id,mission,time,season,terrain,target_radius_m,wind_speed_mps,forecast_drift_m,forecast_to_deg"];
    private readonly List<string> _landings = ["drop_id,landing_east_m,landing_north_m,landing_beyond_m"];

    /// <summary>
    /// Terrains meadow and timber, bands 0-5 and 5+ m/s. Missions, landings and hits by hand:
    /// meadow 0-5: A 2/2, B 1/2, C 2/2, D 1/1, E 0/1, so 5 missions, 6 hits of 8; meadow 5+: F 1/2;
    /// timber 0-5: G 0/2, H 1/2, so 2 missions, 1 hit of 4; timber 5+: nothing.
    /// All: 8 missions, 8 hits of 14. Missions A to C are of 2025, the others of 2026.
    /// </summary>
    public static HandMadeLog Season(string meadow = "meadow", string timber = "timber") => new HandMadeLog()
        .Drop("A", meadow, 2, [In1, In2], season: "2025")
        .Drop("B", meadow, 3, [In3, Out1], season: "2025")
        .Drop("C", meadow, 4.9, [In1, In3], season: "2025")
        .Drop("D", meadow, 0, [In2])
        .Drop("E", meadow, 1, [Out2])
        .Drop("F", meadow, 5, [In1, Out2])
        .Drop("G", timber, 2, [Out1, Out2])
        .Drop("H", timber, 2, [In3, Out1]);

    /// <summary>The bands and units that <see cref="Season"/> is counted in.</summary>
    public static AccuracyOptions Options { get; } = new()
    {
        Bands = WindBands.Parse("0,5", MeasureUnit.Speed("mps")), Units = ReportUnits.Of("m", "mps"), Replicates = 200,
    };

    public HandMadeLog Drop(string mission, string terrain, double wind, (double East, double North)[] landings,
        double to = 90, double radius = 50, string season = "2026", double? beyond = null)
    {
        var id = "D" + _drops.Count;
        _drops.Add(Line(id, mission, "2026-07-01T12:00Z", season, terrain, radius, wind, 100.0, to));
        _landings.AddRange(landings.Select(l => Line(id, l.East, l.North, "")));
        if (beyond is { } b) _landings.Add(Line(id, "", "", b));
        return this;
    }

    public void Write(string folder)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllLines(Path.Combine(folder, "drops.csv"), _drops);
        File.WriteAllLines(Path.Combine(folder, "landings.csv"), _landings);
    }

    public JumpLog Read()
    {
        var folder = Directory.CreateTempSubdirectory("jump-log-").FullName;
        try
        {
            Write(folder);
            var log = JumpLog.Read(folder);
            Assert.Equal(0, log.Intake.RowsQuarantined);
            return log;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    public SeasonAccuracy Analyse(AccuracyOptions? options = null) => SeasonAccuracy.Of(Read(), options ?? Options);

    private static string Line(params object[] cells) => string.Join(',',
        cells.Select(c => $"\"{Convert.ToString(c, CultureInfo.InvariantCulture)!.Replace("\"", "\"\"", StringComparison.Ordinal)}\""));
}
