using System.Globalization;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ClusteredProportionTests
{
    // The cbpp record (contagious bovine pleuropneumonia) of the R package lme4, pooled over periods: cases and herd sizes of 15 herds.
    private static readonly int[] _cases = [9, 5, 12, 4, 6, 4, 12, 12, 2, 4, 9, 3, 3, 11, 3];
    private static readonly int[] _sizes = [40, 61, 74, 35, 71, 72, 40, 34, 29, 84, 96, 29, 87, 26, 64];

    private static readonly ClusteredProportion _herds = ClusteredProportion.Of(_cases, _sizes, 0.95);

    // Rate, standard error, design effect and effective size: svymean and deff of the R package survey 4.1-1, herds as
    // clusters. Intra-class correlation: one-way analysis of variance of the 0/1 data, base R 4.2.2 (MSB .5816258876, MSW
    // .0957885067, n0 55.4518154055).
    [Fact]
    public void The_herds_agree_with_the_survey_package()
    {
        Assert.Equal((15, 842, 99), (_herds.Missions, _herds.Landings, _herds.Hits));
        Close.Relative(.1175771971496, _herds.Rate.Value, 1e-9, "rate");
        Close.Relative(.0231482457969, _herds.StandardError!.Value, 1e-9, "standard error");
        Close.Relative(4.3485897372609, _herds.DesignEffect!.Value, 1e-9, "design effect");
        Close.Relative(193.6259916141, _herds.EffectiveLandings!.Value, 1e-9, "effective number");
        Close.Relative(.0838014185325, _herds.IntraclassCorrelation!.Value, 1e-9, "intra-class correlation");
    }

    // Wilson on the effective number with the normal quantile 1.959963985; the formula in base R 4.2.2.
    [Fact]
    public void Wilson_on_the_effective_number_of_the_herds()
    {
        var interval = ClusteredProportion.Wilson(_herds.Rate.Value, _herds.EffectiveLandings!.Value, 1.959963985);
        Close.Absolute(.0794786484, interval.Low, 1e-9, "low");
        Close.Absolute(.1705547698, interval.High, 1e-9, "high");
    }

    // The same with qt(.975, df) and qt(.95, df) in place of the normal quantile, df = 14 (4.3485897 / 3.3485897)^2 = 23.61 (by the
    // fourth moments 32.16, which is more); base R 4.2.2.
    [Theory]
    [InlineData(0.95, .0778108191287, .1738357829677)]
    [InlineData(0.90, .0835349638106, .1630245761676)]
    public void The_interval_given_uses_t_on_the_degrees_of_its_estimated_part(double confidence, double low, double high)
    {
        var range = ClusteredProportion.Of(_cases, _sizes, confidence).Rate.Range!.Value;
        Close.Absolute(low, range.Low, 1e-10, "low");
        Close.Absolute(high, range.High, 1e-10, "high");
    }

    // tests/reference/intervals: mpmath 1.2.1, agreeing with scipy 1.10.1; the row of 81 in 263 is Newcombe (1998), table I.
    [Fact]
    public void Wilson_intervals_agree_with_the_reference()
    {
        var rows = ReferenceFiles.Rows("intervals/wilson.csv").ToList();
        Assert.Equal(67, rows.Count);
        foreach (var row in rows)
        {
            double At(string column) => double.Parse(row[column], CultureInfo.InvariantCulture);
            var interval = ClusteredProportion.Wilson(At("x") / At("n"), At("n"), Normal.InvCDF(0, 1, (1 + At("conf")) / 2));
            var what = $"{row["x"]} of {row["n"]} at {row["conf"]}";
            Close.Absolute(At("wilson_lo"), interval.Low, 1e-9, what);
            Close.Absolute(At("wilson_hi"), interval.High, 1e-9, what);
        }
    }

    // Effective number 20² / (3² + 4² + 5² + 8²) = 400/114; limit by Wilson with qt(.975, 3), base R 4.2.2.
    [Fact]
    public void All_hits_and_no_hit_mirror_each_other_and_claim_no_design_effect()
    {
        int[] sizes = [3, 4, 5, 8];
        var all = ClusteredProportion.Of(sizes, sizes, 0.95);
        var none = ClusteredProportion.Of([0, 0, 0, 0], sizes, 0.95);
        Assert.Equal(1, all.Rate.Value);
        Assert.Equal(1, all.Rate.Range!.Value.High);
        Close.Absolute(.2573029075893, all.Rate.Range.Value.Low, 1e-10);
        Assert.Equal(0, none.Rate.Value);
        Assert.Equal(0, none.Rate.Range!.Value.Low);
        Close.Absolute(1 - .2573029075893, none.Rate.Range.Value.High, 1e-10);
        Assert.All([all, none], p =>
        {
            Assert.Null(p.DesignEffect);
            Assert.Null(p.IntraclassCorrelation);
            Close.Relative(400 / 114.0, p.EffectiveLandings!.Value, 1e-14);
            Assert.Equal(0, p.StandardError);
        });
    }

    [Fact]
    public void A_single_mission_has_a_rate_and_no_interval()
    {
        var one = ClusteredProportion.Of([3], [4], 0.95);
        Assert.Equal(0.75, one.Rate.Value);
        Assert.Null(one.Rate.Range);
        Assert.Contains("single mission", one.Rate.WhyNoRange, StringComparison.Ordinal);
        Assert.Null(one.StandardError);
        Assert.Null(one.DesignEffect);
        Assert.Null(one.EffectiveLandings);
        Assert.Null(one.IntraclassCorrelation);
    }

    // Hits 1 0 1 1 0 1, one landing each: base R 4.2.2, M/(M-1)·Σ(y - p)²/36 = .0444, over p(1-p)/6 = 1.2; Wilson on 5
    // with qt(.975, 24), the lesser of 5 (1.2 / 0.2)^2 = 180 and 2 / (Σr⁴/(Σr²)² − 1/6) = 2 / (1/4 − 1/6).
    [Fact]
    public void One_landing_a_mission_has_no_likeness_and_an_interval()
    {
        var rate = ClusteredProportion.Of([1, 0, 1, 1, 0, 1], [1, 1, 1, 1, 1, 1], 0.95);
        Assert.Null(rate.IntraclassCorrelation);
        Close.Relative(.21081851067789, rate.StandardError!.Value, 1e-12);
        Close.Relative(1.2, rate.DesignEffect!.Value, 1e-12);
        Close.Relative(5, rate.EffectiveLandings!.Value, 1e-12);
        Close.Absolute(.2612011071379, rate.Rate.Range!.Value.Low, 1e-10);
        Close.Absolute(.9187907670478, rate.Rate.Range.Value.High, 1e-10);
    }

    // Hits 2 2 2 3 of 4 4 4 5: missions agree by luck. Base R 4.2.2; the interval is Wilson on 17 with qt(.975, 3), not on 17/.0523.
    [Fact]
    public void A_design_effect_below_one_is_told_and_not_used()
    {
        var rate = ClusteredProportion.Of([2, 2, 2, 3], [4, 4, 4, 5], 0.95);
        Close.Relative(.052287581699346, rate.DesignEffect!.Value, 1e-10);
        Close.Relative(.027681660899654, rate.StandardError!.Value, 1e-10);
        Assert.Equal(17, rate.EffectiveLandings);
        Close.Absolute(.2132546443592, rate.Rate.Range!.Value.Low, 1e-10);
        Close.Absolute(.8236076864108, rate.Rate.Range.Value.High, 1e-10);
        Assert.True(rate.IntraclassCorrelation < 0);
    }

    // Hits 2 3 3 4 3 of 4 4 4 5 4: from 5 missions on, missions that agree by luck leave Wilson on the landings
    // themselves. Base R 4.2.2, qnorm(.975).
    [Fact]
    public void From_five_missions_on_agreement_by_luck_gives_the_plain_interval()
    {
        var range = ClusteredProportion.Of([2, 3, 3, 4, 3], [4, 4, 4, 5, 4], 0.95).Rate.Range!.Value;
        Close.Absolute(0.5004361928391, range.Low, 1e-10);
        Close.Absolute(0.8618613704788, range.High, 1e-10);
    }

    /// <summary>When the jumpers of a mission share one fate, six missions of five are six observations and not thirty.</summary>
    [Fact]
    public void Landings_that_share_their_missions_fate_count_as_one()
    {
        var rate = ClusteredProportion.Of([5, 5, 5, 0, 5, 0], [5, 5, 5, 5, 5, 5], 0.95);
        Close.Absolute(1, rate.IntraclassCorrelation!.Value, 1e-12);
        var single = ClusteredProportion.Of([1, 1, 1, 0, 1, 0], [1, 1, 1, 1, 1, 1], 0.95);
        Close.Absolute(single.EffectiveLandings!.Value, rate.EffectiveLandings!.Value, 1e-12);
        Assert.True(rate.Rate.Range!.Value.Low < single.Rate.Range!.Value.Low && rate.Rate.Range.Value.High > single.Rate.Range.Value.High,
            "the variance is an estimate, and so the interval a little wider");
    }

    /// <summary>
    /// Missions of one landing each, whose effective landings are one fewer than the landings (all of them when all are hits).
    /// </summary>
    [Theory]
    [InlineData(14, 7, "fewer than 15 missions")]
    [InlineData(15, 7, null)]
    [InlineData(15, 9, null)] // 6 misses of 15, 5.6 of 14
    [InlineData(15, 10, "few misses")] // 4.7 of 14
    [InlineData(15, 15, "few misses")]
    [InlineData(15, 6, null)]
    [InlineData(15, 5, "few hits")]
    [InlineData(1, 1, null)] // no interval to caution about
    public void Few_missions_hits_or_misses_are_cautioned_about(int missions, int hits, string? begins)
    {
        var rate = ClusteredProportion.Of([.. Enumerable.Range(0, missions).Select(m => m < hits ? 1 : 0)],
            [.. Enumerable.Repeat(1, missions)], 0.9);
        if (begins is null) Assert.Null(rate.Caution);
        else Assert.StartsWith(begins + ":", rate.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void Misses_that_share_a_mission_are_fewer_than_they_look()
    {
        var sticks = Enumerable.Repeat(6, 20).ToArray();
        // 18 misses of 120 landings either way: one in each of 18 missions, or all of three.
        Assert.Null(ClusteredProportion.Of([.. sticks.Select((n, m) => m < 18 ? n - 1 : n)], sticks, 0.9).Caution);
        Assert.StartsWith("few misses", ClusteredProportion.Of([.. sticks.Select((n, m) => m < 3 ? 0 : n)], sticks, 0.9).Caution,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(new int[0], new int[0])]
    [InlineData(new[] { 1 }, new[] { 2, 3 })]
    [InlineData(new[] { 3 }, new[] { 2 })]
    [InlineData(new[] { -1 }, new[] { 2 })]
    [InlineData(new[] { 0 }, new[] { 0 })]
    public void Counts_that_can_not_be_are_refused(int[] hits, int[] landings) =>
        Assert.Throws<ArgumentException>(() => ClusteredProportion.Of(hits, landings, 0.95));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void A_confidence_outside_0_and_1_is_refused(double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ClusteredProportion.Of([1], [2], confidence));

    [Fact]
    public void More_landings_than_an_int_holds_are_refused_by_name()
    {
        var refused = Assert.Throws<ArgumentException>(() => ClusteredProportion.Of([5, 6], [int.MaxValue, 7], 0.95));
        Assert.Contains("2147483654 landings are more than can be counted", refused.Message, StringComparison.Ordinal);
    }
}
