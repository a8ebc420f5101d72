using System.Net;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests;

/// <summary>Margins that rest on few missions of their own, in table, text and card, on a base made by hand.</summary>
public sealed class ThinMarginsTests
{
    private const double Yard = 0.9144;
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };
    private static readonly List<Landing> _landings = MadeMargins.ThinInStrongWind();
    private static readonly RadiusMargins _margins = RadiusMargins.Of(_landings, _options);

    [Fact]
    public void No_radius_is_smaller_in_stronger_wind_on_borrowed_grounds()
    {
        foreach (var terrain in (string[])["meadow", "timber"])
        {
            var (calmer, strong) = (_margins.Cell("10-15", terrain)!, _margins.Cell("15+", terrain)!);
            Assert.All(calmer.Radii.Zip(strong.Radii), r =>
            {
                Assert.Equal(r.First.Value!.Radius, r.Second.Value!.Radius, 1e-9); // the records alone would give less
                Assert.True(r.Second.Value.UpperLimit >= r.First.Value.UpperLimit);
            });
            Assert.Equal("from other conditions", strong.RestsOn);
            Assert.Contains($"{strong.Missions} missions of its own give no limit", strong.Note(_options.Bands));
            Assert.Contains("not taken below 10-15 mph on the same ground", strong.Note(_options.Bands));
        }
    }

    [Fact]
    public void A_band_without_a_limit_of_its_own_has_that_of_its_widest_cell()
    {
        var band = _margins.Cell("15+", Cell.Any)!;
        Assert.Equal((5, 20, "borrowed"), (band.Missions, band.Landings, band.RestsOn));
        for (var i = 0; i < _margins.Shares.Count; i++)
            Assert.True(band.Radii[i].Value!.Radius >= Math.Max(_margins.Cell("15+", "meadow")!.Radii[i].Value!.Radius,
                _margins.Cell("15+", "timber")!.Radii[i].Value!.Radius) - 1e-9);
        Assert.Contains("the greatest of its cells, widest", band.Note(_options.Bands));
    }

    [Fact]
    public void A_note_is_never_empty_where_a_number_is_borrowed()
    {
        Assert.Contains(_margins.Rows, r => !r.IsOwn);
        Assert.All(_margins.Rows.Where(r => !r.IsOwn), r => Assert.NotNull(r.Note(_options.Bands)));
        Assert.DoesNotContain("15+ mph", _margins.Reading); // no cell of fewer than five missions is named as least or greatest
        Assert.Contains("2 further cells of fewer missions have radii from other conditions", _margins.Reading);
    }

    [Fact]
    public void Four_missions_alone_give_no_radius()
    {
        var few = RadiusMargins.Of([.. _landings.Where(l => l.Drop.Mission.StartsWith("meadow0-", StringComparison.Ordinal)
            && l.Drop.Mission[^1] < '4')], _options, [0.5]);
        Assert.All(few.Rows, r => Assert.Contains("4 missions; a radius needs 5 of its own", r.Radii[0].Reason));
        Assert.StartsWith("No margin can be given: 4 missions", few.Reading);
    }

    /// <summary>Six missions of one landing give the radius of a half, and of 90 % no limit.</summary>
    [Fact]
    public void A_radius_that_can_be_given_is_not_denied_for_the_sake_of_one_that_cannot()
    {
        var some = RadiusMargins.Of([.. _landings.Where(l => l.Drop.Terrain == "meadow").GroupBy(l => l.Drop.Mission).Take(6)
            .Select(g => g.First())], _options, [0.5, 0.9]);
        Assert.True(some.Overall.Radii[0].Success && !some.Overall.Radii[1].Success);
        Assert.StartsWith("50 % of 6 landings from 6 missions came down within", some.Reading);
        Assert.Contains("No radius of 90 % can be given: ", some.Reading);
    }

    /// <summary>Radii of own rows by the definition of type 8, counts and rates by hand; the other rows as in the table.</summary>
    [Fact]
    public void The_card_has_the_radii_of_the_table_and_the_counts_of_the_records()
    {
        var log = new JumpLog("made", null, [.. _landings.Select(l => l.Drop).Distinct()], _landings, Made.NoIntake);
        var card = Assert.Single(SpottingMargins.Of(log, _options).Cards);
        var html = new StringWriter();
        card.WriteHtml(html);
        var rows = Regex.Matches(html.ToString(), "<tr><td>(.*?)</tr>").Select(m => Regex.Replace(m.Value, "</td>", "|"))
            .Select(r => WebUtility.HtmlDecode(Regex.Replace(r, "<[^>]*>", "")).Split('|')).ToDictionary(r => new Cell(r[0], r[1]));
        Assert.Equal(_margins.Rows.Count, rows.Count);
        foreach (var margin in _margins.Rows)
        {
            var (row, own) = (rows[margin.Cell], _landings.Where(l => margin.Cell.Holds(l.Drop, _options.Bands)).ToList());
            Assert.Equal($"{own.Select(l => l.Drop.Mission).Distinct().Count()} / {own.Count}", row[2]);
            Assert.Equal(Yards(margin.IsOwn ? MadeMargins.Type8(own.Select(l => l.MissDistance!.Value), 0.5)
                : margin.Radii[0].Value!.Radius), row[3]);
            Assert.Equal(Yards(margin.IsOwn ? MadeMargins.Type8(own.Select(l => l.MissDistance!.Value), 0.9)
                : margin.Radii[2].Value!.Radius), row[4]);
            Assert.Equal(Yards(margin.Radii[2].Value!.UpperLimit), row[5]);
            Assert.Equal(margin.RestsOn, row[6]);
            if (margin.Missions < 5) Assert.Equal(("–", "–"), (row[7], row[8]));
            else Assert.StartsWith($"{100.0 * own.Count(l => l.MissDistance <= 30) / own.Count:0} % (", row[7]);
        }
        Assert.NotEqual(rows[Cell.All][3], rows[Cell.All][4]);

        static string Yards(double metres) => Rounding.Fixed(metres / Yard, metres / Yard < 10 ? 1 : 0);
    }

    /// <summary>
    /// Six cells of four missions of two, all of one scatter: the variance between cells is the interaction's sum of squares over its two
    /// degrees of freedom less a cell's own variance, and that over the mean square is what a cell borrows.
    /// </summary>
    [Fact]
    public void What_a_cell_borrows_follows_from_how_much_the_cells_differ()
    {
        double[] missions = [-0.3, 0.1, 0.4, -0.2];
        double[,] cells = { { 2.0, 2.9, 2.2 }, { 2.8, 2.3, 3.2 } };
        var landings = new List<Landing>();
        for (var b = 0; b < 2; b++)
        {
            for (var t = 0; t < 3; t++)
            {
                for (var m = 0; m < 4; m++)
                {
                    var drop = Made.Drop($"{b}{t}{m}", $"{b}{t}{m}", terrain: MadeMargins.Terrains[t], windSpeed: 1 + 2 * b);
                    foreach (var own in (double[])[-0.15, 0.15])
                        landings.Add(Made.Landing(drop, 0, Math.Exp(cells[b, t] + missions[m] + own)));
                }
            }
        }
        var mean = cells.Cast<double>().Average();
        double Band(int b) => Enumerable.Range(0, 3).Average(t => cells[b, t]);
        double Terrain(int t) => Enumerable.Range(0, 2).Average(b => cells[b, t]);
        var interaction = (from b in Enumerable.Range(0, 2) from t in Enumerable.Range(0, 3)
            select Math.Pow(cells[b, t] - Band(b) - Terrain(t) + mean, 2)).Sum() / 2;
        var variance = missions.Sum(d => d * d) / 3 / 4;
        Assert.True(interaction > 3 * variance); // above the least that is taken
        var margins = RadiusMargins.Of(landings, _options);
        Assert.All(margins.Rows.Where(r => !r.Cell.IsMargin), r => Assert.Equal(variance / interaction, r.Borrowed!.Value, 1e-6));
    }
}
