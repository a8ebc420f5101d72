using System.Globalization;
using JumpAnalytics.Demo;

namespace JumpAnalytics.Tests.Demo;

/// <summary>The reader finds every planted flaw, and nothing else.</summary>
public class FlawsTests
{
    /// <summary>What the reader calls each flaw that refuses a row.</summary>
    private static readonly Dictionary<string, string> _kindOf = new()
    {
        ["bearing 400"] = "not a bearing",
        ["distance without bearing"] = "distance without bearing",
        ["drop not in the log"] = "no such drop",
        ["hang-up without a distance"] = "hang-up without distance",
        ["latitude 95"] = "not a position",
        ["negative distance"] = "out of range",
        ["negative radius"] = "out of range",
        ["refused with their drop"] = "drop refused",
        ["repeat of a drop - other values"] = "repeated drop_id",
        ["repeat of a drop - same values"] = "repeated drop_id",
        ["required field blank"] = "blank",
        ["time unreadable"] = "unreadable time",
        ["too few fields"] = "ragged row",
        ["too many fields"] = "ragged row",
        ["word in a number field"] = "not a number",
    };

    [Theory]
    [InlineData("drops.csv")]
    [InlineData("landings.csv")]
    public void Every_line_of_the_account_holds(string file)
    {
        var intake = DemoLog.Log.Intake;
        var read = intake.Files.Single(f => f.File == file);
        var refused = new SortedDictionary<string, int>(StringComparer.Ordinal);
        foreach (var line in DemoLog.Rows("flaws.csv").Where(l => l[0] == file))
        {
            var (flaw, rows) = (line[1], int.Parse(line[2], CultureInfo.InvariantCulture));
            if (_kindOf.TryGetValue(flaw, out var kind)) refused[kind] = refused.GetValueOrDefault(kind) + rows;
            else Assert.Equal((flaw, rows), (flaw, Found(flaw)));
        }
        Assert.Equal(refused, new SortedDictionary<string, int>(
            intake.Quarantine.Where(q => q.Source.File == file).CountBy(q => q.Problems[0].Kind).ToDictionary(), StringComparer.Ordinal));

        int Found(string flaw) => flaw switch
        {
            "sum: rows" => read.RowsRead,
            "sum: accepted" => read.RowsAccepted,
            "sum: refused for themselves" => intake.Quarantine.Count(q => q.Source.File == file && q.Problems[0].Kind != "drop refused"),
            "optional value unreadable" => intake.SetAside.Count(p => p.Source.File == file),
            "drop without landing rows" =>
                DemoLog.Log.Drops.Select(d => d.Id).Except(DemoLog.Rows("landings.csv").Select(r => r[0])).Count(),
            "drop without an accepted landing" => intake.DropsWithoutLandings.Count,
            "beyond a distance in all" => DemoLog.Log.Landings.Count(l => l.IsCensored),
            "magnetic bearing" => DemoLog.Season.Landings.Count(r => r.Flaw == Flaws.Magnetic),
            "beyond less than the target radius" => DemoLog.Log.Landings.Count(l => l.Outcome == LandingOutcome.Undecided),
            _ => throw new ArgumentException($"flaws.csv has a kind that this test does not know: {flaw}"),
        };
    }

    [Fact]
    public void The_very_rows_that_were_spoilt_are_refused_each_for_its_flaw()
    {
        var accepted = DemoLog.Season.AcceptedLandings.ToHashSet();
        var planted = Spoilt("drops.csv", DemoLog.Season.Drops, _ => false)
            .Concat(Spoilt("landings.csv", DemoLog.Season.Landings, r => r.Flaw is null && !accepted.Contains(r)));
        Assert.Equal(planted, DemoLog.Log.Intake.Quarantine.Select(q => (q.Source.File, q.Source.Line, q.Problems[0].Kind)));

        static IEnumerable<(string, int, string)> Spoilt(string file, List<Row> rows, Func<Row, bool> lostWithDrop) =>
            from row in rows.Index()
            where Flaws.Refuses(row.Item.Flaw) || lostWithDrop(row.Item)
            select (file, row.Index + 2, _kindOf[row.Item.Flaw ?? "refused with their drop"]);
    }

    /// <summary>
    /// The recorder's compass stood 13° off; the model's declination for the island and the month is within a degree of it.
    /// </summary>
    [Fact]
    public void Magnetic_bearings_are_turned_with_the_model()
    {
        var turned = from row in DemoLog.Season.Landings.Index()
                     where row.Item.Flaw == Flaws.Magnetic
                     let landing = DemoLog.Log.Landings.Single(l => l.Source.Line == row.Index + 2)
                     where landing.MissDistance > 0
                     select Math.IEEERemainder(landing.Miss!.Value.Direction!.Value.Degrees
                         - double.Parse(row.Item["Landing_Bearing_degm"], CultureInfo.InvariantCulture), 360);
        var angles = turned.ToList();
        Assert.InRange(angles.Count, 15, 20);
        Assert.All(angles, a => Assert.InRange(a, Planted.DeclinationEastDeg - 1, Planted.DeclinationEastDeg + 1));
    }

    [Fact]
    public void A_refused_row_has_one_trouble_only() =>
        Assert.All(DemoLog.Log.Intake.Quarantine, q => Assert.Single(q.Problems));

    [Fact]
    public void Rows_read_are_rows_accepted_and_quarantined() =>
        Assert.All(DemoLog.Log.Intake.Files, f => Assert.Equal(f.RowsRead, f.RowsAccepted + f.RowsQuarantined));

    [Fact]
    public void The_column_that_no_reader_knows_is_named() =>
        Assert.Equal("load_sheet", Assert.Single(DemoLog.Log.Intake.Files.SelectMany(f => f.UnknownColumns)).Header);
}
