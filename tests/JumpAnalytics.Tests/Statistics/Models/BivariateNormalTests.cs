namespace JumpAnalytics.Tests;

public sealed class BivariateNormalTests
{
    // Mean and covariance of 72 arrows, the data set archery1 of the R package MSQC; x for downwind, y for right.
    private static readonly BivariateNormal _arrows = new(6.77902777778, 5.77291666667, 104.306389182, 128.985722359, 43.4173268192);

    // Probability within r of the origin; R 4.2.2 by numerical integration, 12 digits.
    [Theory]
    [InlineData(5, .0851892150101)]
    [InlineData(10, .294768213503)]
    [InlineData(20, .729964724736)]
    public void Share_within_a_radius_and_radius_for_a_share(double radius, double share)
    {
        Close.Relative(share, _arrows.ProbabilityWithin(radius), 1e-9);
        Close.Relative(radius, _arrows.RadiusHolding(share), 1e-9);
    }

    // eigen() of the covariance, R 4.2.2: 161.782866022 and 71.5092455196, the longer axis 52.932857126° from x towards y;
    // qchisq(.95, 2) = 5.99146454710798.
    [Fact]
    public void The_ellipse_has_the_eigenvalues_and_the_turn_of_the_covariance()
    {
        var (length, width, angle) = _arrows.Ellipse(0.95);
        Close.Relative(Math.Sqrt(5.99146454710798 * 161.782866022), length, 1e-9);
        Close.Relative(Math.Sqrt(5.99146454710798 * 71.5092455196), width, 1e-9);
        Close.Absolute(52.932857126, double.RadiansToDegrees(angle), 1e-7);
    }

    [Theory]
    [InlineData(9, 4, 0, 0)]
    [InlineData(4, 9, 0, 90)]
    [InlineData(5, 5, 3, 45)]
    [InlineData(5, 5, -3, -45)]
    [InlineData(5, 5, 0, 0)]
    public void The_ellipse_turns_from_downwind_to_the_right(double downwind, double right, double covariance, double degrees) =>
        Close.Absolute(degrees, double.RadiansToDegrees(new BivariateNormal(1, 2, downwind, right, covariance).Ellipse(0.5).Angle), 1e-9);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void A_share_outside_0_and_1_has_no_ellipse(double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => _arrows.Ellipse(share));

    /// <summary>
    /// NumAcc4 of the Statistical Reference Datasets of NIST (public domain): 10000000.2, then 10000000.1 and 10000000.3 in turn,
    /// 1,001 values; certified mean 10000000.2, standard deviation 0.1. The values themselves are rounded to 2e-9, so eight digits
    /// of the deviation can be had.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(1001)]
    public void A_large_bias_costs_no_digits(int missions)
    {
        var values = Enumerable.Range(0, 1001).Select(i => i == 0 ? 10000000.2 : i % 2 == 1 ? 10000000.1 : 10000000.3).ToList();
        var sets = new MomentSums[missions];
        for (var i = 0; i < values.Count; i++) sets[i % missions].Add(new PlaneVector(values[i], i));
        var sums = new MomentSums();
        foreach (var set in sets) sums.Add(set);
        var model = sums.Fit(SampleNouns.Default).Value!;
        Close.Relative(10000000.2, model.MeanAlong, 1e-14);
        Close.Relative(0.1, Math.Sqrt(model.VarianceAlong), 1e-8);
        Close.Relative(500, model.MeanAcross, 1e-12);
        Close.Relative(1001 * 1002 / 12.0, model.VarianceAcross, 1e-12); // n(n+1)/12 for 0 to n-1
    }

    [Fact]
    public void Three_misses_are_enough_and_two_are_not()
    {
        var model = BivariateNormal.FitTo([new(0, 0), new(3, 0), new(0, 6)]).Value!;
        Assert.Equal((1.0, 2.0), (model.MeanAlong, model.MeanAcross));
        Close.Absolute(3, model.VarianceAlong, 1e-12);
        Close.Absolute(12, model.VarianceAcross, 1e-12);
        Close.Absolute(-3, model.Covariance, 1e-12);
        Assert.False(BivariateNormal.FitTo([new(0, 0), new(3, 0)]).Success);
        Assert.Equal("0 points with a known place; a normal needs 3", BivariateNormal.FitTo([]).Reason);
    }
}
