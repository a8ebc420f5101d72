using JumpAnalytics.Demo;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>What the differences between spotters are worth, on simulated bases whose spotters' skill is known.</summary>
public sealed class FairComparisonCoverageTests
{
    private sealed record Tally(double[] MeanDifference, double[] MeanRate, double Covered, double Inner, double Outer, double NoDifference,
        double Found, double FoundAfterHolm, double HalfWidth);

    private static Tally Count(MadeBase made, int bases, string name)
    {
        var (k, n) = (made.Spotters, bases);
        var (difference, rate) = (new double[k], new double[k]);
        int covered = 0, inner = 0, outer = 0, none = 0, found = 0, holm = 0;
        var half = 0.0;
        for (var i = 0; i < n; i++)
        {
            var made1 = FairComparison.Of(made.Fly(i), new AccuracyOptions());
            for (var s = 0; s < k; s++)
            {
                var row = made1.Spotters[s];
                var d = row.Difference.Value!;
                difference[s] += d.Value / n;
                rate[s] += row.Counted.Value!.Rate.Value / n;
                half += (d.Range!.Value.High - d.Range.Value.Low) / 2 / (n * k);
                if (d.Range!.Value.Contains(0)) covered++;
                if (!made1.FunnelLimits(row.EffectiveLandings!.Value, FairComparison.InnerFunnel).Contains(d.Value)) inner++;
                if (!made1.FunnelLimits(row.EffectiveLandings.Value, FairComparison.OuterFunnel).Contains(d.Value)) outer++;
            }
            if (made1.Spread.Value!.P < 0.05) none++;
            if (made1.Spotters[made.PlantedAt].Difference.Value!.Range!.Value.High < 0) found++;
            if (made1.Spotters[made.PlantedAt].PAdjusted < 0.05) holm++;
        }
        var all = (double)n * k;
        var tally = new Tally(difference, rate, covered / all, inner / all, outer / all, none / (double)n,
            found / (double)n, holm / (double)n, half);
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name}, {n} bases: 95 % intervals hold no difference "
                + $"{tally.Covered:0.000}; outside the funnel {tally.Inner:0.000} and {tally.Outer:0.0000}; p of no difference below 0.05 "
                + $"in {tally.NoDifference:0.000}; planted one below zero {tally.Found:0.000}, after Holm {tally.FoundAfterHolm:0.000}; "
                + $"half width {tally.HalfWidth:0.000}; mean differences {string.Join(' ', difference.Select(x => x.ToString("0.0000")))}; "
                + $"rates {string.Join(' ', rate.Select(x => x.ToString("0.000")))}"));
        return tally;
    }

    /// <summary>
    /// 60 bases of eight spotters of one skill, 480 intervals: counted rates differ by 18 points, differences by none. An interval
    /// holds zero in 95 %; the eight of a base are nearly independent, so that a standard deviation is 0.010 and a true coverage of
    /// 0.945 to 0.955 gives less than 0.91 or more than 0.985 with a chance below 1e-3. The mean difference of a spotter over 60 bases
    /// has a standard deviation of 0.035/√60 = 0.0045: off by 0.018, four of those and the bias of the pulls, with a chance below 1e-3
    /// over eight. Seeds are fixed.
    /// </summary>
    [Fact]
    public void Spotters_of_one_skill_do_not_differ_however_hard_their_ground()
    {
        var tally = Count(new MadeBase(), 60, "one skill");
        Assert.True(tally.MeanRate.Max() - tally.MeanRate.Min() > 0.15);
        Assert.All(tally.MeanDifference, d => Assert.InRange(d, -0.018, 0.018));
        Assert.InRange(tally.Covered, 0.91, 0.985);
        Assert.InRange(tally.Inner, 0.015, 0.09);
        Assert.InRange(tally.NoDifference, 0, 0.18);
    }

    /// <summary>
    /// One of eight spotters ten points short, 40 missions each, 60 bases: the interval lies below zero in 0.78 of them (measured over
    /// 1,000 bases) and after Holm's allowance in about one half. Fewer than 35 of 60 has a chance below 1e-3. The difference found is the
    /// one planted, within 0.018 as above.
    /// </summary>
    [Fact]
    public void A_spotter_ten_points_short_is_found_in_most_bases()
    {
        var tally = Count(new MadeBase { Planted = -0.1 }, 60, "one planted");
        Assert.InRange(tally.Found, 35 / 60.0, 1);
        Assert.InRange(tally.FoundAfterHolm, 0.25, 1);
        Assert.InRange(tally.MeanDifference[4], -0.118, -0.082);
        Assert.Equal(4, Array.IndexOf(tally.MeanDifference, tally.MeanDifference.Min()));
    }

    /// <summary>
    /// The same at 1,000 bases each: a standard deviation of the share that holds zero is 0.0025, of a mean difference 0.0011 (0.002 with
    /// 12 missions), of the planted one's share 0.013. Measured: 95.4 to 96.4 % hold zero, 4.2 to 5.0 % lie outside the inner and 0.1 to
    /// 0.3 % outside the outer curves, p of no difference is below 0.05 in 2.0 to 5.1 %; one planted at −10 points is found at −10.0, off
    /// in 77 % of bases and after Holm's allowance in 52 %.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Differences_are_centred_and_cover_over_several_kinds_of_base()
    {
        var one = Count(new MadeBase(), 1000, "40 missions");
        Hold(one, 0.005);
        Hold(Count(new MadeBase { Missions = 12 }, 1000, "12 missions"), 0.009);
        Hold(Count(new MadeBase { MissionSd = 1.2 }, 1000, "missions differ much"), 0.008);
        Hold(Count(new MadeBase { MissionSd = 0.01 }, 1000, "missions differ by their conditions alone"), 0.005);
        Hold(Count(new MadeBase { Spotters = 3, PlantedAt = 1 }, 1000, "3 spotters"), 0.009);
        var planted = Count(new MadeBase { Planted = -0.1 }, 1000, "one planted");
        Assert.InRange(planted.Found, 0.70, 0.86);

        static void Hold(Tally tally, double bias)
        {
            Assert.All(tally.MeanDifference, d => Assert.InRange(d, -bias, bias));
            Assert.InRange(tally.Covered, 0.93, 0.97);
            Assert.InRange(tally.Inner, 0.03, 0.075);
            Assert.InRange(tally.Outer, 0, 0.008);
            Assert.InRange(tally.NoDifference, 0.01, 0.08);
        }
    }

    /// <summary>
    /// The demo season flown again 200 times, flaws and all. Measured: the interval of the spotter who reads the wind low lies below zero
    /// in 155 and is off after Holm's allowance in 105; of the seven others' 1,400 intervals 74 miss zero (5.3 %); the mean difference is
    /// −9.7 points. For a true chance of 0.775 fewer than 120 of 200 has a chance below 1e-7.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void The_planted_spotter_of_the_demo_is_found_in_further_seasons()
    {
        const int seasons = 200;
        var (found, holm, others, least, sum) = (0, 0, 0, 0, 0.0);
        for (var i = 0; i < seasons; i++)
        {
            DemoLog.InTemporaryFolder(folder =>
            {
                new DemoSeason(2_000_000 + (ulong)i).WriteLog(folder);
                var made = FairComparison.Of(JumpLog.Read(folder).Landings, new AccuracyOptions());
                var planted = made.Spotters.Single(s => s.Spotter == Planted.BiasedSpotter);
                sum += planted.Difference.Value!.Value / seasons;
                if (planted.Difference.Value.Range!.Value.High < 0) found++;
                if (planted.PAdjusted < 0.05) holm++;
                if (made.Told.MinBy(s => s.Difference.Value!.Value) == planted) least++;
                others += made.Told.Count(s => s != planted && !s.Difference.Value!.Range!.Value.Contains(0));
            });
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"of {seasons} seasons the planted spotter's interval lies below zero in {found}, after Holm {holm}; "
                + $"others off: {others} of {7 * seasons}; mean difference {sum:0.0000}; least in {least}"));
        Assert.InRange(found, (int)(0.6 * seasons), seasons);
        Assert.InRange(others, 0, (int)(0.1 * 7 * seasons));
        Assert.InRange(sum, -0.12, -0.07);
    }
}
