using CsCheck;
using JumpAnalytics.Demo;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>
/// A season with flaws, repaired by its ledgers, gives what the same season without them gives; and no text is changed on the way.
/// </summary>
public sealed class LedgerRoundTripTests
{
    [Fact]
    public void A_repaired_season_gives_exactly_what_a_clean_one_gives()
    {
        var season = DemoLog.Season;
        var (cleanDrops, cleanLandings) = Unspoilt();
        var repairs = Repairs("drops.csv", season.Drops, cleanDrops)
            .Concat(Repairs("landings.csv", season.Landings, cleanLandings)).ToDictionary();
        Assert.True(repairs.Count > 40);
        using var flawed = new TempLog();
        season.WriteLog(flawed.Folder);
        File.Delete(Path.Combine(flawed.Folder, "flaws.csv"));
        using var clean = TempLog.Of(Lines(Recorder.DropColumns, season.Drops.Select((r, i) => Cells("drops.csv", r, i))),
            Lines(Recorder.LandingColumns, season.Landings.Select((r, i) => Cells("landings.csv", r, i))));

        flawed.Read().WriteQuarantine(flawed.Folder);
        foreach (var table in new[] { "drops", "landings" }) Repair(Path.Combine(flawed.Folder, table + "-quarantine.csv"), repairs);
        var (repaired, expected) = (flawed.Read(), clean.Read());

        Assert.Empty(expected.Intake.Quarantine);
        Assert.Equal(repairs.Count, repaired.Intake.RowsRepaired);
        Assert.Equal(repaired.Intake.RowsRead, repaired.Intake.RowsAccepted + repaired.Intake.RowsQuarantined);
        Assert.Equal(expected.Intake.RowsAccepted, repaired.Intake.RowsAccepted);
        Assert.Equal(DemoLog.Log.Intake.RowsRead, repaired.Intake.RowsRead);
        // Second rows of a pass, passes called off.
        Assert.All(repaired.Intake.Quarantine, q => Assert.False(repairs.ContainsKey(q.Source.ToString())));
        var options = new AccuracyOptions { Replicates = 200 };
        Assert.Equal(Tables(expected), Tables(repaired));
        Assert.NotEqual(Tables(expected), Tables(DemoLog.Log));

        string? Cells(string file, Row row, int index) => !Flaws.Refuses(row.Flaw) ? row.ToString()
            : repairs.TryGetValue($"{file}:{index + 2}", out var cells) ? new Row([], [.. cells]) { Drop = row.Drop }.ToString() : null;

        List<string> Tables(JumpLog log)
        {
            var accuracy = SeasonAccuracy.Of(log, options);
            return [.. accuracy.Rates.Tables.Concat(accuracy.Glance.Tables).Concat(accuracy.Changes.Tables)
                .Append(accuracy.LandingsTable).Select(t => t.ToCsv())];
        }
    }

    /// <summary>The rows of the demo season as they were before flaws were planted: the same dice in the same order.</summary>
    private static (Dictionary<string, Row> Drops, Dictionary<string, Row> Landings) Unspoilt()
    {
        var (world, record) = (new Dice(Planted.Seed, 1), new Dice(Planted.Seed, 2));
        var (drops, landings) = (new Dictionary<string, Row>(), new Dictionary<string, Row>());
        foreach (var mission in Seasons.Missions(world))
        {
            var shared = (world.Normal(), world.Normal());
            foreach (var drop in Seasons.DropsOf(mission, world))
            {
                var stick = Descent.Fly(drop, shared, world);
                drops.Add(drop.Id, Recorder.Write(drop, stick[0].FirstExit, record));
                foreach (var (k, touchdown) in stick.Index())
                    landings.Add($"{drop.Id} {drop.Jumpers[k]}", Recorder.Write(drop, k, touchdown, record));
            }
        }
        return (drops, landings);
    }

    /// <summary>What to write in place of each refused row that is a row of its own, by file and line.</summary>
    private static IEnumerable<KeyValuePair<string, List<string>>> Repairs(string file, List<Row> rows, Dictionary<string, Row> unspoilt)
    {
        var seen = new HashSet<string>();
        for (var i = 0; i < rows.Count; i++)
        {
            var key = file == "drops.csv" ? rows[i].Drop.Id : $"{rows[i].Drop.Id} {rows[i].Cells[1]}";
            var isSecond = !seen.Add(key);
            if (Flaws.Refuses(rows[i].Flaw) && !isSecond && unspoilt.TryGetValue(key, out var row))
                yield return new($"{file}:{i + 2}", row.Cells);
        }
    }

    private static string Lines(string[] header, IEnumerable<string?> rows) =>
        TempLog.Lines([string.Join(',', header), .. rows.OfType<string>()]);

    /// <summary>Does by program what a person does in a spreadsheet: the right cells behind the four columns of the ledger.</summary>
    private static void Repair(string path, Dictionary<string, List<string>> repairs)
    {
        var lines = File.ReadAllLines(path);
        for (var i = 1; i < lines.Length; i++)
        {
            var source = lines[i][..lines[i].IndexOf(',', StringComparison.Ordinal)];
            if (!repairs.TryGetValue(source, out var cells)) continue;
            var mark = lines[i].Split(',')[1];
            lines[i] = $"{source},{mark},,,"
                + string.Join(',', cells.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\""));
        }
        File.WriteAllLines(path, lines);
    }

    /// <summary>Any refused row, whatever stands in it, comes back from its ledger as it was.</summary>
    [Fact]
    public void No_text_is_changed_on_the_way()
    {
        string[] hostile = ["=1+1", "'=1", "''@x", "-5", "+x", "\tx", " x ", "a,b", "a;b", "a\"b", "\"", "\n", "a\r\nb", "'", "é", "\u202E",
            "\uFEFFx", "x\u001F", "|", "\uFFFD"];
        using var log = new TempLog();
        Cases.Each(Gen.Int[0, hostile.Length - 1].Array[8, 9], 300, 41, picks =>
        {
            var fields = picks.Select(p => hostile[p]).ToArray();
            foreach (var old in Directory.GetFiles(log.Folder)) File.Delete(old);
            var row = string.Join(',', fields.Select(f => $"\"{f.Replace("\"", "\"\"", StringComparison.Ordinal)}\""));
            log.With("drops.csv", TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1, row))
                .With("landings.csv", TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1));
            var before = log.Read();
            if (before.Intake.Quarantine.Count == 0) return; // nothing but blanks
            before.WriteQuarantine(log.Folder);
            var read = new RepairedTable(CsvFile.Open(Path.Combine(log.Folder, "drops.csv")),
                CsvFile.Open(Path.Combine(log.Folder, "drops-quarantine.csv"))).Rows().ToList();
            Assert.DoesNotContain(read, r => r.IsRepair); // a field that came back changed would pass for a repair
            Assert.Equal(before.Intake.QuarantineTable.ToCsv(), log.Read().Intake.QuarantineTable.ToCsv());
        });
    }
}
