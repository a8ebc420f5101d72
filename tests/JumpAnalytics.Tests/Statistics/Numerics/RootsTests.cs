namespace JumpAnalytics.Tests;

public sealed class RootsTests
{
    [Fact]
    public void A_smooth_root_is_found_between_a_change_of_sign_and_nowhere_else()
    {
        Close.Absolute(Math.Sqrt(2), Roots.Of(x => x * x - 2, 0, 2, 1e-14)!.Value, 1e-14);
        Assert.Null(Roots.Of(x => x * x + 1, 0, 2, 1e-14));
    }

    [Fact]
    public void The_end_of_a_condition_is_found_to_the_last_digit_from_either_side()
    {
        var (inside, outside) = Roots.End(x => x < Math.PI, 0, 10);
        Assert.Equal((Math.BitDecrement(Math.PI), Math.PI), (inside, outside));
        Assert.Equal((Math.PI, Math.BitDecrement(Math.PI)), Roots.End(x => x >= Math.PI, 10, 0));
        var (near, far) = Roots.End(x => x < Math.PI, 0, 10, 0.1);
        Assert.True(near < Math.PI && far >= Math.PI && far - near is > 0.04 and <= 0.1);
        Assert.Equal(4, Roots.Middle(_ => true, 4, 4));
    }

    [Fact]
    public void The_first_number_without_a_condition_is_found()
    {
        for (var end = 0; end < 20; end++) Assert.Equal(end, Roots.First(i => i < end, -1, 20));
        Assert.Equal(20, Roots.First(_ => true, -1, 20));
        Assert.Equal(0, Roots.First(_ => throw new InvalidOperationException("asked"), -1, 0));
        Assert.InRange(Roots.First(i => i < 1000, 1, 5000, to => to / 50), 1000, 1020);
    }

    /// <summary>A rule of n nodes is exact for polynomials up to degree 2n − 1, from a table or not.</summary>
    [Theory]
    [InlineData(16)]
    [InlineData(20)]
    [InlineData(21)]
    [InlineData(40)]
    public void A_rule_is_exact_for_polynomials(int count) =>
        Close.Relative(Math.Pow(3, 2 * count) / (2 * count), new Quadrature(0, 3, count).Of(x => Math.Pow(x, 2 * count - 1)), 1e-13);
}
