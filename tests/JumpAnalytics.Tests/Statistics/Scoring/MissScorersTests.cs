using System.Globalization;
using MathNet.Numerics;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics.Tests;

/// <summary>The scores of a model of misses: <see cref="DistanceScorer"/> and <see cref="EnergyScorer"/>.</summary>
public sealed class MissScorersTests
{
    private static double At(IReadOnlyDictionary<string, string> row, string column) =>
        double.Parse(row[column], CultureInfo.InvariantCulture);

    // tests/reference/scores: numpy 1.24.2 and scipy 1.10.1, by other formulas.
    [Fact]
    public void Scores_of_normals_agree_with_the_reference()
    {
        var rows = ReferenceFiles.Rows("scores/normal-misses.csv").ToList();
        Assert.Equal(24, rows.Count);
        foreach (var row in rows)
        {
            var normal = new BivariateNormal(At(row, "mean_downwind"), At(row, "mean_right"), At(row, "variance_downwind"),
                At(row, "variance_right"), At(row, "covariance"));
            var miss = new PlaneVector(At(row, "downwind"), At(row, "right"));
            var what = $"{normal} at {miss}";
            Close.Absolute(At(row, "crps"), DistanceScorer.For(normal).Crps(miss.Length, At(row, "up_to")), 1e-9, what);
            var energy = EnergyScorer.For(normal);
            Close.Absolute(At(row, "energy"), energy.Score(miss), 1e-10, what);
            Assert.Equal(0, energy.SelfDistanceError);
            var drawn = EnergyScorer.For(new Disguised(normal), draws: 100); // the other way to the mean distance
            Close.Absolute(energy.Score(miss) + energy.SelfDistance, drawn.Score(miss) + drawn.SelfDistance, 1e-9, what);
        }
    }

    // tests/reference/scores/t-misses.csv: mpmath 1.3.0, by other formulas.
    [Fact]
    public void Energy_scores_of_a_t_agree_with_the_reference_and_draw_nothing()
    {
        var rows = ReferenceFiles.Rows("scores/t-misses.csv").ToList();
        Assert.Equal(24, rows.Count);
        foreach (var row in rows)
        {
            const double Spread = 37;
            var t = new BivariateT(new BivariateNormal(10, -20, Spread * Spread, Spread * Spread, 0), At(row, "freedom"));
            var energy = EnergyScorer.For(t);
            Assert.Equal(0, energy.SelfDistanceError);
            Close.Relative(At(row, "self_distance"), energy.SelfDistance / Spread, 1e-11, $"{t}");
            var away = Spread * At(row, "distance");
            var miss = new PlaneVector(10 + 0.6 * away, -20 - 0.8 * away);
            Close.Relative(At(row, "mean_distance"), (energy.Score(miss) + energy.SelfDistance) / Spread, 1e-11, $"{t} at {miss}");
        }
    }

    [Fact]
    public void Energy_scores_of_flat_ts_and_mixtures_agree_with_quadrature_and_draws()
    {
        var core = new BivariateNormal(3, -5, 900, 100, 150);
        foreach (var model in new IPlaneModel[] { new BivariateT(core, 3.1), new BivariateT(core, 40), new ScaleMixture(core, 0.2, 4),
            new ScaleMixture(core, 0.02, 30), new BivariateT(core, double.PositiveInfinity) })
        {
            var (exact, drawn) = (EnergyScorer.For(model), EnergyScorer.For(new Disguised(model)));
            foreach (var miss in new PlaneVector[] { new(3, -5), new(40, 10), new(-200, 300) })
                Close.Relative(drawn.Score(miss) + drawn.SelfDistance, exact.Score(miss) + exact.SelfDistance, 2e-9, $"{model} at {miss}");
            // 5 standard errors: 3e-6 a case.
            Assert.InRange(exact.SelfDistance, drawn.SelfDistance - 5 * drawn.SelfDistanceError,
                drawn.SelfDistance + 5 * drawn.SelfDistanceError);
        }
    }

    // The mean of a Rice distribution less s√π/2, mpmath 1.2.1, closed form and quadrature agreeing to 1e-28.
    [Theory]
    [InlineData(1, 0, .367087211862742)]
    [InlineData(1, 1, .662345535098387)]
    [InlineData(2, 3, 1.97741764790572)]
    [InlineData(60, 85, 55.7054650401756)]
    [InlineData(25, 0, 9.17718029656856)]
    [InlineData(100, 350, 276.007116381017)]
    public void Energy_score_of_an_isotropic_normal_agrees(double sd, double distance, double score)
    {
        var found = EnergyScorer.For(new BivariateNormal(10, -20, sd * sd, sd * sd, 0))
            .Score(new PlaneVector(10 + 0.6 * distance, -20 - 0.8 * distance));
        Close.Relative(score, found, 1e-11);
    }

    /// <summary>The distance of a centred isotropic normal is a Rayleigh distribution: d − 2s√(π/2)·erf(d/s√2) + s√π/2.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    [InlineData(30)]
    [InlineData(75)]
    [InlineData(5000)]
    public void CRPS_of_a_Rayleigh_distribution_agrees_with_its_closed_form(double distance)
    {
        const double Sd = 25;
        var expected = distance - 2 * Sd * Math.Sqrt(Math.PI / 2) * SpecialFunctions.Erf(distance / (Sd * Math.Sqrt(2)))
            + Sd * Math.Sqrt(Math.PI) / 2;
        Close.Absolute(expected, DistanceScorer.For(new BivariateNormal(0, 0, Sd * Sd, Sd * Sd, 0)).Crps(distance),
            1e-11 * Math.Max(50, distance));
    }

