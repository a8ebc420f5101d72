namespace JumpAnalytics.Tests;

/// <summary>Parts of a log keep what belongs to their landings.</summary>
public sealed class LogPartsTests
{
    private static readonly JumpLog _demo = Demo.DemoLog.Log;
    private static readonly Lazy<LogDescents> _descents = new(() => LogDescents.Of(_demo, new FlownDescentOptions { Seed = 1 }));

    [Fact]
    public void A_part_has_the_descents_of_the_whole()
    {
        var place = _descents.Value.Tracks.Tracked.GroupBy(l => l.Drop.Base).OrderBy(g => g.Count()).First().Key!;
        var part = _demo.ForBase(place);
        var descents = LogDescents.Of(part, new FlownDescentOptions { Seed = 1 });
        Assert.NotEmpty(descents.Tracks.Tracked);
        Assert.Equal(_demo.Landings.Where(l => l.Drop.Base == place), part.Landings);
        Assert.Equal(_descents.Value.Tracks.Tracked.Where(l => l.Drop.Base == place), descents.Tracks.Tracked);
        Assert.All(descents.Tracks.Tracked, l => Assert.Equal(Text(_descents.Value, l), Text(descents, l)));
        Assert.Equal(_descents.Value.Tracks.Unmatched, descents.Tracks.Unmatched);
        Assert.Equal(descents.Tracks.Tracked.Select(l => descents.TrackOf(l).Value!.Name).Order(), descents.Tracks.Matches.Keys.Order());

        static string Text(LogDescents d, Landing l) =>
            $"{d.TrackOf(l).Value!.Name} {d.FlightOf(l).Value?.Steering} {d.FlightOf(l).Reason} {d.BudgetOf(l)}";
    }

    [Fact]
    public void A_file_stays_with_the_landing_that_it_fits_best_when_that_one_is_cut_off()
    {
        var guessed = _descents.Value.Tracks.Tracked.Where(l => l.Track is null).ToList();
        Assert.NotEmpty(guessed);
        var part = _demo.Where(l => l.Track is null && !guessed.Contains(l));
        Assert.Empty(LogTracks.Of(part).Tracked);
        Assert.Empty(LogTracks.Of(part).Matches);
    }

    [Fact]
    public void Origins_lead_to_the_same_lines()
    {
        var part = _demo.Where("terrain=meadow").Where(l => l.MeasuredBy == "gps");
        foreach (var landing in part.Landings.Take(3))
        {
            Assert.Equal(_demo.OriginOf(landing).ToString(), part.OriginOf(landing).ToString());
            Assert.Equal(landing.Drop.Source, part.OriginOf(landing.Drop).Source);
        }
    }

    [Fact]
    public void Drops_without_landings_stay_under_conditions_on_drops_alone()
    {
        var bare = _demo.Intake.DropsWithoutLandings;
        Assert.NotEmpty(bare);
        Assert.Contains(bare[0], _demo.Where($"terrain={bare[0].Terrain}").Intake.DropsWithoutLandings);
        Assert.Contains(bare[0], _demo.WhereDrops(d => d.Terrain == bare[0].Terrain).Drops);
        var landed = _demo.Where($"terrain={bare[0].Terrain}, measured_by=gps");
        Assert.DoesNotContain(bare[0], landed.Drops);
        Assert.Empty(landed.Intake.DropsWithoutLandings);
        Assert.Equal(landed.Drops, _demo.Where(l => l.Drop.Terrain == bare[0].Terrain && l.MeasuredBy == "gps").Drops);
    }

