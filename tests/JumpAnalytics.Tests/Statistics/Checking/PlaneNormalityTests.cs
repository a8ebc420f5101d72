namespace JumpAnalytics.Tests;

public sealed class PlaneNormalityTests
{
    // R 4.2.2, from the papers' formulas. Skewness without the small-sample correction, the correction of it for the flowers.
    [Fact]
    public void Skewness_kurtosis_and_Henze_Zirkler_of_published_data()
    {
        Check(NormalityTests.MardiaSkewness(CheckData.Sweat, 3, false), 2.552236476799);
        Check(NormalityTests.MardiaKurtosis(CheckData.Sweat, 3), 13.164104399396);
        Check(NormalityTests.HenzeZirkler(CheckData.Sweat, 3, 1), .476444114751, .740171616872);

        Check(NormalityTests.MardiaSkewness(CheckData.Arrows, false), .061382800025, .946740690551);
        Check(NormalityTests.MardiaKurtosis(CheckData.Arrows), 7.682316607874, .736151485572);
        Check(NormalityTests.HenzeZirkler(CheckData.Arrows), .416536048849, .717605027016);

        Check(NormalityTests.MardiaSkewness(CheckData.Setosa, 4, false), 3.079721342356, .177185884468);
        Check(NormalityTests.MardiaSkewness(CheckData.Setosa, 4, true), 3.079721342356, .112761704583);
        Check(NormalityTests.MardiaKurtosis(CheckData.Setosa, 4), 26.537656161440, .195322907442);
        Check(NormalityTests.HenzeZirkler(CheckData.Setosa, 4, 1), .9488453160017, .0499535561792);

        Check(NormalityTests.MardiaSkewness(CheckData.Sepals, false), .0911404229257, .943793240545);
        Check(NormalityTests.MardiaKurtosis(CheckData.Sepals), 8.1057379822654, .9255380819569);
        Check(NormalityTests.HenzeZirkler(CheckData.Sepals), .285600686429, .914633595526);
    }

    private static void Check(Fit<FitTest> test, double statistic, double? p = null)
    {
        Close.Relative(statistic, test.Value!.Statistic, 1e-11, test.Value.Name);
        if (p is { } expected) Close.Relative(expected, test.Value.PValue, 1e-9, test.Value.Name);
    }

    [Fact]
    public void Moving_turning_and_stretching_the_misses_changes_nothing()
    {
        var moved = CheckData.Arrows.Select(m => new DownwindVector(1e4 + 3 * m.Downwind - m.Right, -2e3 + 0.2 * m.Downwind + 50 * m.Right)).ToList();
        foreach (var test in new Func<IReadOnlyList<DownwindVector>, Fit<FitTest>>[] { m => NormalityTests.MardiaSkewness(m), NormalityTests.MardiaKurtosis, m => NormalityTests.HenzeZirkler(m) })
        {
            Close.Relative(test(CheckData.Arrows).Value!.Statistic, test(moved).Value!.Statistic, 1e-10);
            Close.Relative(test(CheckData.Arrows).Value!.PValue, test(moved).Value!.PValue, 1e-10);
        }
    }

    [Theory]
    [InlineData(0, "0 points; a test of normality needs 8")]
    [InlineData(1, "1 point; a test of normality needs 8")]
    [InlineData(2, "2 points; a test of normality needs 8")]
    [InlineData(3, "3 points; a test of normality needs 8")]
    [InlineData(7, "7 points; a test of normality needs 8")]
    [InlineData(8, null)]
    public void Too_few_points_are_refused(int count, string? reason) => All(CheckData.Arrows[..count], reason);

    [Fact]
    public void Points_that_are_the_same_or_on_one_line_are_refused()
    {
        All([.. Enumerable.Repeat(new DownwindVector(0.1, 0.3), 30)], "all points lie on one line");
        All([.. Enumerable.Range(0, 30).Select(i => new DownwindVector(i / 3.0, 7 - i / 7.0))], "all points lie on one line");
        All([.. Enumerable.Range(0, 30).Select(i => new DownwindVector(i, 1e6 + 0.1))], "all points lie on one line");
        All([.. Enumerable.Range(0, 29).Select(_ => new DownwindVector(5, 5)), new(6, 5), new(5, 6)], null);
    }

    private static void All(DownwindVector[] misses, string? reason)
    {
        foreach (var test in new[] { NormalityTests.MardiaSkewness(misses), NormalityTests.MardiaKurtosis(misses), NormalityTests.HenzeZirkler(misses) })
        {
            Assert.Equal(reason, test.Reason);
            if (test.Value is { } made) Assert.True(double.IsFinite(made.Statistic) && made.PValue is >= 0 and <= 1, made.ToString());
        }
    }

    [Fact]
    public void A_coordinate_that_is_no_number_is_an_error() =>
        Assert.Throws<ArgumentException>(() => NormalityTests.HenzeZirkler([.. CheckData.Arrows, new(double.NaN, 0)]));

    private static DownwindVector[] Drawn(int count)
    {
        var random = SeedStream.For(1, "many misses");
        var model = new BivariateNormal(10, -5, 900, 400, 100);
        return [.. Enumerable.Range(0, count).Select(_ => model.Draw(random))];
    }

    [Fact]
    public void Of_many_misses_some_are_compared_and_the_result_says_so()
    {
        var misses = Drawn(6000);
        var test = NormalityTests.HenzeZirkler(misses, seed: 3).Value!;
        Assert.Equal(5000, test.Points);
        Assert.Equal("lognormal approximation, on 5,000 of 6,000 points drawn with seed 3", test.Method);
        Assert.Equal(test, NormalityTests.HenzeZirkler(misses, seed: 3).Value);
        Assert.NotEqual(test.Statistic, NormalityTests.HenzeZirkler(misses, seed: 4).Value!.Statistic);
        Assert.Equal("lognormal approximation", NormalityTests.HenzeZirkler(misses[..5000]).Value!.Method);
    }

    /// <summary>Each p-value of a normal sample is below 0.001 once in a thousand seeds; the seed is fixed.</summary>
    [Fact, Trait("Category", "Long")]
    public void A_million_misses_are_tested()
    {
        var misses = Drawn(1_000_000);
        Assert.All(new[] { NormalityTests.MardiaSkewness(misses), NormalityTests.MardiaKurtosis(misses), NormalityTests.HenzeZirkler(misses) }, t => Assert.InRange(t.Value!.PValue, 0.001, 1));
        Assert.Equal(1_000_000, NormalityTests.MardiaKurtosis(misses).Value!.Points);
    }

    /// <summary>
    /// 4,000 samples of 20 normal misses. A standard deviation of the share below 0.05 is 0.0034; for a true level from 0.043 to 0.057 the chance of
    /// counting less than 0.03 or more than 0.07 is below 2e-4 each. The seed is fixed.
    /// </summary>
    [Fact]
    public void In_twenty_points_the_five_percent_tests_reject_about_five_percent()
    {
        var random = SeedStream.For(5, "levels");
        var model = new BivariateNormal(0, 0, 1, 1, 0);
        var (skew, zirkler) = (0, 0);
        for (var s = 0; s < 4000; s++)
        {
            var misses = Enumerable.Range(0, 20).Select(_ => model.Draw(random)).ToArray();
            if (NormalityTests.MardiaSkewness(misses).Value!.PValue < 0.05) skew++;
            if (NormalityTests.HenzeZirkler(misses).Value!.PValue < 0.05) zirkler++;
        }
        Assert.InRange(skew / 4000.0, 0.03, 0.07);
        Assert.InRange(zirkler / 4000.0, 0.03, 0.07);
    }
}
