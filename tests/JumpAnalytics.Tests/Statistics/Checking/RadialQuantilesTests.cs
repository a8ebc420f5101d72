namespace JumpAnalytics.Tests;

public sealed class RadialQuantilesTests
{
    private static readonly BivariateNormal _circles =
        BivariateNormal.FitTo(PlaneSample.Of(CheckData.Arrows), NormalForm.EqualVariance | NormalForm.NoBias).Value!.Model;

    // R 4.2.2: sort(), qbeta() and Rayleigh's quantiles of the 72 arrows, points 1, 36 and 72.
    [Fact]
    public void Independent_landings_have_the_limits_of_order_statistics()
    {
        var plot = RadialQuantiles.Of(PlaneSample.Of(CheckData.Arrows), _circles).Value!;
        Assert.Equal((72, 72, 0, 72.0), (plot.Clusters, plot.Points, plot.Beyond, plot.EffectivePoints));
        Check(plot.Quantiles[0], (1 - 1 / 3.0) / (72 + 1 / 3.0), 1.53101273672037, 1.69240114826477, 0.329807433776435, 3.98102239950144);
        Check(plot.Quantiles[35], (36 - 1 / 3.0) / (72 + 1 / 3.0), 13.46774665636386, 14.49712349177074,
            12.155304978358531, 16.99476852784086);
        Check(plot.Quantiles[71], (72 - 1 / 3.0) / (72 + 1 / 3.0), 44.64444534317791, 38.07584407693692,
            30.447120735724141, 49.59998716199393);
    }

    private static void Check(RadialQuantile point, double position, double observed, double model, double low, double high)
    {
        Close.Relative(position, point.Position, 1e-12);
        Close.Relative(observed, point.Observed, 1e-12);
        Close.Relative(model, point.Model, 1e-9);
        Close.Relative(low, point.Low, 1e-8);
        Close.Relative(high, point.High, 1e-8);
    }

    /// <summary>By hand from Michael and Schucany's product with c = 1/3, n = 4: distances 1, 3 and 4, one landing beyond 2.</summary>
    [Fact]
    public void A_landing_beyond_a_distance_shifts_those_farther_off()
    {
        var sample =
            PlaneSample.Of(new PlaneReading[] { new("a", new(1, 0)), new("b", null, 2), new("c", new(0, 4)), new("d", new(0, -3)) });
        var plot = RadialQuantiles.Of(sample, MadeSeason.Truth).Value!;
        Assert.Equal([1.0, 3, 4], plot.Quantiles.Select(p => p.Observed));
        Close.Absolute(2 / 13.0, plot.Quantiles[0].Position, 1e-14);
        Close.Absolute(49 / 104.0, plot.Quantiles[1].Position, 1e-14);
        Close.Absolute(82 / 104.0, plot.Quantiles[2].Position, 1e-14);
        Assert.Equal(1, plot.Beyond);
    }

    /// <summary>
    /// All jumpers of a mission at one place tell no more than one: sticks of five give the limits of a fifth of the landings.
    /// </summary>
    [Fact]
    public void Landings_that_repeat_each_other_count_once()
    {
        var readings = CheckData.Arrows.SelectMany((m, i) => Enumerable.Range(0, 5).Select(_ => new PlaneReading($"{i}", m)));
        var plot = RadialQuantiles.Of(PlaneSample.Of(readings), _circles, most: 400).Value!;
        Assert.Equal((72, 360), (plot.Clusters, plot.Points));
        // Within a stick of equal distances the order is arbitrary: the sums over points see some of its landings before the others.
        Assert.InRange(plot.EffectivePoints, 68, 76);
        Assert.Equal(1, RadialQuantiles.Of(PlaneSample.Of(CheckData.Arrows.Select(m => new PlaneReading("one", m))),
            _circles).Value!.EffectivePoints);
    }

    /// <summary>
    /// 200 seasons of 60 missions with the model that made them: a 95 % limit is left by about 5 % of the points at a given position,
    /// whatever the likeness. For a true share of 0.06 more than 0.12 is counted with a probability below 1e-3. At the low end likeness
    /// makes the limits too wide, not too narrow. Seeds are fixed.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    [InlineData(0.8)]
    public void Limits_hold_for_landings_that_share_missions(double likeness)
    {
        double[] positions = [0.02, 0.25, 0.5, 0.9, 0.99];
        var outside = new int[positions.Length];
        var season = new MadeSeason(60, likeness);
        for (var s = 0; s < 200; s++)
        {
            var points = RadialQuantiles.Of(season.Draw(s), MadeSeason.Truth, most: 20).Value!.Quantiles;
            for (var k = 0; k < positions.Length; k++)
            {
                var point = points.MinBy(p => Math.Abs(p.Position - positions[k]));
                if (point.Observed < point.Low || point.Observed > point.High) outside[k]++;
            }
        }
        Assert.All(outside, o => Assert.InRange(o / 200.0, 0, 0.12));
        Assert.InRange(outside[2] / 200.0, 0.01, 0.12);
    }

    [Fact, Trait("Category", "Long")]
    public void Of_many_landings_some_points_are_given_and_both_ends_are_among_them()
    {
        var random = SeedStream.For(1, "many landings");
        var readings = Enumerable.Range(0, 1_000_000).Select(i => new PlaneReading($"{i / 4}", MadeSeason.Truth.Draw(random))).ToList();
        var sample = PlaneSample.Of(readings);
        var plot = RadialQuantiles.Of(sample, MadeSeason.Truth).Value!;
        Assert.InRange(plot.Quantiles.Count, 150, 200);
        Assert.Equal(sample.Placed.Min(m => m.Length), plot.Quantiles[0].Observed);
        Assert.Equal(sample.Placed.Max(m => m.Length), plot.Quantiles[^1].Observed);
        Assert.Equal(plot.Quantiles.OrderBy(p => p.Observed), plot.Quantiles);
        Assert.All(plot.Quantiles, p => Assert.True(0 <= p.Low && p.Low <= p.Model && p.Model <= p.High && double.IsFinite(p.High)));
        Assert.InRange(plot.EffectivePoints, 0.97e6, 1e6);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Few_landings_have_their_points(int count)
    {
        var points = RadialQuantiles.Of(PlaneSample.Of(CheckData.Arrows[..count]), _circles).Value!.Quantiles;
        Assert.Equal(count, points.Count);
        Assert.All(points, p => Assert.True(0 <= p.Low && p.Low < p.Model && p.Model < p.High && double.IsFinite(p.High)));
    }

    [Fact]
    public void Landings_that_are_all_on_the_spot_have_points_too() =>
        Assert.All(RadialQuantiles.Of(PlaneSample.Of(Enumerable.Repeat(new PlaneVector(0, 0), 30)), _circles).Value!.Quantiles,
            p => Assert.Equal(0, p.Observed));

    [Fact]
    public void Without_a_placed_landing_there_is_no_plot()
    {
        Assert.Equal("no point with a known place", RadialQuantiles.Of(PlaneSample.Of(Array.Empty<PlaneVector>()), _circles).Reason);
        Assert.Equal("no point with a known place", RadialQuantiles.Of(PlaneSample.Of([new PlaneReading("a", null, 50)]), _circles).Reason);
        Assert.Throws<ArgumentOutOfRangeException>(() => RadialQuantiles.Of(PlaneSample.Of(CheckData.Arrows), _circles, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => RadialQuantiles.Of(PlaneSample.Of(CheckData.Arrows), _circles, most: 1));
    }
}
