namespace JumpAnalytics.Tests;

/// <summary>
/// A normal on one line or at one place means the same to density, circle, polygon and draw; an impossible one can't be made.
/// </summary>
public sealed class DegenerateNormalTests
{
    private static readonly PlaneVector[] _square = [new(-10, -10), new(10, -10), new(10, 10), new(-10, 10)];

    [Theory]
    [InlineData(0, 0, -1, 1, 0)]
    [InlineData(0, 0, 1, -1e-6, 0)]
    [InlineData(0, 0, 1, 1, 1.001)]
    [InlineData(0, 0, 1, 1, double.NaN)]
    [InlineData(double.NaN, 0, 1, 1, 0)]
    [InlineData(0, double.PositiveInfinity, 1, 1, 0)]
    [InlineData(0, 0, double.PositiveInfinity, 1, 0)]
    [InlineData(0, 0, 0, 1, 0.5)]
    public void A_covariance_that_can_not_be_is_refused(double mean1, double mean2, double v1, double v2, double c)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new BivariateNormal(mean1, mean2, v1, v2, c));
        if (double.IsFinite(mean1 + mean2)) Assert.Throws<ArgumentOutOfRangeException>(() => new PlaneCovariance(v1, v2, c));
    }

    [Fact]
    public void What_rounding_takes_below_zero_is_zero()
    {
        Assert.Equal(new PlaneCovariance(100, 0, 0), new PlaneCovariance(100, -1e-12, 0));
        Assert.Equal(1, new BivariateNormal(0, 0, 1, 1, 1 + 1e-13).Covariance);
    }

    // R 4.2.2, with s the spread along one axis: pnorm(8 / s) - pnorm(-12 / s), on the other diagonal pnorm(8 / s) - pnorm(-8 / s).
    [Theory]
    [InlineData(2, 2, 12.5, 12.5, 12.5, 0.98782993472399949)]
    [InlineData(2, 2, 12.5, 12.5, -12.5, 0.97634838334464402)] // enters where y is 10 and leaves where x is
    [InlineData(2, 0, 25, 0, 0, 0.93700317237584585)]
    [InlineData(0, 2, 0, 25, 0, 0.93700317237584585)]
    [InlineData(2, 11, 25, 0, 0, 0)]
    [InlineData(3, 4, 0, 0, 0, 1)]
    [InlineData(10, 10, 0, 0, 0, 1)]
    [InlineData(3, 10.1, 0, 0, 0, 0)]
    public void Polygon_circle_draw_and_density_of_a_line_or_a_place(
        double mean1, double mean2, double v1, double v2, double c, double inSquare)
    {
        var model = new BivariateNormal(mean1, mean2, v1, v2, c);
        Close.Absolute(inSquare, PolygonProbability.Inside(model, _square), 1e-12);
        Close.Absolute(inSquare, PolygonProbability.Inside(model, [.. _square.Reverse()]), 1e-12);
        Assert.Null(model.LogDensity(new(mean1, mean2)));
        Assert.Equal(double.PositiveInfinity, model.SquaredDistance(new(mean1, mean2)));

        // A polygon of many corners is a circle but for 3e-5 of its radius; of the draws as many are in it, within 5 standard errors.
        var round = Enumerable.Range(0, 400).Select(k => new PlaneVector(8 * Math.Cos(k * Math.PI / 200), 8 * Math.Sin(k * Math.PI / 200)));
        var within = model.ProbabilityWithin(8);
        Close.Absolute(within, PolygonProbability.Inside(model, [.. round]), 2e-4);
        var random = new Random(20_260_501);
        var draws = Enumerable.Range(0, 4000).Select(_ => model.Draw(random)).ToList();
        Assert.InRange(draws.Average(d => d.Length <= 8 ? 1.0 : 0), within - 0.04, within + 0.04);
        var (sd1, sd2) = (Math.Sqrt(v1), Math.CopySign(Math.Sqrt(v2), c));
        Assert.All(draws, d => Close.Absolute((d.Along - mean1) * sd2, (d.Across - mean2) * sd1, 1e-9));
    }

    // Between the round normal and the line nothing jumps, and the search ends: a spread across of a thousandth to 1e-12 of that along.
    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-6)]
    [InlineData(1e-9)]
    [InlineData(1e-12)]
    public void A_narrow_normal_comes_to_the_line(double narrow)
    {
        var line = PolygonProbability.Inside(new BivariateNormal(2, 1, 25, 0, 0), _square);
        Close.Absolute(line, PolygonProbability.Inside(new BivariateNormal(2, 1, 25, 25 * narrow * narrow, 0), _square), 1e-9);
    }

    [Fact]
    public void Places_beyond_a_numbers_range_give_a_reason()
    {
        PlaneVector[] far = [new(1e200, 0), new(-1e200, 3), new(0, 1e200), new(5, 5), new(1e199, 2), new(1, 2), new(3, 4), new(2, 2)];
        const string Why = "points lie so far apart that their variance is beyond a number's range";
        Assert.Equal(Why, BivariateNormal.FitTo(far).Reason);
        Assert.Equal(Why, BivariateNormal.FitTo(PlaneSample.Of(far)).Reason);
        Assert.Equal(Why, BivariateT.FitTo(PlaneSample.Of(far)).Reason);
        Assert.Equal("1 point with a coordinate that is not a finite number",
            BivariateNormal.FitTo([new(1, 2), new(double.NaN, 0), new(0, 1), new(3, 1)]).Reason);
    }
}
