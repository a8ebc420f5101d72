using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class BetaBinomialRateTests
{
    // The cbpp record of the R package lme4: 56 rows, and pooled into 15 herds.
    private static readonly int[] _rowCases = [2, 3, 4, 0, 3, 1, 1, 8, 2, 0, 2, 2, 0, 2, 0, 5, 0, 0, 1, 3, 0, 0, 1, 8, 1, 3, 0, 12, 2, 0, 0,
        0, 1, 1, 0, 2, 0, 5, 3, 1, 2, 1, 0, 0, 1, 2, 0, 0, 11, 0, 0, 0, 1, 1, 1, 0];
    private static readonly int[] _rowSizes = [14, 12, 9, 5, 22, 18, 21, 22, 16, 16, 20, 10, 10, 9, 6, 18, 25, 24, 4, 17, 17, 18, 20, 16,
        10, 9, 5, 34, 9, 6, 8, 6, 22, 22, 18, 22, 25, 27, 22, 22, 10, 8, 6, 5, 21, 24, 19, 23, 19, 2, 3, 2, 19, 15, 15, 15];
    private static readonly int[] _herdCases = [9, 5, 12, 4, 6, 4, 12, 12, 2, 4, 9, 3, 3, 11, 3];
    private static readonly int[] _herdSizes = [40, 61, 74, 35, 71, 72, 40, 34, 29, 84, 96, 29, 87, 26, 64];

    // Seeds that germinated on 21 plates (Crowder 1978), aod::orob2 of R.
    private static readonly int[] _seeds = [10, 23, 23, 26, 17, 5, 53, 55, 32, 46, 10, 8, 10, 8, 23, 0, 3, 22, 15, 32, 3];
    private static readonly int[] _plates = [39, 62, 81, 51, 39, 6, 74, 72, 51, 79, 13, 16, 30, 28, 45, 4, 12, 41, 30, 51, 7];

    private static void Agrees(BetaBinomialRate found, double mean, double likeness, double logLikelihood, double low, double high)
    {
        Close.Relative(mean, found.Mean.Value, 2e-8, "mean"); // the reference is climbed to about 1e-8
        Close.Absolute(likeness, found.Likeness!.Value, 2e-8, "likeness");
        Close.Absolute(logLikelihood, found.LogLikelihood, 2e-9, "log-likelihood");
        Close.Absolute(low, found.Mean.Range!.Value.Low, 2e-9, "low");
        Close.Absolute(high, found.Mean.Range.Value.High, 2e-9, "high");
    }

    // tests/reference/intervals/beta-binomial.R, base R 4.2.2. Means, likenesses and log-likelihoods of the rows and the plates also by
    // VGAM 1.1-7, vglm(betabinomial): .11539338 .12153672 -94.4183958310; .493572354 .081572348 -64.516282927.
    [Fact]
    public void Estimates_and_profile_limits_agree_with_R()
    {
        Agrees(BetaBinomialRate.Of(_rowCases, _rowSizes).Value!, .1153933844, .12153671, -94.418395831, .0825598032, .1590568346);
        Agrees(BetaBinomialRate.Of(_herdCases, _herdSizes).Value!, .1404866117, .06690604, -44.399902318, .0921488814, .2181750625);
        Agrees(BetaBinomialRate.Of(_herdCases, _herdSizes, 0.9).Value!, .1404866117, .06690604, -44.399902318, .0997742665, .2003464853);
        Agrees(BetaBinomialRate.Of([4, 0, 3, 5, 2, 1, 6, 3, 0, 4], [4, 2, 3, 6, 5, 1, 6, 4, 3, 4]).Value!, .6933910885, .50952474,
            -12.951812484, .3847792144, .8994749305);
        Agrees(BetaBinomialRate.Of(_seeds, _plates).Value!, .4935723430, .08157235, -64.516282927, .4120074188, .5731444675);
    }

    // The same script: the likeness is at its boundary, and the mean is hits over landings.
    [Fact]
    public void Missions_that_agree_by_luck_are_taken_as_independent_landings()
    {
        Agrees(BetaBinomialRate.Of([2, 2, 2, 3], [4, 4, 4, 5]).Value!, .5294117647, 0, -4.076209819, .1689345392, .8612036947);
    }

    // Newcombe (1998), table I, likelihood: printed .2542 to .3655, .0596 to .1567, .0020 to .1432; ten digits by uniroot of base R 4.2.2.
    // The confidence is the one at which t is 1.959964.
    [Theory]
    [InlineData(81, 263, .2542389888, .3654533413)]
    [InlineData(15, 148, .0596306921, .1567339139)]
    [InlineData(1, 29, .0020001737, .1431862972)]
    public void One_landing_a_mission_is_the_binomial_likelihood(int hits, int landings, double low, double high)
    {
        int[] outcomes = [.. Enumerable.Range(0, landings).Select(i => i < hits ? 1 : 0)];
        var confidence = 2 * StudentT.CDF(0, 1, landings - 1, 1.959963984540054) - 1;
        var found = BetaBinomialRate.Of(outcomes, [.. outcomes.Select(_ => 1)], confidence).Value!;
        Assert.Null(found.Likeness);
        Close.Relative((double)hits / landings, found.Mean.Value, 1e-12);
        Close.Absolute(low, found.Mean.Range!.Value.Low, 1e-9);
        Close.Absolute(high, found.Mean.Range.Value.High, 1e-9);
    }

    // The best likeness below the estimate is 1, so M missions are M trials: M·ln(limit) = -t²/2; base R 4.2.2, exp(-qt(.975, M-1)^2/2/M).
    [Theory]
    [InlineData(4, .281958449598)]
    [InlineData(20, .896265366123)]
    public void Of_missions_that_are_all_hits_each_counts_once(int missions, double limit)
    {
        int[] sizes = [.. Enumerable.Range(0, missions).Select(m => 1 + m % 5)], none = new int[missions];
        var (all, no) = (BetaBinomialRate.Of(sizes, sizes).Value!, BetaBinomialRate.Of(none, sizes).Value!);
        Assert.Equal((1, 1, 0), (all.Mean.Value, all.Mean.Range!.Value.High, all.LogLikelihood));
        Assert.Equal((0, 0, 0), (no.Mean.Value, no.Mean.Range!.Value.Low, no.LogLikelihood));
        Close.Absolute(limit, all.Mean.Range.Value.Low, 1e-11);
        Close.Absolute(1 - limit, no.Mean.Range.Value.High, 1e-11);
        Assert.Null(all.Likeness);
        Assert.Null(no.Likeness);
    }

    /// <summary>Missions of one fate each: likeness 1, and the interval is that of as many single landings.</summary>
    [Fact]
    public void Missions_of_one_fate_are_single_landings()
    {
        var shared = BetaBinomialRate.Of([5, 5, 3, 0, 4, 0], [5, 5, 3, 5, 4, 2]).Value!;
        var single = BetaBinomialRate.Of([1, 1, 1, 0, 1, 0], [1, 1, 1, 1, 1, 1]).Value!;
        Close.Absolute(1, shared.Likeness!.Value, 1e-12);
        Close.Absolute(single.Mean.Value, shared.Mean.Value, 1e-9);
        Close.Absolute(single.Mean.Range!.Value.Low, shared.Mean.Range!.Value.Low, 1e-9);
        Close.Absolute(single.Mean.Range.Value.High, shared.Mean.Range.Value.High, 1e-9);
    }

    // mpmath 1.3.0 at 40 digits: logarithms of the gamma function in place of sums over landings, findroot() of the slopes.
    [Fact]
    public void A_million_landings_a_mission_keep_eight_digits()
    {
        int[] hits = [400_000, 700_000, 250_000, 610_000, 520_000, 333_333];
        var found = BetaBinomialRate.Of(hits, [.. hits.Select(_ => 1_000_000)]).Value!;
        Close.Relative(0.469142719323913, found.Mean.Value, 1e-8);
        Close.Relative(0.09265118358393248, found.Likeness!.Value, 1e-8);
        Close.Absolute(-80.04921167668681, found.LogLikelihood, 1e-7);
        Close.Relative(0.2865154915615453, found.Mean.Range!.Value.Low, 1e-8);
        Close.Relative(0.6629983898356941, found.Mean.Range.Value.High, 1e-8);
    }

    [Fact]
    public void No_landing_and_a_single_mission_are_reasons()
    {
        Assert.Equal("no landing", BetaBinomialRate.Of([], []).Reason);
        Assert.Equal("a single mission", BetaBinomialRate.Of([3], [4]).Reason);
        Assert.Throws<ArgumentException>(() => BetaBinomialRate.Of([3], [2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaBinomialRate.Of([1, 2], [2, 2], 0));
    }

    /// <summary>
    /// 2,000 seasons at each setting, sticks of 1 to 8: where the true coverage is 0.94 the chance of counting less than 0.92 is below 1e-4
    /// (a standard deviation is 0.0053). The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(10, 0.5, 0.2)]
    [InlineData(10, 0.85, 0.4)]
    [InlineData(30, 0.85, 0.1)]
    [InlineData(30, 0.85, 0.4)]
    [InlineData(30, 0.95, 0.4)]
    [InlineData(60, 0.95, 0.4)]
    [Trait("Category", "Long")]
    public void A_95_percent_interval_covers_at_least_92(int missions, double rate, double likeness)
    {
        var random = SeedStream.For(2032, $"{missions} {rate} {likeness}");
        var scale = (1 - likeness) / likeness;
        var (hits, landings) = (new int[missions], new int[missions]);
        var covered = 0;
        for (var s = 0; s < 2000; s++)
        {
            for (var m = 0; m < missions; m++)
            {
                landings[m] = random.Next(1, 9);
                hits[m] = Binomial.Sample(random, Beta.Sample(random, rate * scale, (1 - rate) * scale), landings[m]);
            }
            if (BetaBinomialRate.Of(hits, landings).Value!.Mean.Range!.Value.Contains(rate)) covered++;
        }
        Assert.InRange(covered / 2000.0, 0.92, 1);
    }
}
