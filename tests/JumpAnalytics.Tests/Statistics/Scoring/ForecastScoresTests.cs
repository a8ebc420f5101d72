namespace JumpAnalytics.Tests;

public sealed class ForecastScoresTests
{
    // The closed form and quadrature in mpmath 1.2.1, which agree to 1e-39.
    [Theory]
    [InlineData(0, 1, 0, 0.2336949772551091)]
    [InlineData(0, 1, 1, 0.6024413576276163)]
    [InlineData(0, 1, -1, 0.6024413576276163)]
    [InlineData(0, 1, 2, 1.452791821685903)]
    [InlineData(0, 1, 3.5, 2.935927378289087)]
    [InlineData(2, 3, -1, 1.807324072882849)]
    [InlineData(2, 3, 2.5, 0.734253378579274)]
    [InlineData(-10, 0.5, -9, 0.7263959108429515)]
    [InlineData(100, 25, 40, 46.0312826150967)]
    [InlineData(0, 0.001, 0.5, 0.4994358104164522)]
    [InlineData(5, 2, 5, 0.4673899545102181)]
    [InlineData(15.3, 4.7, 22.1, 4.458965036390837)]
    [InlineData(0, 1, 8, 7.435810416452244)]
    [InlineData(0, 1, -8, 7.435810416452244)]
    [InlineData(250, 60, 310, 36.14648145765698)]
    [InlineData(-3.2, 1.1, -3.9, 0.4290123513556671)]
    public void CRPS_of_a_normal_agrees(double mean, double sd, double observed, double score) =>
        Close.Relative(score, ForecastScores.NormalCrps(mean, sd, observed), 1e-14);

    [Fact]
    public void A_normal_without_spread_is_its_mean() => Assert.Equal(3, ForecastScores.NormalCrps(2, 0, 5));

    // By hand from the definition: mean distance less half the mean distance of pairs, of all and of different ones.
    [Theory]
    [InlineData(new double[] { 1, 2, 3, 4, 5 }, 3.2, .44, .24)]
    [InlineData(new double[] { 20, 12, 10, 15 }, 11, 1.6875, 1)]
    [InlineData(new[] { -1.5, .2, .4, 2.2, 3.1, 7 }, 8.5, 5.12777777777777778, 4.8333333333333333)]
    [InlineData(new double[] { 4, 4 }, 1, 3, 3)]
    public void CRPS_of_an_ensemble_agrees(double[] members, double observed, double score, double fair)
    {
        Close.Absolute(score, ForecastScores.EnsembleCrps(members, observed), 1e-14);
        Close.Absolute(fair, ForecastScores.EnsembleCrps(members, observed, fair: true), 1e-14);
    }

    // By hand for the first; the definition in numpy 1.24.2 for the others.
    [Theory]
    [InlineData(new double[] { 0, 0, 3, 4 }, 0, 0, 1.25, 0)]
    [InlineData(new double[] { 0, 0, 3, 4, 6, 8, -3, 4 }, 3, 0, 3.1357229614491207, 2.2847050905783686)]
    [InlineData(new double[] { 120, -40, 60, 30, -15, 90, 200, 10, 85, -5 }, 50, 20, 31.5519713545296, 19.679612383746196)]
    public void Energy_score_of_an_ensemble_agrees(double[] coordinates, double downwind, double right, double score, double fair)
    {
        var members = coordinates.Chunk(2).Select(c => new PlaneVector(c[0], c[1])).ToArray();
        Close.Absolute(score, ForecastScores.EnsembleEnergy(members, new PlaneVector(downwind, right)), 1e-12);
        Close.Absolute(fair, ForecastScores.EnsembleEnergy(members, new PlaneVector(downwind, right), fair: true), 1e-12);
    }

    /// <summary>On one line the energy score is the CRPS.</summary>
    [Fact]
    public void Energy_score_on_a_line_is_the_CRPS()
    {
        double[] along = [-1.5, .2, .4, 2.2, 3.1, 7];
        var members = along.Select(x => new PlaneVector(0.6 * x, -0.8 * x)).ToArray();
        foreach (var fair in new[] { false, true })
            Close.Absolute(ForecastScores.EnsembleCrps(along, 1.3, fair),
                ForecastScores.EnsembleEnergy(members, new PlaneVector(0.78, -1.04), fair), 1e-14);
    }

    [Theory]
    [InlineData(0.7, true, 0.09, 0.35667494393873237891)]
    [InlineData(0.7, false, 0.49, 1.2039728043259359926)]
    [InlineData(1e-20, false, 1e-40, 1e-20)]
    [InlineData(1, true, 0, 0)]
    [InlineData(0, false, 0, 0)]
    [InlineData(0, true, 1, double.PositiveInfinity)]
    [InlineData(1, false, 1, double.PositiveInfinity)]
    public void Scores_of_a_probability(double probability, bool hit, double brier, double logarithmic)
    {
        Close.Relative(brier, ForecastScores.Brier(probability, hit), 1e-14);
        var found = ForecastScores.Logarithmic(probability, hit);
        if (double.IsInfinity(logarithmic)) Assert.Equal(logarithmic, found);
        else Close.Relative(logarithmic, found, 1e-15);
        Assert.False(double.IsNegative(found));
    }

    [Fact]
    public void What_can_not_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ForecastScores.Brier(1.1, true));
        Assert.Throws<ArgumentOutOfRangeException>(() => ForecastScores.Logarithmic(double.NaN, false));
        Assert.Throws<ArgumentOutOfRangeException>(() => ForecastScores.NormalCrps(0, -1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ForecastScores.NormalCrps(double.NaN, 1, 0));
        Assert.Throws<ArgumentException>(() => ForecastScores.EnsembleCrps([], 1));
        Assert.Throws<ArgumentException>(() => ForecastScores.EnsembleCrps([1], 1, fair: true));
        Assert.Throws<ArgumentOutOfRangeException>(() => ForecastScores.EnsembleCrps([1, double.NaN], 1));
        Assert.Throws<ArgumentException>(() => ForecastScores.EnsembleEnergy([new(1, 2)], default, fair: true));
        Assert.Throws<ArgumentException>(() => ForecastScores.EnsembleEnergy([new(1, double.NaN)], default));
    }
}
