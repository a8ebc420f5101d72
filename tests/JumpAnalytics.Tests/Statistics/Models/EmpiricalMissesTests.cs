namespace JumpAnalytics.Tests;

public sealed class EmpiricalPointsTests
{
    private static readonly PlaneVector[] _ten = [.. Enumerable.Range(1, 10).Select(i => new PlaneVector(0, i % 2 == 0 ? i : -i))];

    private static readonly EmpiricalPoints _model = EmpiricalPoints.FitTo(PlaneSample.Of(_ten)).Value!.Model;

    [Fact]
    public void Shares_are_counts_with_the_rim_inside()
    {
        Assert.Equal(0.3, _model.ProbabilityWithin(3));
        Assert.Equal(0.2, _model.ProbabilityWithin(2.999));
        Assert.Equal(0.7, _model.ProbabilityBeyond(3));
        Assert.Equal(0.5, _model.ProbabilityWithin(10, new(0, 11))); // 2, 4, ..., 10 to the right
        Assert.Null(_model.LogDensity(new(0, 1)));
    }

    // R 4.2.2: quantile(1:10, c(.05, .1, .11, .3, .7, .9, .95), type = 1)
    [Theory]
    [InlineData(0.05, 1)]
    [InlineData(0.1, 1)]
    [InlineData(0.11, 2)]
    [InlineData(0.3, 3)]
    [InlineData(0.7, 7)]
    [InlineData(0.9, 9)]
    [InlineData(0.95, 10)]
    public void The_radius_is_that_of_a_landing(double share, double radius) => Assert.Equal(radius, _model.RadiusHolding(share));

    [Fact]
    public void Every_share_of_landings_is_held_by_the_radius_of_its_landing()
    {
        for (var n = 1; n <= 130; n++)
        {
            var model = EmpiricalPoints.FitTo(PlaneSample.Of(Enumerable.Range(1, n).Select(i => new PlaneVector(i, 0)))).Value!.Model;
            for (var k = 1; k < n; k++) Assert.Equal(k, model.RadiusHolding(k / (double)n));
        }
    }

    [Fact]
    public void Landings_known_only_as_beyond_count_as_outside_every_circle()
    {
        var fit = EmpiricalPoints.FitTo(PlaneSample.Of([.. _ten.Select((m, i) => new PlaneReading($"{i}", m)),
            new PlaneReading("a", null, 8), new PlaneReading("b", null, 6.5)])).Value!;
        Assert.Equal(6.5, fit.Model.KnownTo);
        Assert.Equal(12, fit.Model.Points);
        Assert.Equal(0.5, fit.Model.ProbabilityWithin(6));
        Assert.Equal(10 / 12.0, fit.Model.ProbabilityWithin(1e9));
        Assert.Equal(10, fit.Model.RadiusHolding(10 / 12.0));
        Assert.Equal(double.PositiveInfinity, fit.Model.RadiusHolding(0.9));
        Assert.StartsWith("2 of 12 points are known only as beyond a distance", Assert.Single(fit.Warnings), StringComparison.Ordinal);
        Assert.Equal(double.PositiveInfinity, _model.KnownTo);
        Assert.Equal("no point has a known place", EmpiricalPoints.FitTo(PlaneSample.Of([new PlaneReading("a", null, 8)])).Reason);
    }
}
