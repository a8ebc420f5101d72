using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Tests;

public sealed class LikelihoodClimbTests
{
    /// <summary>The log-likelihood of counts that follow a Poisson distribution: highest at the logarithm of their mean.</summary>
    private static readonly int[] _counts = [3, 0, 1, 4, 2, 2, 7, 1];

    private static double Poisson(double[] x) => _counts.Sum(k => k * x[0] - Math.Exp(x[0]));

    private static (double[]?, Matrix<double>?) Slopes(double[] x, double value) =>
        ([_counts.Sum() - _counts.Length * Math.Exp(x[0])], Matrix<double>.Build.Dense(1, 1, -_counts.Length * Math.Exp(x[0])));

    [Theory]
    [InlineData(-1)]
    [InlineData(0.9)]
    [InlineData(3)]
    public void The_top_is_found_to_ten_digits_by_slopes_in_closed_form_and_to_eight_by_differences(double start)
    {
        var top = Math.Log(_counts.Average());
        var (closed, differences) = (Climb.To(Poisson, [start], Slopes), Climb.To(Poisson, [start]));
        Assert.True(closed.Converged && differences.Converged);
        Close.Absolute(top, closed.At[0], 1e-10);
        Close.Absolute(top, differences.At[0], 1e-8);
        Close.Absolute(Poisson([top]), closed.Value, 1e-12);
    }

    [Fact]
    public void The_rounding_of_a_sum_of_a_million_terms_does_not_keep_the_climb_from_ending()
    {
        var calls = 0;
        var top = Climb.To(x => { calls++; return 1e6 * (Math.Round(1e14 * Poisson(x)) / 1e14); }, [0.2],
            (x, v) => (Slopes(x, v) is var (g, c) ? ([1e6 * g![0]], 1e6 * c!) : default));
        Assert.True(top.Converged);
        Close.Absolute(Math.Log(_counts.Average()), top.At[0], 1e-9);
        Assert.InRange(calls, 3, 12);
    }

    /// <summary>x² − x⁴ + x y − y² is level at 0 and highest where x² = 5/8 and y = x/2.</summary>
    [Fact]
    public void A_level_place_that_is_no_top_is_left()
    {
        var top = Climb.To(x => x[0] * x[0] - Math.Pow(x[0], 4) + x[0] * x[1] - x[1] * x[1], [0.0, 0.0]);
        Assert.True(top.Converged);
        Close.Absolute(5 / 8.0, top.At[0] * top.At[0], 1e-6);
        Close.Absolute(top.At[0] / 2, top.At[1], 1e-6);
    }

    [Fact]
    public void A_slope_without_end_is_no_top() => Assert.False(Climb.To(x => x[0], [0.0]).Converged);

    [Fact]
    public void Landings_beyond_the_same_distance_cost_one_probability_and_count_each()
    {
        var asked = 0;
        var readings = Enumerable.Range(0, 900).Select(i => new PlaneReading($"{i / 3}", null, i % 2 == 0 ? 100 : 250))
            .Append(new PlaneReading("0", new PlaneVector(1, 2)));
        var likelihood = PlaneLikelihood.Of<Counting>(PlaneSample.Of(readings), _ => new Counting(() => asked++));
        Close.Relative(450 * Math.Log(1 / 101.0) + 450 * Math.Log(1 / 251.0) - 3, likelihood.At([]), 1e-12);
        Assert.Equal(2, asked);
        var missions = likelihood.ByCluster([])!;
        Close.Relative(2 * Math.Log(1 / 101.0) + Math.Log(1 / 251.0) - 3, missions[0], 1e-12);
        Close.Relative(likelihood.At([]), missions.Sum(), 1e-12);
    }

    private sealed class Counting(Action asked) : IPlaneModel
    {
        public string Name => "counting";

        public double? LogDensity(PlaneVector miss) => -3;

        public double ProbabilityBeyond(double radius, PlaneVector centre = default)
        {
            asked();
            return 1 / (1 + radius);
        }

        public double ProbabilityWithin(double radius, PlaneVector centre = default) => throw new NotSupportedException();

        public double RadiusHolding(double probability, PlaneVector centre = default) => throw new NotSupportedException();

        public PlaneVector Draw(Random random) => throw new NotSupportedException();
    }
}
