using CsCheck;

namespace JumpAnalytics.Tests.Monitoring;

public sealed class HitReferenceTests
{
    private static HitReference Reference(double tail = 0.08) =>
        HitReference.Of(new MadeMissions(SeedStream.For(3, "hits")) { Tail = tail }.Missions(300), new AccuracyOptions(), 20).Value!;

    /// <summary>
    /// Probabilities add up to 1; the mean of the hits is the sum of the landings' chances; a single landing has the pooled rate of its
    /// cell; alike landings are more spread than a binomial.
    /// </summary>
    [Fact]
    public void Hits_of_a_mission_have_the_chances_of_its_landings()
    {
        var reference = Reference();
        var made = new MadeMissions(SeedStream.For(4, "missions"));
        var pooled = PooledRates.Of(PooledCount.Of(new MadeMissions(SeedStream.For(3, "hits")).Missions(300), new AccuracyOptions().Bands),
            new PoolingOptions()).Value!;
        for (var i = 0; i < 30; i++)
        {
            var mission = made.Mission();
            var levels = reference.Levels(mission);
            var hits = reference.Hits(levels, 0);
            Close.Absolute(1, hits.Sum(), 1e-12);
            var mean = hits.Select((p, k) => p * k).Sum();
            Close.Absolute(reference.Expected(levels), mean, 1e-6);
            var rate = pooled.Cell(new AccuracyOptions().Bands.LabelOf(mission[0].Drop.WindSpeed), "timber").Rate.Value!.Value;
            Close.Absolute(rate * levels.Length, mean, 1e-6);
            Assert.True(hits.Select((p, k) => p * (k - mean) * (k - mean)).Sum() >= levels.Length * rate * (1 - rate) - 1e-9);
            Assert.True(reference.Hits(levels, -0.7).Select((p, k) => p * k).Sum() < mean);
        }
    }

    /// <summary>
    /// The two sums can't rise together: ln P(x; −d) + ln P(x; +d) ≤ 2 ln P(x; 0) for any levels and hits. On this
    /// rests the run length of both.
    /// </summary>
    [Fact]
    public void No_mission_raises_both_sums()
    {
        var reference = Reference();
        Cases.Each(Gen.Select(Gen.Double[-3, 4].Array[1, 10], Gen.Double[0.1, 3]), 200, 8, c =>
        {
            var (levels, d) = c;
            var (same, less, more) = (reference.Hits(levels, 0), reference.Hits(levels, -d), reference.Hits(levels, d));
            for (var x = 0; x <= levels.Length; x++) Assert.True(Math.Log(less[x]) + Math.Log(more[x]) <= 2 * Math.Log(same[x]) + 1e-9);
        });
    }

    /// <summary>
    /// A chart of hits drawn from the very chances it supposes: its run length is exact, so that 15,000 missions at 30 give 500 signals
    /// with a standard deviation of 4.5 %; four of these are allowed.
    /// </summary>
    [Fact]
    public void Run_length_of_hits_is_exact_under_its_own_chances()
    {
        var reference = Reference();
        var random = SeedStream.For(6, "run length of hits");
        var made = new MadeMissions(random);
        var drawn = Enumerable.Range(0, 15_000).SelectMany(_ =>
        {
            var mission = made.Mission();
            var (u, hits) = (random.NextDouble(), 0);
            foreach (var p in reference.Hits(reference.Levels(mission), 0))
            {
                if ((u -= p) < 0) break;
                hits++;
            }
            return mission.Select((l, i) => Tests.Made.Landing(l.Drop, i < hits ? 1 : 100, 0));
        }).ToList();
        var charts = new ChartOptions { InControlRunLength = 30 };
        var charted = new Charted(MissionInTime.Of(drawn), new AccuracyOptions(), charts, new ChartLimits(charts));
        var chart = HitCharts.Of(charted, reference).Value!;
        Assert.InRange(chart.InControlRunLength, 30, 32);
        Close.Relative(chart.InControlRunLength, (double)chart.Missions / chart.Signals.Count, 0.18);
    }
}
