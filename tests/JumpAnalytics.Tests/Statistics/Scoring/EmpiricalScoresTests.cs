namespace JumpAnalytics.Tests;

/// <summary>
/// Landings as they were have scores in closed form: the ensemble forms, which other tests hold against printed examples.
/// </summary>
public sealed class EmpiricalScoresTests
{
    private static readonly PlaneVector[] _misses =
        [.. Enumerable.Range(0, 57).Select(i => new PlaneVector(40 * Math.Sin(1.7 * i), 25 * Math.Cos(2.3 * i) + i % 7))];

    [Fact]
    public void They_equal_the_ensemble_forms()
    {
        var model = EmpiricalPoints.FitTo(PlaneSample.Of(_misses)).Value!.Model;
        var (distance, energy) = (DistanceScorer.For(model), EnergyScorer.For(model));
        Assert.Equal(0, energy.SelfDistanceError);
        double[] lengths = [.. _misses.Select(m => m.Length)];
        foreach (var y in new[] { new PlaneVector(0, 0), new(3, -20), new(200, 10), _misses[5] })
        {
            Close.Relative(ForecastScores.EnsembleCrps(lengths, y.Length), distance.Crps(y.Length), 1e-12, "CRPS");
            Close.Relative(ForecastScores.EnsembleEnergy(_misses, y), energy.Score(y), 1e-12, "energy");
        }
    }

    /// <summary>
    /// A closed form up to an end does not exist: the integral is used, and comes near the sum when the end lies beyond all landings.
    /// </summary>
    [Fact]
    public void With_an_end_the_integral_takes_over()
    {
        var scorer = DistanceScorer.For(EmpiricalPoints.FitTo(PlaneSample.Of(_misses)).Value!.Model);
        Close.Absolute(scorer.Crps(30), scorer.Crps(30, 500), 0.05, "far end");
    }
}