    [Fact]
    public void A_part_says_what_it_is_in_its_name_its_settings_its_intake_and_its_cautions()
    {
        var part = _demo.Where(l => l.MeasuredBy   != "estimate").ForBase("Quillmark");
        const string words = "l.MeasuredBy != \"estimate\"; base=Quillmark";
        Assert.Equal(("l.MeasuredBy != \"estimate\"; base=Quillmark", $"{_demo.Name} where {words}"), (part.Part, part.Name));
        var accuracy = SeasonAccuracy.Of(part, new AccuracyOptions { Replicates = 200 });
        Assert.Contains(words, accuracy.Settings.ToCsv().Replace("\"\"", "\""), StringComparison.Ordinal);
        Assert.Contains(accuracy.Cautions.Points, p => p.Contains(words, StringComparison.Ordinal));
        Assert.Contains(part.Intake.Points, p => p.StartsWith($"This is a part of the log, where {words}: ", StringComparison.Ordinal));
        Assert.Equal((_demo.Intake.RowsRead, _demo.Intake.RowsQuarantined), (part.Intake.RowsRead, part.Intake.RowsQuarantined));
        Assert.DoesNotContain("part", SeasonAccuracy.Of(_demo, new AccuracyOptions { Replicates = 200 }).Settings.ToCsv(),
            StringComparison.Ordinal);
        Assert.Null(_demo.Where("all").ForBase("all").Part);
    }

    [Fact]
    public void Refused_rows_count_unless_they_name_a_drop_of_another_base()
    {
        const string drops = TempLog.DropsHeader + ",base";
        using var log = TempLog.Of(TempLog.Lines(drops, "d1,m1,2031-07-14T15:20,timber,25,8,300,90,North",
            "d2,m2,2031-07-14T15:20,timber,25,8,300,90,South", "d3,m3,2031-07-14T15:20,timber,-1,8,300,90,South",
            "d4,m4,2031-07-14T15:20,timber,-1,8,300,90,North"),
            TempLog.Lines(TempLog.LandingsHeader, "d1,12,45", "d1,,45", "d2,9,45", "d2,,45", "d2,x,45", "d3,5,5", "d4,5,5", "d9,5,5"));
        var whole = log.Read();
        Assert.Equal(6, whole.Intake.RefusedLandings(["2031"]).Count);
        string[] Of(string place) => [.. whole.ForBase(place).Intake.RefusedLandings(["2031"]).Select(q => q.Fields[0])];
        Assert.Equal(["d1", "d4", "d9"], Of("North"));
        Assert.Equal(["d2", "d2", "d3", "d9"], Of("South"));
    }

    [Fact]
    public void Half_a_stick_is_no_gap_in_the_record()
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1), TempLog.Lines(
            TempLog.LandingsHeader + ",exit_order,canopy",
            "d1,12,45,1,round", "d1,13,45,2,square", "d1,14,45,3,round"));
        Assert.DoesNotContain("missing", RecordChecks.Of(log.Read().Where("canopy=square")).Reading
            + string.Join(' ', RecordChecks.Of(log.Read().Where("canopy=round")).Flags.Select(f => f.Found)), StringComparison.Ordinal);
        Assert.Contains(RecordChecks.Of(log.With("landings.csv", TempLog.Lines(TempLog.LandingsHeader + ",exit_order,canopy",
            "d1,14,45,3,round")).Read()).Flags, f => f.Found.Contains("missing", StringComparison.Ordinal));
    }

    [Fact]
    public void A_screened_part_is_the_same_part_and_names_nobody()
    {
        var part = _demo.Where("canopy=ram-air").ForSharing();
        Assert.Equal(("canopy=ram-air", _demo.Landings.Count(l => l.Canopy == "ram-air")), (part.Part, part.LandingsToCount.Count));
        var code = _demo.Drops[0].Spotter!;
        Assert.Equal("[withheld]", _demo.Where($"spotter={code}").ForSharing().Part);
        Assert.DoesNotContain(code, _demo.Where(l => l.Drop.Spotter == "S01").ForSharing().Intake.Points[0], StringComparison.Ordinal);
        Assert.Equal("[withheld]", _demo.Where(l => true, $"those of {code}").ForSharing().Part);
    }
}
