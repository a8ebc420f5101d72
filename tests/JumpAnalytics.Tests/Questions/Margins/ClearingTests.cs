using CsCheck;
using System.Globalization;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

public sealed class ClearingTests
{
    private static readonly MeasureUnit _metre = MeasureUnit.Distance("m");

    /// <summary>Rectangles under a standard normal with a correlation: mpmath, tests/reference/polygons/bvn_rect.csv.</summary>
    [Fact]
    public void Rectangles_under_a_correlated_normal_have_their_probability()
    {
        var rows = File.ReadLines(Path.Combine(ReferenceFiles.Root, "tests", "reference", "polygons", "bvn_rect.csv")).Skip(1)
            .Select(l => l.Split(',').Select(x => double.Parse(x, CultureInfo.InvariantCulture)).ToArray()).ToList();
        Assert.True(rows.Count == 10);
        foreach (var r in rows)
        {
            // means, standard deviations, correlation, x from and to, y from and to, probability
            var model = new BivariateNormal(r[0], r[1], r[2] * r[2], r[3] * r[3], r[4] * r[2] * r[3]);
            var found = PolygonProbability.Inside(model, [new(r[5], r[7]), new(r[6], r[7]), new(r[6], r[8]), new(r[5], r[8])]);
            Assert.Equal(r[9], found, 1e-11);
        }
    }

    [Fact]
    public void A_polygon_of_many_corners_is_a_circle_to_every_distribution()
    {
        var core = new BivariateNormal(7, -4, 300, 200, 60);
        PlaneVector[] corners = [.. Enumerable.Range(0, 20_000).Select(i => i * Math.Tau / 20_000)
            .Select(a => new PlaneVector(30 * Math.Cos(a), 30 * Math.Sin(a)))];
        foreach (var model in new IPlaneModel[] { core, new BivariateT(core, 3), new ScaleMixture(core, 0.1, 4) })
            // The polygon is smaller by 1.6e-8 of the area.
            Assert.Equal(model.ProbabilityWithin(30), PolygonProbability.Inside(model, corners), 1e-7);
    }

    /// <summary>
    /// Parts of a cut polygon add up, either way round, wherever the corners lie and however long and thin the parts are.
    /// </summary>
    [Fact]
    public void Parts_add_up_and_order_does_not_matter() =>
        Cases.Each(Gen.Select(Gen.Double[-80, 80], Gen.Double[-80, 80], Gen.Double[0.001, 100], Gen.Double[0.001, 100],
            Gen.Double[0.01, 0.99]), 300, 11, t =>
            {
                var (x, y, w, h, cut) = t;
                var model = new BivariateT(new BivariateNormal(3, 5, 400, 250, -120), 2.5);
                double Of(params PlaneVector[] c) => PolygonProbability.Inside(model, c);
                var whole = Of(new(x, y), new(x + w, y), new(x + w, y + h), new(x, y + h));
                var parts = Of(new(x, y), new(x + cut * w, y), new(x + cut * w, y + h), new(x, y + h))
                    + Of(new(x + cut * w, y), new(x + w, y), new(x + w, y + h), new(x + cut * w, y + h));
                Assert.Equal(whole, parts, 1e-11);
                Assert.Equal(whole, Of(new(x, y + h), new(x + w, y + h), new(x + w, y), new(x, y)), 1e-12);
            });

    [Fact]
    public void A_concave_clearing_holds_what_lies_in_it_and_its_edge()
    {
        var l = Clearing.Parse("0,0; 40,0; 40,10; 10,10; 10,40; 0,40", _metre);
        Assert.True(l.Holds(new(35, 5)) && l.Holds(new(5, 35)) && l.Holds(new(40, 5)) && l.Holds(new(10, 10)) && l.Holds(new(0, 0)));
        Assert.False(l.Holds(new(20, 20)) || l.Holds(new(-0.01, 5)) || l.Holds(new(41, 0)) || l.Holds(new(50, 10)));
        Assert.True(Clearing.Parse("circle 30 at 10,-5", _metre).Holds(new(40, -5)));
        Assert.False(Clearing.Parse("circle 30", _metre).Holds(new(30.1, 0)));
        Assert.Equal(9.144, Clearing.Parse("circle 10", MeasureUnit.Distance("yd")).Radius, 12);
    }

    [Theory]
    [InlineData("0,0; 10,0", "three corners or more; found 2")]
    [InlineData("0,0; 10,10; 10,0; 0,10", "The edge from corner 1 crosses or touches that from corner 3")]
    [InlineData("0,0; 10,0; 10,10; 0,0", "Corners 1 and 4 are the same")]
    [InlineData("0,0; 20,0; 20,10; 10,0; 0,10", "crosses or touches")]
    [InlineData("0,0; 10; 10,10", "'10' in the clearing '0,0; 10; 10,10' is not a corner")]
    [InlineData("0,0; x,0; 10,10", "'x' in the clearing")]
    [InlineData("circle big", "'big' in the clearing 'circle big' is not a number; try circle 40.")]
    public void What_is_no_clearing_is_refused_with_the_place(string text, string message) =>
        Assert.Contains(message, Assert.Throws<ArgumentException>(() => Clearing.Parse(text, _metre)).Message);

    [Fact]
    public void A_circle_needs_a_radius() => Assert.Throws<ArgumentOutOfRangeException>(() => Clearing.Parse("circle -3", _metre));

    [Fact]
    public void A_clearing_has_finite_coordinates()
    {
        foreach (var odd in (double[])[double.NaN, double.PositiveInfinity, double.NegativeInfinity])
        {
            foreach (var at in (PlaneVector[])[new(odd, 1), new(1, odd)])
            {
                Assert.Throws<ArgumentOutOfRangeException>(() => Clearing.Circle(40, at));
                Assert.Contains("finite", Assert.Throws<ArgumentException>(() => Clearing.Polygon([new(0, 0), new(9, 0), at])).Message);
            }
            Assert.Throws<ArgumentOutOfRangeException>(() => Clearing.Circle(odd));
        }
    }

    [Fact]
    public void Landings_are_counted_and_a_fitted_t_agrees()
    {
        var options = new AccuracyOptions();
        var clearing = Clearing.Parse("-60,-40; 60,-40; 60,40; -60,40", options.Units.Distance);
        var chance = ClearingChance.Of(DemoLog.Log.Landings, options, clearing);
        var inside = DemoLog.Log.Landings.Count(l =>
            l.MissDownwind is { } m && Math.Abs(m.Along) <= 60 * 0.9144 * (1 + 1e-12) && Math.Abs(m.Across) <= 40 * 0.9144 * (1 + 1e-12));
        Assert.Equal(inside, chance.Rows[^1].Counted.Value!.Hits);
        Assert.InRange(chance.Rows[^1].Modelled.Value!.Value - chance.Rows[^1].Counted.Value!.Rate.Value, -0.04, 0.04);
        Assert.Equal("No landing can be held against the clearing.", ClearingChance.Of([], options, clearing).Reading);
    }

    [Fact]
    public void A_landing_beyond_everything_in_the_clearing_is_outside_and_a_nearer_one_is_left_out()
    {
        var drop = Made.Drop();
        var chance = ClearingChance.Of([Made.Landing(drop, 0, 5), Made.Beyond(drop, 41), Made.Beyond(drop, 20)],
            new AccuracyOptions(), Clearing.Circle(40));
        Assert.Equal((1, 2), (chance.Rows[^1].Counted.Value!.Hits, chance.Rows[^1].Counted.Value!.Landings));
    }
}
