namespace JumpAnalytics.Notebooks.Tests.Figures;

public class RateForestTests
{
    [Fact]
    public void Counted_rates_stand_one_below_the_other_with_their_missions_and_landings()
    {
        var figure = RateForest.Of(HandMadeLog.Season().Analyse().Rates);
        var counted = figure.Trace("counted");
        // By hand: meadow 0-5 6/8, timber 0-5 1/4, meadow 5+ 1/2, all 8/14; the empty cell has no line of its own.
        FigureParts.Near([75, 25, 50, 100 * 8 / 14.0], counted["x"].Numbers());
        Assert.Equal([0, -1, -2, -3], counted["y"].Numbers());
        Assert.Equal([0, -1, -2, -3], figure.Layout()["yaxis"]!["tickvals"].Numbers());
        Assert.Collection(figure.Layout()["yaxis"]!["ticktext"].Texts(),
            t => Says(t, "meadow, 0-5 mps<br>", "5 missions / 8"),
            t => Says(t, "timber, 0-5 mps<br>", "2 missions / 4"),
            t => Says(t, "meadow, 5+ mps<br>", "1 mission / 2"),
            t => Says(t, "<b>all</b><br>", "8 missions / 14"));

        static void Says(string? text, string start, string inside)
        {
            Assert.StartsWith(start, text);
            Assert.Contains($">{inside}</span>", text);
        }
    }

    [Fact]
    public void Lines_reach_from_limit_to_limit()
    {
        var rates = HandMadeLog.Season().Analyse().Rates;
        var counted = RateForest.Of(rates).Trace("counted");
        var (x, up, down) = (counted["x"].Numbers(), counted["error_x"]!["array"].Numbers(), counted["error_x"]!["arrayminus"].Numbers());
        Assert.Equal("data", (string?)counted["error_x"]!["type"]);
        Assert.False((bool)counted["error_x"]!["symmetric"]!);

        // Timber by hand: hits 0 and 1 of 2 and 2, rate 1/4. Between-mission variance 2/1·(0.25+0.25)/16 = 1/16, binomial 3/64, so
        // design effect 4/3 and 3 effective landings. t on 1 degree of freedom is tan(0.475 π); Wilson's limits follow.
        var t = Math.Tan(0.475 * Math.PI);
        var centre = (0.25 + t * t / 6) / (1 + t * t / 3);
        var half = t * Math.Sqrt(0.1875 / 3 + t * t / 36) / (1 + t * t / 3);
        Assert.Equal(100 * (centre - half), x[1] - down[1], 1e-9);
        Assert.Equal(100 * (centre + half), x[1] + up[1], 1e-9);

        // The others as the table of rates has them; asymmetric, since no rate here is one half.
        string[][] cells = [["0-5", "meadow"], ["all", "all"]];
        foreach (var (i, cell) in new[] { 0, 3 }.Zip(cells))
        {
            var range = rates.Cell(cell[0], cell[1]).Counted.Value!.Rate.Range!.Value;
            Assert.Equal(100 * range.Low, x[i] - down[i], 1e-9);
            Assert.Equal(100 * range.High, x[i] + up[i], 1e-9);
            Assert.True(Math.Abs(up[i] - down[i]) > 1);
        }

        // Meadow at 5+ m/s has the single mission F: no line.
        Assert.Equal((0, 0), (up[2], down[2]));
    }

    [Fact]
    public void The_fitted_normal_stands_below_its_count_where_there_is_one()
    {
        var rates = HandMadeLog.Season().Analyse().Rates;
        var model = RateForest.Of(rates).Trace("fitted normal");
        // Meadow at 5+ m/s has two landings, one too few for a fit.
        Assert.Equal([-0.3, -1.3, -3.3], model["y"].Numbers());
        FigureParts.Near([.. new[] { rates.Cell("0-5", "meadow"), rates.Cell("0-5", "timber"), rates.Overall }
            .Select(c => 100 * c.ModelRate.Value!.Value)], model["x"].Numbers());

        var all = rates.Overall.ModelRate.Value!;
        Assert.Equal(100 * all.Range!.Value.Low, model["x"].Numbers()[2] - model["error_x"]!["arrayminus"].Numbers()[2], 1e-9);
        Assert.Equal(100 * all.Range!.Value.High, model["x"].Numbers()[2] + model["error_x"]!["array"].Numbers()[2], 1e-9);
    }

    [Fact]
    public void The_benchmark_is_a_line_over_the_whole_height()
    {
        var layout = RateForest.Of(HandMadeLog.Season().Analyse(HandMadeLog.Options with { Benchmark = 0.7 }).Rates).Layout();
        var line = Assert.Single(layout["shapes"]!.AsArray())!;
        FigureParts.Near([70, 70, 0, 1], [(double)line["x0"]!, (double)line["x1"]!, (double)line["y0"]!, (double)line["y1"]!]);
        Assert.Equal("paper", (string?)line["yref"]);
    }

