using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Methods for landings that share no mission.</summary>
public sealed class RateIntervalsTests
{
    private static Interval Of(RateInterval method, int hits, int landings, double confidence = 0.95) =>
        RateIntervals.Of(method, [hits], [landings], confidence).Value!.Range!.Value;

    // tests/reference/intervals: mpmath 1.2.1, agreeing with scipy 1.10.1.
    [Theory]
    [InlineData(RateInterval.Wilson, "wilson.csv", "wilson")]
    [InlineData(RateInterval.WilsonCorrected, "binomial.csv", "wilson_cc")]
    [InlineData(RateInterval.ClopperPearson, "binomial.csv", "clopper")]
    [InlineData(RateInterval.Jeffreys, "binomial.csv", "jeffreys")]
    [InlineData(RateInterval.MidP, "binomial.csv", "midp")]
    public void Intervals_agree_with_the_reference(RateInterval method, string file, string columns)
    {
        var rows = ReferenceFiles.Rows("intervals/" + file).ToList();
        Assert.Equal(67, rows.Count);
        foreach (var row in rows)
        {
            double At(string column) => double.Parse(row[column], CultureInfo.InvariantCulture);
            var interval = Of(method, (int)At("x"), (int)At("n"), At("conf"));
            var what = $"{method}, {row["x"]} of {row["n"]} at {row["conf"]}";
            Close.Absolute(At(columns + "_lo"), interval.Low, 1e-11, what);
            Close.Absolute(At(columns + "_hi"), interval.High, 1e-11, what);
        }
    }

    // Newcombe (1998, Statistics in Medicine 17:857-872), table I, 95 %; printed digits.
    [Theory]
    [InlineData(RateInterval.Wilson, 81, 263, .2553, .3662)]
    [InlineData(RateInterval.Wilson, 15, 148, .0624, .1605)]
    [InlineData(RateInterval.Wilson, 0, 20, 0, .1611)]
    [InlineData(RateInterval.Wilson, 1, 29, .0061, .1718)]
    [InlineData(RateInterval.WilsonCorrected, 81, 263, .2535, .3682)]
    [InlineData(RateInterval.WilsonCorrected, 15, 148, .0598, .1644)]
    [InlineData(RateInterval.WilsonCorrected, 0, 20, 0, .2005)]
    [InlineData(RateInterval.WilsonCorrected, 1, 29, .0018, .1963)]
    [InlineData(RateInterval.ClopperPearson, 81, 263, .2527, .3676)]
    [InlineData(RateInterval.ClopperPearson, 15, 148, .0578, .1617)]
    [InlineData(RateInterval.ClopperPearson, 0, 20, 0, .1684)]
    [InlineData(RateInterval.ClopperPearson, 1, 29, .0009, .1776)]
    [InlineData(RateInterval.MidP, 81, 263, .2544, .3658)]
    [InlineData(RateInterval.MidP, 15, 148, .0601, .1581)]
    [InlineData(RateInterval.MidP, 0, 20, 0, .1391)]
    [InlineData(RateInterval.MidP, 1, 29, .0017, .1585)]
    public void Intervals_agree_with_Newcombes_table(RateInterval method, int hits, int landings, double low, double high)
    {
        Close.Absolute(low, Of(method, hits, landings).Low, 5e-5, "low");
        Close.Absolute(high, Of(method, hits, landings).High, 5e-5, "high");
    }

    // Limits near 0 and of many landings: qbeta of base R 4.2.2 at (.025, 1, 1e6), (.975, 2, 999999) and, mirrored,
    // at (.025, 150000, 850001).
    [Fact]
    public void Exact_limits_keep_their_digits_for_a_million_landings()
    {
        Close.Relative(2.5317807663794191e-08, Of(RateInterval.ClopperPearson, 1, 1_000_000).Low, 1e-9);
        Close.Relative(5.5716306551722366e-06, Of(RateInterval.ClopperPearson, 1, 1_000_000).High, 1e-9);
        Close.Absolute(0.14930066725199845, Of(RateInterval.ClopperPearson, 150_000, 1_000_000).Low, 1e-11);
        Close.Absolute(1 - 0.14930066725199845, Of(RateInterval.ClopperPearson, 850_000, 1_000_000).High, 1e-11);
    }

    /// <summary>Probability that an interval holds the true rate: the sum over all counts whose interval does.</summary>
    private static double Coverage(RateInterval method, int n, double rate)
    {
        var (sum, probability) = (0.0, Math.Pow(1 - rate, n));
        for (var x = 0; x <= n; x++)
        {
            if (Of(method, x, n).Contains(rate)) sum += probability;
            probability *= (n - x) / (x + 1.0) * rate / (1 - rate);
        }
        return sum;
    }

    // Brown, Cai and DasGupta (2001, Statistical Science 16:101-133), their settings; sums recomputed with scipy 1.10.1.
    [Theory]
    [InlineData(100, .106, .950881)]
    [InlineData(100, .107, .949273)]
    [InlineData(30, .2, .963861)]
    [InlineData(98, .2, .957596)]
    [InlineData(17, .5, .950958)]
    [InlineData(40, .5, .961523)]
    public void Coverage_of_Wilsons_interval_agrees(int n, double rate, double coverage) =>
        Close.Absolute(coverage, Coverage(RateInterval.Wilson, n, rate), 1e-6);

    // Least and mean coverage over rates of .01, .02, ... .99 for 20 landings: intervals and sums with scipy 1.10.1.
    [Theory]
    [InlineData(RateInterval.Wilson, .9245163262115035, .9537566083609167)]
    [InlineData(RateInterval.ClopperPearson, .9586105346679689, .9759904483142469)]
    [InlineData(RateInterval.Jeffreys, .8964187457734729, .9492231436413501)]
    [InlineData(RateInterval.MidP, .9327180311412092, .962225038428555)]
    public void Least_and_mean_coverage_agree(RateInterval method, double least, double mean)
    {
        var coverage = Enumerable.Range(1, 99).Select(i => Coverage(method, 20, i / 100.0)).ToList();
        Close.Absolute(least, coverage.Min(), 1e-12);
        Close.Absolute(mean, coverage.Average(), 1e-12);
    }

    [Fact]
    public void Hits_and_misses_mirror_each_other()
    {
        foreach (var method in new[] { RateInterval.WilsonCorrected, RateInterval.ClopperPearson,
            RateInterval.Jeffreys, RateInterval.MidP })
        {
            for (var x = 0; x <= 9; x++)
            {
                var (one, other) = (Of(method, x, 9, 0.8), Of(method, 9 - x, 9, 0.8));
                Close.Absolute(1 - one.Low, other.High, 1e-15, $"{method} {x}");
                Assert.True(one.Low <= x / 9.0 && x / 9.0 <= one.High);
            }
        }
    }

    [Fact]
    public void What_can_not_be_is_refused_and_no_landing_is_a_reason()
    {
        foreach (var method in Enum.GetValues<RateInterval>())
        {
            Assert.Equal("no landing", RateIntervals.Of(method, [], []).Reason);
            Assert.Throws<ArgumentException>(() => RateIntervals.Of(method, [1], [2, 3]));
            Assert.Throws<ArgumentException>(() => RateIntervals.Of(method, [3, 1], [2, 3]));
            Assert.Throws<ArgumentOutOfRangeException>(() => RateIntervals.Of(method, [1, 1], [2, 3], 95));
        }
        Assert.Throws<ArgumentOutOfRangeException>(() => RateIntervals.Of((RateInterval)99, [1], [2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => RateIntervals.Of(RateInterval.MissionResampling, [1, 1], [2, 3], replicates: 199));
    }
}