    /// <summary>
    /// With S = 1/(1 + r²/a²) both integrals are elementary: ∫S² = r/2(1 + r²/a²) + (a/2)·atan(r/a), ∫S = a·atan(r/a); total ∫S² = πa/4.
    /// </summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(20)]
    [InlineData(900)]
    public void CRPS_of_a_far_tail_agrees_with_its_closed_form(double distance)
    {
        const double A = 35;
        double SquareOf(double r) => r / (2 * (1 + r * r / (A * A))) + A / 2 * Math.Atan(r / A);
        double Below(double r) => r - 2 * A * Math.Atan(r / A) + SquareOf(r);
        var scorer = DistanceScorer.For(new FarTailModel(A));
        Close.Absolute(Below(distance) + Math.PI * A / 4 - SquareOf(distance), scorer.Crps(distance), 1e-8);
        Close.Absolute(distance < 50 ? Below(distance) + SquareOf(50) - SquareOf(distance) : Below(50),
            scorer.Crps(distance, upTo: 50), 1e-8);
        Close.Absolute(Below(distance), scorer.CrpsBeyond(distance), 1e-8);
    }

    /// <summary>A model of a few places is an ensemble, and its scores are the ensemble's.</summary>
    [Fact]
    public void A_model_that_jumps_scores_as_the_ensemble_it_is()
    {
        PlaneVector[] places = [new(120, -40), new(60, 30), new(-15, 90), new(200, 10), new(85, -5)];
        var scorer = DistanceScorer.For(new PlacesModel(places));
        double[] distances = [.. places.Select(p => p.Length)];
        foreach (var d in new[] { 0, 53.2, 85.5, 127, 400 })
            Close.Absolute(ForecastScores.EnsembleCrps(distances, d), scorer.Crps(d), 2e-6);

        var energy = EnergyScorer.For(new PlacesModel(places));
        Assert.InRange(energy.SelfDistanceError, 1e-3, 1);
        var miss = new PlaneVector(50, 20);
        // Four standard errors of the draws: by chance outside in fewer than 1 of 10,000 seeds. The seed is fixed.
        Close.Absolute(ForecastScores.EnsembleEnergy(places, miss), energy.Score(miss), 4 * energy.SelfDistanceError);
        Close.Absolute(ForecastScores.EnsembleEnergy(places, miss) - ForecastScores.EnsembleEnergy(places, default),
            energy.Score(miss) - energy.Score(default), 2e-6);
    }

    /// <summary>
    /// Drawn and exact spread differ by less than four standard errors (chance below 1e-4; the seed is fixed), which are as large as told.
    /// </summary>
    [Fact]
    public void Draws_agree_with_what_is_exact_within_their_standard_error()
    {
        var normal = new BivariateNormal(8, -5, 900, 400, 120);
        var (exact, drawn) = (EnergyScorer.For(normal), EnergyScorer.For(new Disguised(normal)));
        Close.Absolute(exact.SelfDistance, drawn.SelfDistance, 4 * drawn.SelfDistanceError);
        Assert.InRange(drawn.SelfDistanceError / drawn.SelfDistance, 0.003, 0.005);
        Assert.Equal(drawn.SelfDistance, EnergyScorer.For(new Disguised(normal)).SelfDistance);
        Assert.NotEqual(drawn.SelfDistance, EnergyScorer.For(new Disguised(normal), seed: 2).SelfDistance);
        // Twenty seeds: the spread of the estimates is the error told, but for a factor that a chi-square on 19 exceeds with chance 1e-4.
        var others = Enumerable.Range(10, 20).Select(s => EnergyScorer.For(new Disguised(normal), 500, s)).ToList();
        var sd = Math.Sqrt(others.Select(o => o.SelfDistance).Variance());
        Assert.InRange(sd / others.Average(o => o.SelfDistanceError), 0.45, 1.7);
    }

    /// <summary>
    /// The true model scores best in the mean over its own misses; the others are off in bias, size and direction. Over 600 other misses
    /// the mean difference was at least .5 (plane) and .3 (distances) of its standard deviation, so with 300 the order is chance in fewer
    /// than 1 of a million. The seed is fixed.
    /// </summary>
    [Fact]
    public void The_true_model_scores_best()
    {
        var truth = new BivariateNormal(20, 0, 900, 225, 0);
        var random = SeedStream.For(8, "misses of the truth");
        PlaneVector[] misses = [.. Enumerable.Range(0, 300).Select(_ => truth.Draw(random))];
        var turned = new BivariateNormal(0, 20, 225, 900, 0);
        BivariateNormal[] others = [new BivariateNormal(50, 0, 900, 225, 0), new BivariateNormal(20, 0, 3600, 900, 0),
            new BivariateNormal(20, 0, 100, 25, 0), turned];
        var (distance, energy) = (DistanceScorer.For(truth), EnergyScorer.For(truth));
        foreach (var other in others)
        {
            var (otherDistance, otherEnergy) = (DistanceScorer.For(other), EnergyScorer.For(other));
            Assert.True(misses.Average(m => otherEnergy.Score(m) - energy.Score(m)) > 0, other.ToString());
            var off = misses.Average(m => otherDistance.Crps(m.Length) - distance.Crps(m.Length));
            if (other == turned) Close.Absolute(0, off, 1e-9); // distances can't tell
            else Assert.True(off > 0, other.ToString());
        }
    }

    [Fact]
    public void What_can_not_be_is_refused()
    {
        var normal = new BivariateNormal(0, 0, 1, 1, 0);
        Assert.Throws<ArgumentOutOfRangeException>(() => DistanceScorer.For(normal).Crps(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => DistanceScorer.For(normal).Crps(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => DistanceScorer.For(normal).Crps(1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => EnergyScorer.For(normal, draws: 99));
        Assert.Throws<ArgumentException>(() => EnergyScorer.For(normal).Score(new PlaneVector(double.NaN, 0)));
    }
}
