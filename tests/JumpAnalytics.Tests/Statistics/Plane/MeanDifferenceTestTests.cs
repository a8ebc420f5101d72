namespace JumpAnalytics.Tests;

public sealed class MeanDifferenceTestTests
{
    private static readonly PlaneSample _first = PlaneSample.Of(
        [new(12, 5), new(-4, -11), new(31, 14), new(8, 2), new(15, 9), new(22, -3), new(3, 20)]);

    private static readonly PlaneSample _second = PlaneSample.Of(
        [new(-9, 7), new(4, 30), new(-20, -18), new(1, -40), new(-6, 22), new(2, 11), new(-13, -5), new(-2, 16), new(5, -27)]);

    // R 4.2.2: summary(manova(places ~ sample), test = "Hotelling-Lawley").
    [Fact]
    public void Equal_covariances_agree_with_R()
    {
        var test = MeanDifferenceTest.Of(_first, _second, equalCovariances: true).Value!;
        Close.Relative(5.08360147250941, test.F, 1e-13);
        Close.Relative(0.0233858613109162, test.PValue, 1e-12);
        Close.Relative(0.782092534232217 * 14, test.TSquared, 1e-13); // Hotelling's and Lawley's trace times n - 2
        Assert.Equal(14, test.Freedom);
    }

    // R 4.2.2, cov() and pf() in the formula of Krishnamoorthy and Yu (2004); qt() for the intervals.
    [Fact]
    public void Unequal_covariances_agree_with_R()
    {
        var test = MeanDifferenceTest.Of(_first, _second).Value!;
        Close.Relative(10.0724612266216, test.TSquared, 1e-13);
        Close.Relative(12.7778214256794, test.Freedom, 1e-13);
        Close.Relative(4.64209217252858, test.F, 1e-13);
        Close.Relative(0.0326162648513359, test.PValue, 1e-12);
        Close.Relative(16.6507936507937, test.Difference.Along, 1e-13);
        Close.Relative(11.3611810890688, test.Along.Range!.Value.High - test.Along.Value, 1e-12);
        Close.Relative(19.0897609434714, test.Across.Value - test.Across.Range!.Value.Low, 1e-12);
        Assert.Equal((7, 9, 7, 9, 0), (test.FirstClusters, test.SecondClusters, test.FirstPoints, test.SecondPoints, test.LeftOut));
    }

    [Fact]
    public void Turned_and_stretched_axes_change_nothing_and_exchanged_samples_the_sign()
    {
        PlaneSample Moved(PlaneSample s) =>
            PlaneSample.Of(s.Placed.Select(p => new PlaneVector(3 * p.Along - p.Across + 7, 0.5 * p.Across)));
        var (test, moved) = (MeanDifferenceTest.Of(_first, _second).Value!, MeanDifferenceTest.Of(Moved(_first), Moved(_second)).Value!);
        Close.Relative(test.PValue, moved.PValue, 1e-11);
        Close.Relative(test.Freedom, moved.Freedom, 1e-11);
        var other = MeanDifferenceTest.Of(_second, _first).Value!;
        Assert.Equal((-test.Difference.Along, test.PValue), (other.Difference.Along, other.PValue), (a, b) =>
            Math.Abs(a.Item1 - b.Item1) < 1e-12 && Math.Abs(a.PValue - b.PValue) < 1e-12);
    }

    // A cluster's points count once, with their mean: copies of each point in its cluster leave the test as it is.
    [Fact]
    public void Clusters_are_the_units()
    {
        PlaneSample Thrice(PlaneSample s) => PlaneSample.Of(s.Placed.SelectMany((p, i) =>
            Enumerable.Range(-1, 3).Select(k => new PlaneReading($"{i}", new(p.Along + k, p.Across - k)))));
        var (test, thrice) = (MeanDifferenceTest.Of(_first, _second).Value!, MeanDifferenceTest.Of(Thrice(_first), Thrice(_second)).Value!);
        Close.Relative(test.PValue, thrice.PValue, 1e-11);
        Assert.Equal((7, 9, 21, 27), (thrice.FirstClusters, thrice.SecondClusters, thrice.FirstPoints, thrice.SecondPoints));
    }

    // Spreads of 1 and 4 on 25 and 8 clusters without a difference: of 2,000 tests at 5 % as many reject as a binomial of 0.05 allows, but
    // one in 10,000 (64 to 140); the pooled test, which takes the spreads for equal, rejects far more.
    [Fact]
    public void Unequal_spreads_keep_the_level()
    {
        var random = new Random(20_260_504);
        var (rejected, pooled) = (0, 0);
        for (var i = 0; i < 2000; i++)
        {
            var (a, b) = (Drawn(25, 1), Drawn(8, 16));
            if (MeanDifferenceTest.Of(a, b).Value!.PValue < 0.05) rejected++;
            if (MeanDifferenceTest.Of(a, b, equalCovariances: true).Value!.PValue < 0.05) pooled++;
        }
        Assert.InRange(rejected, 64, 140);
        Assert.True(pooled > 300);

        PlaneSample Drawn(int n, double variance)
        {
            var model = new BivariateNormal(5, -3, variance, 0.5 * variance, 0.3 * variance);
            return PlaneSample.Of(Enumerable.Range(0, n).Select(_ => model.Draw(random)).ToList());
        }
    }

    [Fact]
    public void Too_few_clusters_and_no_scatter_give_a_reason()
    {
        Assert.Equal("3 clusters and 9 clusters with a known place; the test needs 4 of each",
            MeanDifferenceTest.Of(PlaneSample.Of([new(1, 2), new(3, 4), new(0, 1)]), _second).Reason);
        PlaneSample Line(double at) => PlaneSample.Of(Enumerable.Range(0, 5).Select(i => new PlaneVector(at + i, 2 * i)));
        Assert.StartsWith("the means of the clusters do not scatter in some direction", MeanDifferenceTest.Of(Line(0), Line(3)).Reason,
            StringComparison.Ordinal);
    }
}
