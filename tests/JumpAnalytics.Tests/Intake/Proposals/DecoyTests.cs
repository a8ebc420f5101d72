namespace JumpAnalytics.Tests;

/// <summary>Columns that bases keep and the log has no place for: none may enter a map by itself, whatever else is missing.</summary>
public sealed class DecoyTests
{
    private static readonly (string Header, string[] Values)[] _decoys =
    [
        ("Tree height (ft)", ["80", "60", "90"]), ("Wind gust (kts)", ["12", "14", "9"]), ("Temperature (F)", ["70", "81", "66"]),
        ("Distance from base (mi)", ["80", "120", "45"]),
        ("Landing time", ["2031-07-14T15:30", "2031-07-14T15:31", "2031-07-14T15:33"]),
        ("Streamer release time", ["2031-07-14T15:10", "2031-07-14T15:12", "2031-07-14T15:13"]),
        ("Streamer fall time (sec)", ["70", "75", "72"]),
        ("Slope aspect", ["NW", "S", "E"]), ("Spot size (acres)", ["2", "1", "3"]), ("Fire latitude", ["44.51234", "44.52345", "44.53456"]),
        ("Base latitude", ["44.51234", "44.52345", "44.53456"]), ("Base elevation (ft)", ["5000", "5000", "5020"]),
        ("Stick size", ["2", "2", "3"]), ("Aircraft tail paint", ["red", "blue", "red"]), ("Jumper weight (lbs)", ["180", "200", "170"]),
        ("Canopy size", ["360", "380", "360"]), ("Canopy serial number", ["C1", "C2", "C3"]),
        ("Fire size", ["3", "10", "0.1"]), ("Fire cause", ["L", "H", "L"]), ("Airspeed (kts)", ["95", "100", "105"]),
        ("Jumpers on board", ["8", "8", "6"]), ("Alternate spot bearing true", ["20", "200", "310"]),
        ("Walk out distance (mi)", ["2", "5", "3"]),
        ("Injured party contact", ["x", "y", "z"]), ("Distance to nearest road (mi)", ["3", "2", "9"]),
        ("Spotter trainee", ["AB", "CD", "EF"]), ("Pilot remarks", ["rough on final at the ridge", "", "smooth"]),
        ("Measured tree height (ft)", ["80", "70", "60"]),
        ("Letdown rope length (ft)", ["150", "150", "250"]), ("Cargo drop height (ft)", ["200", "150", "200"]),
        ("Cargo landing distance (yd)", ["20", "50", "10"]), ("Second streamer drift (yd)", ["300", "350", "280"]),
    ];

    [Theory]
    [InlineData("drops")]
    [InlineData("landings")]
    [InlineData("flat")]
    public void None_enters_a_map(string kind)
    {
        var wrong = new List<string>();
        foreach (var (header, values) in _decoys)
        {
            using var files = new TempLog();
            var text = TempLog.Lines([$"\"{header}\",zz", .. Enumerable.Range(0, 30).Select(i => values[i % 3] + ",q")]);
            if (kind == "flat") files.With("jumps.csv", text);
            else files.With(kind + ".csv", text).With(kind == "drops" ? "landings.csv" : "drops.csv", "zz\nq\n");
            wrong.AddRange(ColumnMap.Propose(files.Folder).Proposals.Where(p => p.Sureness >= Sureness.Likely)
                .Select(p => $"{p.Header} as {p.Target} {p.Score} {p.Evidence}"));
        }
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }
}