    [Fact]
    public void Words_count_the_cells_beside_the_benchmark_and_say_n()
    {
        // The interval of meadow 0-5 ends near 96 %, that of timber near 99 %, the third cell has none (Wilson on
        // 6.98 and 3 effective landings).
        var figure = RateForest.Of(HandMadeLog.Season().Analyse(HandMadeLog.Options with { Benchmark = 0.97 }).Rates);
        Assert.Equal("3 cells: the interval of 1 lies below the benchmark of 97 %, of 0 above it.", figure.AlternativeText);
        Assert.Contains("8 missions, 14 landings", figure.Caption);
        Assert.Contains("95 % intervals", figure.Caption);
        Assert.Equal("landing rate", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
        Assert.Equal(" %", (string?)figure.Layout()["xaxis"]!["ticksuffix"]);
    }

    [Fact]
    public void Everything_drawn_lies_inside_the_axis_also_a_fit_without_interval()
    {
        // One mission, four landings at 49 m north, south, east and west, radius 50 m: all hits. Variance 2·49²/3 on both axes, no
        // correlation, so the normal holds 1 − exp(−50²/(2·1600.7)) = 54 % and has no interval either.
        var figure = RateForest.Of(new HandMadeLog().Drop("A", "meadow", 1, [(49, 0), (-49, 0), (0, 49), (0, -49)]).Analyse().Rates);
        Assert.Equal(100 * (1 - Math.Exp(-2500 / (4 * 2401 / 3.0))), figure.Trace("fitted normal")["x"].Numbers()[0], 1e-6);
        AssertInside(figure);
        AssertInside(RateForest.Of(HandMadeLog.Season().Analyse().Rates));
        AssertInside(RateForest.Of(HandMadeLog.Season().Analyse().Glance));

        static void AssertInside(Figure figure)
        {
            var axis = figure.Layout()["xaxis"]!["range"].Numbers();
            foreach (var trace in figure.Traces())
            {
                var lows = trace!["x"].Numbers().Zip(trace["error_x"]!["arrayminus"].Numbers(), (x, down) => x - down);
                var highs = trace["x"].Numbers().Zip(trace["error_x"]!["array"].Numbers(), (x, up) => x + up);
                Assert.All(lows.Concat(highs), x => Assert.InRange(x, axis[0], axis[1]));
            }
            Assert.InRange((double)figure.Layout()["shapes"]![0]!["x0"]!, axis[0], axis[1]);
        }
    }

    [Fact]
    public void Seasons_have_a_line_each_and_one_for_all()
    {
        var glance = HandMadeLog.Season().Analyse().Glance;
        var figure = RateForest.Of(glance);
        var trace = Assert.Single(figure.Traces())!;
        // By hand: 2025 is A, B, C with 5 hits of 6; 2026 is D to H with 3 of 8; all 8 of 14.
        FigureParts.Near([100 * 5 / 6.0, 100 * 3 / 8.0, 100 * 8 / 14.0], trace["x"].Numbers());
        Assert.Contains(">3 missions / 6</span>", figure.Layout()["yaxis"]!["ticktext"].Texts()[0]);
        Assert.Contains(">5 missions / 8</span>", figure.Layout()["yaxis"]!["ticktext"].Texts()[1]);
        var range = glance.Seasons[1].Rate.Value!.Rate.Range!.Value;
        Assert.Equal(100 * range.Low, trace["x"].Numbers()[1] - trace["error_x"]!["arrayminus"].Numbers()[1], 1e-9);
        Assert.Equal(100 * range.High, trace["x"].Numbers()[1] + trace["error_x"]!["array"].Numbers()[1], 1e-9);
        Assert.StartsWith("2025: 83 % (", figure.AlternativeText);
        Assert.Contains("; all: 57 % (", figure.AlternativeText);
        Assert.Contains("8 missions, 14 landings", figure.Caption);
        Assert.Equal(["seasons"], figure.Tables.Select(t => t.Name));
    }

    [Fact]
    public void Names_from_the_log_are_text_and_never_markup()
    {
        const string Hostile = "<a href='javascript:alert(1)'>x</a>";
        const string Escaped = "&lt;a href=&#39;javascript:alert(1)&#39;&gt;x&lt;/a&gt;";
        var accuracy = new HandMadeLog().Drop("A", Hostile, 1, [HandMadeLog.In1], season: Hostile).Analyse();
        Assert.StartsWith(Escaped + ", 0-5 mps", RateForest.Of(accuracy.Rates).Layout()["yaxis"]!["ticktext"].Texts()[0]);
        Assert.StartsWith(Escaped + "<br>", RateForest.Of(accuracy.Glance).Layout()["yaxis"]!["ticktext"].Texts()[0]);
        Assert.DoesNotContain("<a ", RateForest.Of(accuracy.Rates).Html() + RateForest.Of(accuracy.Glance).Html());
    }

    [Fact]
    public void A_log_without_landings_still_has_words()
    {
        var accuracy = new HandMadeLog().Drop("A", "meadow", 1, []).Analyse();
        Assert.Equal("0 cells: the interval of 0 lies below the benchmark of 85 %, of 0 above it.",
            RateForest.Of(accuracy.Rates).AlternativeText);
        Assert.Equal("No season has a landing.", RateForest.Of(accuracy.Glance).AlternativeText);
    }
}
