namespace JumpAnalytics.Tests;

/// <summary>Methods that let the missions tell how much landings have in common.</summary>
public sealed class MissionRateIntervalsTests
{
    // The cbpp record of the R package lme4, pooled over periods: cases and herd sizes of 15 herds.
    private static readonly int[] _cases = [9, 5, 12, 4, 6, 4, 12, 12, 2, 4, 9, 3, 3, 11, 3];
    private static readonly int[] _sizes = [40, 61, 74, 35, 71, 72, 40, 34, 29, 84, 96, 29, 87, 26, 64];

    // Ten sticks of 1 to 6, and four that agree by luck (design effect below 1, so 17 landings count as 17).
    private static readonly int[] _hits = [4, 0, 3, 5, 2, 1, 6, 3, 0, 4];
    private static readonly int[] _landings = [4, 2, 3, 6, 5, 1, 6, 4, 3, 4];

    private static Estimate Of(RateInterval method, int[] hits, int[] landings, double confidence = 0.95) =>
        RateIntervals.Of(method, hits, landings, confidence).Value!;

    private static void Agrees(double low, double high, Estimate found, double tolerance = 1e-10)
    {
        Close.Absolute(low, found.Range!.Value.Low, tolerance, "low");
        Close.Absolute(high, found.Range.Value.High, tolerance, "high");
    }

    // svyciprop of the R package survey 4.1-1 on one row an animal, herds as clusters: methods beta and logit, 95 %. The 90 % by the same
    // formulas in base R 4.2.2.
    [Fact]
    public void The_herds_agree_with_the_survey_package()
    {
        Agrees(.0723640527, .1773877613, Of(RateInterval.KornGraubard, _cases, _sizes));
        Agrees(.079207620331, .166397615453, Of(RateInterval.KornGraubard, _cases, _sizes, 0.9));
        Agrees(.0762729202, .1769639896, Of(RateInterval.EffectiveLogit, _cases, _sizes));
        Agrees(.082523686917, .164845097093, Of(RateInterval.EffectiveLogit, _cases, _sizes, 0.9));
        Assert.Equal(ClusteredProportion.Of(_cases, _sizes, 0.95).Rate, Of(RateInterval.EffectiveWilson, _cases, _sizes));
    }

    // The formulas in base R 4.2.2, with the effective number taken no higher than the number of landings.
    [Fact]
    public void Sticks_agree_with_R()
    {
        Agrees(.428091007378, .933873554425, Of(RateInterval.KornGraubard, _hits, _landings));
        Agrees(.437833532542, .909635959632, Of(RateInterval.EffectiveLogit, _hits, _landings));
        Agrees(.167721726465, .868794666290, Of(RateInterval.KornGraubard, [2, 2, 2, 3], [4, 4, 4, 5]));
        Agrees(.193315681092, .840797514604, Of(RateInterval.EffectiveLogit, [2, 2, 2, 3], [4, 4, 4, 5]));
    }

    /// <summary>
    /// Six litters of Weil (1970), in aod::rats of R, with all 46,656 resamples enumerated in base R 4.2.2: each limit lies between the
    /// quantiles at its widened tail (.0024318 at 95 %, .0529661 at 80 %) less and plus four standard errors of a counted share in 10,000,
    /// and outside by chance in fewer than 1 of 5,000 seeds. The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(0.95, .1111111111, .1818181819, .6808510638, .72)]
    [InlineData(0.8, .28, .2962962963, .5925925925, .6086956522)]
    public void Resampled_missions_agree_with_all_their_resamples(double confidence, double lowest, double low, double high, double highest)
    {
        var found = RateIntervals.Of(RateInterval.MissionResampling, [7, 4, 5, 3, 3, 0], [9, 7, 10, 6, 10, 7],
            confidence, 10_000, seed: 5).Value!;
        Close.Absolute(22 / 49.0, found.Value, 1e-15);
        Assert.InRange(found.Range!.Value.Low, lowest, low);
        Assert.InRange(found.Range.Value.High, high, highest);
        Assert.Equal(found, RateIntervals.Of(RateInterval.MissionResampling, [7, 4, 5, 3, 3, 0], [9, 7, 10, 6, 10, 7],
            confidence, 10_000, seed: 5).Value);
        Assert.NotEqual(found, RateIntervals.Of(RateInterval.MissionResampling, [7, 4, 5, 3, 3, 0],
            [9, 7, 10, 6, 10, 7], confidence, 200, seed: 6).Value);
    }

    // Sticks of 3, 4, 5 and 8, all hits: effective number 400/114 times (qt(.025, 19)/qt(.025, 3))², qbeta(.025, that, 1) of base R 4.2.2.
    [Fact]
    public void All_hits_or_none_have_an_honest_interval_or_a_reason()
    {
        int[] sizes = [3, 4, 5, 8];
        Agrees(.087984242682, 1, Of(RateInterval.KornGraubard, sizes, sizes));
        Agrees(0, 1 - .087984242682, Of(RateInterval.KornGraubard, [0, 0, 0, 0], sizes));
        foreach (var (hits, rate) in new[] { (sizes, 1.0), ([0, 0, 0, 0], 0) })
        {
            Assert.Equal(Estimate.WithoutRange(rate, "a share of 0 or 1 has no log odds"), Of(RateInterval.EffectiveLogit, hits, sizes));
            Assert.Equal(Estimate.WithoutRange(rate, "landings are all hits or all misses, and so is every resample"),
                Of(RateInterval.MissionResampling, hits, sizes));
            Assert.NotNull(Of(RateInterval.BetaBinomial, hits, sizes).Range);
        }
    }

    [Fact]
    public void A_single_mission_has_no_interval_that_respects_missions()
    {
        foreach (var method in new[] { RateInterval.EffectiveWilson, RateInterval.KornGraubard, RateInterval.EffectiveLogit,
            RateInterval.BetaBinomial, RateInterval.MissionResampling })
        {
            Assert.Equal(Estimate.WithoutRange(0.75, "a single mission"), Of(method, [3], [4]));
            Assert.Equal(Estimate.WithoutRange(1, "a single mission"), Of(method, [4], [4]));
        }
    }

    /// <summary>
    /// With one landing a mission the landings are independent: Korn and Graubard's interval is no wider than its
    /// effective number makes it.
    /// </summary>
    [Fact]
    public void One_landing_a_mission_is_Clopper_Pearson_on_the_effective_number()
    {
        int[] hits = [1, 0, 1, 1, 0, 1, 1, 1], ones = [1, 1, 1, 1, 1, 1, 1, 1];
        var effective = ClusteredProportion.Of(hits, ones, 0.95).EffectiveLandings!.Value;
        Close.Relative(7, effective, 1e-12); // the variance has missions − 1 in its divisor
        var expected = BinomialLimits.ClopperPearson(0.75 * 7, 7, 0.95);
        Agrees(expected.Low, expected.High, Of(RateInterval.KornGraubard, hits, ones), 1e-12);
    }
}
