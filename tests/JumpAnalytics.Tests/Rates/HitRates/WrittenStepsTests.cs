namespace JumpAnalytics.Tests;

public sealed class WrittenStepsTests
{
    private static List<Landing> Written(string unit, params double[] distances) => [.. distances.Select((d, i) =>
        Made.Landing(Made.Drop($"d{i}", $"m{i}"), MeasureUnit.Distance(unit).ToSi(d), 0))];

    private static double[] Times(int n, params double[] distances) => [.. Enumerable.Range(0, n).SelectMany(_ => distances)];

    [Theory]
    [InlineData("yd", 10)]
    [InlineData("m", 5)]
    [InlineData("ft", 10)]
    [InlineData("yd", 25)]
    [InlineData("ft", 50)]
    public void The_unit_and_the_step_are_found(string unit, int step)
    {
        var landings = Written(unit, Times(10, step, 2 * step, 3 * step, 5 * step));
        var steps = WrittenSteps.Of(landings);
        Assert.Equal(landings.Count, steps.Rounded);
        Assert.All(landings, l => Close.Relative(MeasureUnit.Distance(unit).ToSi(step), steps.StepOf(l), 1e-9));
    }

    [Fact]
    public void Even_digits_and_measured_distances_have_no_step()
    {
        Assert.Equal(0, WrittenSteps.Of(Written("yd", [.. Enumerable.Range(1, 100).Select(i => (double)i)])).Rounded);
        Assert.Equal(0, WrittenSteps.Of(Written("yd", [.. Enumerable.Range(1, 100).Select(i => 3.1234567 * i)])).Rounded);
        Assert.Equal(0, WrittenSteps.Of(Written("yd", Times(4, 10, 20, 30, 40))).Rounded);
    }

    [Fact]
    public void Each_way_of_measuring_has_its_own_step()
    {
        var paced = Written("yd", Times(10, 10, 20, 30)).Select(l => l with { MeasuredBy = "estimate" }).ToList();
        double[] every = [.. Enumerable.Range(1, 40).Select(i => (double)i)];
        var exact = Written("yd", every).Select(l => l with { MeasuredBy = "laser" }).ToList();
        var steps = WrittenSteps.Of([.. paced, .. exact]);
        Assert.All(paced, l => Assert.True(steps.StepOf(l) > 0));
        Assert.All(exact, l => Assert.Equal(0, steps.StepOf(l)));
    }

    /// <summary>
    /// A cubic cumulative count is read off exactly: landings in proportion to x³ up to each end of a rounding interval give r³ at any
    /// radius, on a step, between steps, and near the spot.
    /// </summary>
    [Theory]
    [InlineData(4)]
    [InlineData(12)]
    [InlineData(40)]
    [InlineData(42)]
    [InlineData(45)]
    [InlineData(68)]
    public void The_share_inside_is_exact_for_a_cubic(double radius)
    {
        static double End(int k) => k == 0 ? 0 : 10 * (k - 0.5);
        double[] distances = [.. Enumerable.Range(0, 12).Select(k => 10.0 * k)];
        double[] weights = [.. Enumerable.Range(0, 12).Select(k => Math.Pow(End(k + 1), 3) - Math.Pow(End(k), 3))];
        var landings = Written("yd", [.. distances, .. Times(5, distances)]);
        var steps = WrittenSteps.Of(landings);
        var inside = distances.Select((_, k) => weights[k] * steps.Inside(landings[k], 0.9144 * radius)!.Value).Sum();
        Close.Relative(Math.Pow(radius, 3), inside, 1e-9);
    }

    [Fact]
    public void Spread_distances_fill_their_rounding_and_others_stay()
    {
        List<Landing> landings = [.. Written("yd", Times(10, 0, 10, 20)), Made.Beyond(Made.Drop(), 60)];
        var steps = WrittenSteps.Of(landings);
        var spread = steps.Spread(landings, 3).Select(d => d / 0.9144).ToArray();
        Assert.Equal(double.PositiveInfinity, spread[^1]);
        Assert.Equal(spread, steps.Spread(landings, 3).Select(d => d / 0.9144));
        foreach (var (at, low, width) in new[] { (0, 0.0, 5.0), (1, 5.0, 10.0), (2, 15.0, 10.0) })
        {
            double[] found = [.. spread.SkipLast(1).Where((_, i) => i % 3 == at).Order()];
            for (var i = 0; i < 10; i++) Close.Absolute(low + width * (i + 0.5) / 10, found[i], 1e-9);
        }
    }
}
