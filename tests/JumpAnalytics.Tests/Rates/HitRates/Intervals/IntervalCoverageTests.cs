namespace JumpAnalytics.Tests;

public sealed class IntervalCoverageTests
{
    private static readonly int[] _sizes = [2, 3, 4, 4, 5, 6, 8];

    /// <summary>
    /// 600 seasons: for a true coverage of 88 to 93 % a count outside 83.5 to 97 % has a chance below 5e-4 a cell (standard deviations 1.3
    /// and 1.0 points). The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(20, 0.7, 0)]
    [InlineData(30, 0.8, 0.2)]
    [InlineData(40, 0.85, 0.4)]
    public void The_default_interval_covers_as_it_claims(int missions, double rate, double correlation) =>
        Assert.InRange(Of(missions, rate, correlation, RateInterval.EffectiveWilson), 0.835, 0.97);

    /// <summary>
    /// At correlation 0.7 hits have a likeness of about 0.4 (less than that of misses, as they hang on squared distances); with
    /// sticks of 4.6 and their spread the design effect is about 2.7, so that 1.645 standard errors of independent landings are 1.0
    /// true ones: Wilson covers about 68 %, and 600 seasons count above 80 % with a chance below 1e-9. Without correlation it covers
    /// about 90 %. The seed is fixed.
    /// </summary>
    [Fact]
    public void Wilson_covers_too_seldom_where_landings_share_missions_and_as_it_claims_where_they_do_not()
    {
        Assert.InRange(Of(40, 0.7, 0.7, RateInterval.Wilson), 0.5, 0.8);
        Assert.InRange(Of(40, 0.7, 0.7, RateInterval.EffectiveWilson), 0.835, 0.97);
        Assert.InRange(Of(40, 0.7, 0, RateInterval.Wilson), 0.835, 0.97);
    }

    /// <summary>
    /// 4,000 missions of 4: the standard deviation of the share of hits is 0.0036 if independent and at most 0.0072 if missions
    /// had one fate; the bounds are 4.1 of the greater, a chance below 5e-5. Probability of a hit from the Rayleigh
    /// distribution. The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    public void Simulated_seasons_have_the_rate_asked_for(double correlation)
    {
        var (hits, landings) = IntervalCoverage.Season(4000, 0.7, correlation, [4], SeedStream.For(2031, "seasons of a known rate"));
        var counted = ClusteredProportion.Of(hits, landings, 0.9);
        Close.Absolute(0.7, counted.Rate.Value, 0.03);
        // The likeness of hits of independent landings has a standard deviation of about 1/√(4000·6); 0.03 is 4.6 of it. At 0.4 it is near
        // 0.4², as hits hang on squared distances, and above 0 and below 0.4 by far.
        if (correlation == 0) Close.Absolute(0, counted.IntraclassCorrelation!.Value, 0.03);
        else Assert.InRange(counted.IntraclassCorrelation!.Value, 0.05, 0.25);
    }

    [Fact]
    public void The_table_of_a_record_holds_every_method_at_every_correlation_and_is_the_same_each_time()
    {
        var landings = Landings(missions: 25);
        var table = CoverageTable.Of(landings, new AccuracyOptions { Confidence = 0.9 });
        var rows = Assert.Single(table.Tables).Rows;
        Assert.Equal(3 * (Enum.GetValues<RateInterval>().Length - 1), rows.Count);
        Assert.Equal([0, 0.2, 0.4], table.Simulated.Select(s => s.Correlation));
        Assert.All(table.Simulated, s => Assert.Equal((25, 0.75, 0.9), (s.Missions, s.Rate, s.Confidence)));
        Assert.Contains("true rate of 75 %", table.Reading, StringComparison.Ordinal);
        // The two methods see the same seasons: where misses are correlated Wilson holds the truth in fewer of them, as its
        // interval is never the wider one.
        var correlated = table.Simulated[^1].Methods.ToDictionary(m => m.Method);
        Assert.True(correlated[RateInterval.Wilson].Covered < correlated[RateInterval.EffectiveWilson].Covered);
        Assert.True(correlated[RateInterval.Wilson].MeanWidth < correlated[RateInterval.EffectiveWilson].MeanWidth);
        Assert.Equal(table.ToString(), CoverageTable.Of(landings, new AccuracyOptions { Confidence = 0.9 }).ToString());
    }

    [Theory]
    [InlineData(0, "no landing")]
    [InlineData(1, "a single mission")]
    public void Without_two_missions_the_reading_says_why_there_is_nothing(int missions, string why)
    {
        var table = CoverageTable.Of(Landings(missions), new AccuracyOptions());
        Assert.Equal($"How often the intervals would cover can't be simulated: {why}.", table.Reading);
        Assert.Empty(Assert.Single(table.Tables).Rows);
        Assert.Empty(table.Simulated);
    }

    private static double Of(int missions, double rate, double correlation, RateInterval method) =>
        IntervalCoverage.Of(missions, rate, correlation, _sizes, 0.9, seasons: 600, seed: 2031, [method]).Methods.Single().Coverage!.Value;

    /// <summary>Missions of four, three of which land inside the target radius of 30 m.</summary>
    private static List<Landing> Landings(int missions) =>
        [.. Enumerable.Range(0, missions)
            .SelectMany(m => Enumerable.Range(0, 4).Select(j => Made.Landing(Made.Drop($"d{m}", $"m{m}"), j < 3 ? 10 : 50, 0)))];
}
