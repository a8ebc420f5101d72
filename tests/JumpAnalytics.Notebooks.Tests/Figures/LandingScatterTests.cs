using System.Globalization;

namespace JumpAnalytics.Notebooks.Tests.Figures;

public class LandingScatterTests
{
    private static Figure Scatter(HandMadeLog log, string unit = "m") =>
        LandingScatter.Of(log.Analyse(HandMadeLog.Options with { Units = ReportUnits.Of(unit, "mps") }));

    [Fact]
    public void Up_is_long_and_right_is_right_of_the_forecast_line()
    {
        var figure = Scatter(new HandMadeLog()
            .Drop("A", "meadow", 1, [(3, 10)], to: 0) // drift north: 10 long, 3 right
            .Drop("B", "meadow", 1, [(-20, -5)], to: 90) // drift east, so south is right: 20 short, 5 right
            .Drop("C", "meadow", 1, [(7, -30)], to: 180) // drift south, so west is right: 30 long, 7 left
            .Drop("D", "meadow", 1, [(60, 0)], to: 45) // drift north-east: 60/√2 long and as much right; outside 50 m
            .Drop("E", "meadow", 1, [(0, 60)], to: 270)); // drift west, so north is right: neither long nor short, 60 right

        var (hit, miss) = (figure.Trace("hit"), figure.Trace("miss"));
        FigureParts.Near([3, 5, -7], hit["x"].Numbers());
        FigureParts.Near([10, -20, 30], hit["y"].Numbers());
        FigureParts.Near([60 / Math.Sqrt(2), 60], miss["x"].Numbers(), 0.005); // coordinates have two decimals
        FigureParts.Near([60 / Math.Sqrt(2), 0], miss["y"].Numbers(), 0.005);
        Assert.Equal(("circle", "x"), ((string?)hit["marker"]!["symbol"], (string?)miss["marker"]!["symbol"])); // told apart without colour
        Assert.Equal("right of the forecast line (m)", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
        Assert.Equal("downwind, + long (m)", (string?)figure.Layout()["yaxis"]!["title"]!["text"]);
        Assert.Equal("x", (string?)figure.Layout()["yaxis"]!["scaleanchor"]); // a circle is a circle
        Assert.StartsWith("3 hits and 2 misses round the spot. Centre ", figure.AlternativeText);
        Assert.StartsWith("5 landings with a known place from 5 missions", figure.Caption);
    }

    [Theory]
    [InlineData("m", 1)]
    [InlineData("yd", 0.9144)] // international yard, 1959
    [InlineData("ch", 20.1168)] // 66 international feet
    [InlineData("km", 1000)]
    [InlineData("nm", 1852)]
    [InlineData("mi", 1609.344)]
    public void Every_unit_keeps_the_place_to_a_tenth_of_a_metre(string unit, double metres)
    {
        var figure = Scatter(new HandMadeLog().Drop("A", "meadow", 1, [(13.3, -21.7)], to: 0), unit);
        Assert.Equal(13.3, metres * figure.Trace("hit")["x"].Numbers()[0], 0.1);
        Assert.Equal(-21.7, metres * figure.Trace("hit")["y"].Numbers()[0], 0.1);
        Assert.EndsWith($"({unit})", (string?)figure.Layout()["xaxis"]!["title"]!["text"]);
    }

    [Theory]
    [InlineData("m", "50 m")]
    [InlineData("yd", "55 yd")] // 50/0.9144 = 54.7
    [InlineData("km", "0.050 km")]
    [InlineData("nm", "0.027 nm")] // 50/1852 = 0.0270
    public void The_caption_gives_the_radius_in_the_unit(string unit, string radius) =>
        Assert.Contains($"target radius {radius}.", Scatter(HandMadeLog.Season(), unit).Caption);

    [Fact]
    public void Rings_are_the_distinct_radii()
    {
        var figure = Scatter(new HandMadeLog()
            .Drop("A", "meadow", 1, [(1, 2)], radius: 60).Drop("B", "meadow", 1, [(2, 1)], radius: 20)
            .Drop("C", "meadow", 1, [(3, 5)], radius: 60));
        Assert.Equal([20, 60], Radii(figure));
        Assert.Contains("Dashed rings: target radius 20, 60 m. ", figure.Caption);
        foreach (var ring in figure.Layout()["shapes"]!.AsArray())
        {
            Assert.Equal("circle", (string?)ring!["type"]);
            double r = (double)ring["x1"]!;
            Assert.Equal([-r, -r, r], [(double)ring["x0"]!, (double)ring["y0"]!, (double)ring["y1"]!]);
        }
    }

    [Fact]
    public void Of_many_radii_the_least_the_middle_and_the_greatest_are_drawn()
    {
        var log = new HandMadeLog();
        foreach (var radius in new[] { 40, 30, 30, 50, 90 }) log.Drop($"R{radius}", "meadow", 1, [(1, 2)], radius: radius);
        var figure = Scatter(log);
        Assert.Equal([30, 40, 90], Radii(figure)); // median of 30, 30, 40, 50, 90
        Assert.Contains("target radius 30, 40, 90 m (least, middle and greatest)", figure.Caption);
    }

    [Theory]
    [InlineData("m", 1)]
    [InlineData("yd", 0.9144)]
    [InlineData("km", 1000)]
    public void Ellipses_are_contours_of_the_fitted_normal(string unit, double metres)
    {
        var figure = Scatter(HandMadeLog.Season(), unit);
        // The 14 misses as written; the drift goes east, so east is long and south is right. Moments with divisor n − 1.
        var misses = new[]
        {
            HandMadeLog.In1, HandMadeLog.In2, HandMadeLog.In3, HandMadeLog.Out1, HandMadeLog.In1, HandMadeLog.In3, HandMadeLog.In2,
            HandMadeLog.Out2, HandMadeLog.In1, HandMadeLog.Out2, HandMadeLog.Out1, HandMadeLog.Out2, HandMadeLog.In3, HandMadeLog.Out1,
        }.Select(p => (Down: p.East, Right: -p.North)).ToList();
        var (down, right) = (misses.Average(m => m.Down), misses.Average(m => m.Right));
        double a = misses.Sum(m => (m.Down - down) * (m.Down - down)) / 13, b = misses.Sum(m => (m.Right - right) * (m.Right - right)) / 13,
            c = misses.Sum(m => (m.Down - down) * (m.Right - right)) / 13;

        foreach (var (name, share) in new[] { ("50 % ellipse", 0.5), ("95 % ellipse", 0.95) })
        {
            var (x, y) = (figure.Trace(name)["x"].Numbers(), figure.Trace(name)["y"].Numbers());
            Assert.Equal((x[0], y[0]), (x[^1], y[^1])); // closed
            var distances = x.Zip(y, (r, d) => (Down: metres * d - down, Right: metres * r - right))
                .Select(p => (b * p.Down * p.Down - 2 * c * p.Down * p.Right + a * p.Right * p.Right) / (a * b - c * c)).ToList();
            var quantile = -2 * Math.Log(1 - share); // of chi-square with two degrees of freedom
            Assert.Equal(quantile, distances.Min(), 0.005);
            Assert.Equal(quantile, distances.Max(), 0.005);
            Assert.True(x.Max() - x.Min() > 0 && x.Take(72).Distinct().Count() > 36); // all the way round
        }
        int Inside(double share) => (int)Math.Round(100.0 / 14 * misses.Count(m => (b * (m.Down - down) * (m.Down - down)
            - 2 * c * (m.Down - down) * (m.Right - right) + a * (m.Right - right) * (m.Right - right)) / (a * b - c * c)
            <= -2 * Math.Log(1 - share)));
        Assert.Contains($"50 % (dotted; {Inside(0.5)} % of the landings lie in it) and 95 % (solid; {Inside(0.95)} %)", figure.Caption);
        Assert.Equal(("dot", "solid"),
            ((string?)figure.Trace("50 % ellipse")["line"]!["dash"], (string?)figure.Trace("95 % ellipse")["line"]!["dash"]));
    }

    [Theory]
    [InlineData(1, "1 landing lies outside the frame.")]
    [InlineData(2, "2 landings lie outside the frame.")]
    public void Landings_outside_the_frame_are_counted(int far, string words)
    {
        // 150 landings within 10 m and one a kilometre long, which makes the 95 % ellipse about 2.45 · 1000/√151 = 199 m long: with the
        // bias of 7 m and a tenth more the frame ends near 227 m. A second one 300 m to the left lies a little outside.
        var log = new HandMadeLog().Drop("A", "meadow", 1, [.. Enumerable.Range(0, 150).Select(i => (10 * Math.Cos(i), 10 * Math.Sin(i)))]);
        foreach (var place in new[] { (1000.0, 0.0), (0.0, 300.0) }.Take(far)) log.Drop($"F{place}", "meadow", 1, [place]);
        var figure = Scatter(log);
        Assert.EndsWith(words, figure.Caption);
        var frame = figure.Layout()["xaxis"]!["range"].Numbers();
        Assert.Equal(frame, figure.Layout()["yaxis"]!["range"].Numbers());
        Assert.Equal(-frame[0], frame[1]);
        Assert.InRange(frame[1], 220, 240);
        Assert.Equal(far, figure.Trace("miss")["x"].Numbers().Zip(figure.Trace("miss")["y"].Numbers())
            .Count(p => Math.Abs(p.First) > frame[1] || Math.Abs(p.Second) > frame[1]));
    }

    [Fact]
    public void Nothing_is_said_of_the_frame_when_all_lie_inside() =>
        Assert.EndsWith("95 % (solid; 100 %).", Scatter(HandMadeLog.Season()).Caption.TrimEnd());

    [Fact]
    public void A_refused_fit_is_said_and_draws_no_ellipse()
    {
        var log = new HandMadeLog().Drop("A", "meadow", 1, [HandMadeLog.In1, HandMadeLog.Out1]);
        var figure = Scatter(log);
        Assert.Equal(["hit", "miss"], figure.Traces().Select(t => (string?)t!["name"]));
        var reason = log.Analyse().Rates.Overall.Model.Reason!;
        Assert.Contains($"No ellipse: {reason}.", figure.Caption);
        Assert.Equal("1 hit and 1 miss round the spot.", figure.AlternativeText);
        Assert.Equal(reason, figure.Data.Rows[0][^1]);
    }

    [Fact]
    public void A_landing_without_a_place_is_not_drawn_and_the_table_says_how_many_are()
    {
        var figure = Scatter(new HandMadeLog()
            .Drop("A", "meadow", 1, [(10, 0), (0, 10), (-10, 0), (0, -10)], beyond: 80).Drop("B", "meadow", 1, [], beyond: 90));
        Assert.Equal(4, figure.Trace("hit")["x"].Numbers().Length);
        Assert.Empty(figure.Trace("miss")["x"].Numbers());
        Assert.StartsWith("4 landings with a known place from 1 mission;", figure.Caption);

        // A cross of four: means 0, variance 200/3 on both axes, no correlation.
        var csv = figure.Data.ToCsv().Split('\n');
        Assert.Equal("missions,placed,mean_downwind_m,mean_right_m,sd_downwind_m,sd_right_m,correlation,note", csv[0]);
        var cells = csv[1].Split(',').Take(7).Select(c => double.Parse(c, CultureInfo.InvariantCulture)).ToArray();
        FigureParts.Near([1, 4, 0, 0, Math.Sqrt(200 / 3.0), Math.Sqrt(200 / 3.0), 0], cells);
        Assert.Equal(["landings-fitted-normal", "landings"], figure.Tables.Select(t => t.Name));
        Assert.Equal(6, figure.Tables[1].Rows.Count); // with the two that are not drawn
    }

    [Fact]
    public void A_log_without_landings_still_has_words()
    {
        var figure = Scatter(new HandMadeLog().Drop("A", "meadow", 1, []));
        Assert.StartsWith("0 hits and 0 misses", figure.AlternativeText);
        Assert.StartsWith("0 landings with a known place from 0 missions", figure.Caption);
        Assert.DoesNotContain("NaN", figure.Json);
    }

    private static double[] Radii(Figure figure) => [.. figure.Layout()["shapes"]!.AsArray().Select(s => (double)s!["x1"]!)];
}
