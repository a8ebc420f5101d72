namespace JumpAnalytics.Tests;

public sealed class ClimbTests
{
    /// <summary>
    /// The likelihood of a Rayleigh deviation over its logarithm, for 72 distances of mean square 309.333717: the top is at half
    /// the logarithm of half of that.
    /// </summary>
    private static double Rayleigh(double x) => -144 * x - 72 * 309.333717 / 2 * Math.Exp(-2 * x);

    [Theory]
    [InlineData(0)]
    [InlineData(2.5)]
    [InlineData(6)]
    [InlineData(60)]
    public void The_place_of_a_top_has_ten_digits(double start)
    {
        var top = Climb.To(x => Rayleigh(x[0]), [start]);
        Assert.True(top.Converged);
        Close.Absolute(0.5 * Math.Log(309.333717 / 2), top.At[0], 1e-11);
    }

    /// <summary>So far out that the curvature rounds to nothing.</summary>
    [Fact]
    public void A_slope_without_curvature_is_climbed_too()
    {
        var top = Climb.To(x => -Math.Abs(x[0]) + Math.Exp(-x[0] * x[0]), [100]);
        Assert.True(Math.Abs(top.At[0]) < 1);
    }

    /// <summary>A ridge that bends: Rosenbrock's function upside down, its top at (1, 1).</summary>
    [Fact]
    public void A_bent_ridge_is_followed_to_its_top()
    {
        var top = Climb.To(x => -100 * Math.Pow(x[1] - x[0] * x[0], 2) - Math.Pow(1 - x[0], 2), [-1.2, 1]);
        Assert.True(top.Converged);
        Close.Absolute(1, top.At[0], 1e-9);
        Close.Absolute(1, top.At[1], 1e-9);
    }

    /// <summary>An edge within the wider differences of the last step: the place of the plain ones stands.</summary>
    [Fact]
    public void A_top_near_the_edge_of_the_function_is_still_found()
    {
        var top = Climb.To(x => x[0] > 1.9985 ? -Math.Pow(x[0] - 2, 2) : double.NaN, [3]);
        Assert.True(top.Converged);
        Close.Absolute(2, top.At[0], 1e-6);
    }

    [Fact]
    public void A_function_that_rises_for_ever_has_no_top() => Assert.False(Climb.To(x => x[0], [0]).Converged);

    [Fact]
    public void A_start_outside_is_no_top() => Assert.False(Climb.To(_ => double.NegativeInfinity, [0]).Converged);
}
