using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics.Tests;

/// <summary>
/// How often an upper limit at 90 % holds the true radius, when misses are a mission's part and a jumper's own, both normal, without bias.
/// Lengths are in units of the spread along each axis; the radius that holds a share p of landings is then √(−2 ln(1 − p)).
/// </summary>
public sealed class RadiusLimitCoverageTests(ITestOutputHelper output)
{
    private const double Confidence = 0.9;

    /// <summary>
    /// Missions whose jumpers' misses are alike by a correlation; with far missions the shared part is a t with four degrees of freedom.
    /// </summary>
    private sealed record Season(int Missions, double Likeness, int Fewest = 4, int Most = 5, bool FarMissions = false)
    {
        public PlaneSample Draw(Random random)
        {
            var readings = new List<PlaneReading>();
            for (var m = 0; m < Missions; m++) readings.AddRange(Stick(random).Select(miss => new PlaneReading($"m{m}", miss)));
            return PlaneSample.Of(readings);
        }

        private IEnumerable<PlaneVector> Stick(Random random)
        {
            var (shared, own) = (Math.Sqrt(Likeness), Math.Sqrt(1 - Likeness));
            if (FarMissions) shared *= Math.Sqrt(2 / ChiSquared.Sample(random, 4));
            var (downwind, right) = (Normal.Sample(random, 0, 1) * shared, Normal.Sample(random, 0, 1) * shared);
            var jumpers = random.Next(Fewest, Most + 1);
            for (var j = 0; j < jumpers; j++)
                yield return new(downwind + Normal.Sample(random, 0, 1) * own, right + Normal.Sample(random, 0, 1) * own);
        }

        public double Truth(double share)
        {
            if (!FarMissions) return Math.Sqrt(-2 * Math.Log(1 - share));
            var random = SeedStream.For(1, $"far missions {Likeness}");
            return Enumerable.Range(0, 1_000_000).Select(_ => Stick(random).First()).Select(m => double.Hypot(m.Along, m.Across))
                .QuantileCustom(share, QuantileDefinition.R8);
        }
    }

    /// <summary>Seasons, those with a limit, those whose limit holds the truth, and the mean of limit over truth.</summary>
    private sealed record Tally(int Seasons, int Given, int Held, double MeanRatio)
    {
        public double Coverage => (double)Held / Given;

        public override string ToString() => Given == 0 ? "none" : $"{(double)Given / Seasons:0.000} {Coverage:0.000} {MeanRatio:0.00}";
    }

    private static Tally Count(int seasons, Season season, double share, Func<PlaneSample, int, Fit<RadiusLimit>> limit,
        Func<RadiusLimit, bool>? counts = null)
    {
        var truth = season.Truth(share);
        var random = SeedStream.For(2031, $"{season} {share}");
        var (given, held, ratio) = (0, 0, 0.0);
        for (var s = 0; s < seasons; s++)
        {
            if (limit(season.Draw(random), s).Value is not { } found || counts?.Invoke(found) == false) continue;
            given++;
            ratio += found.UpperLimit / truth;
            if (found.UpperLimit >= truth) held++;
        }
        return new(seasons, given, held, ratio / given);
    }

    private static Func<int[], double?> Normals(PlaneSample sample, double share) => draws =>
    {
        var sums = new MomentSums();
        for (var i = 0; i < sample.Placed.Count; i++)
        {
            for (var k = 0; k < draws[sample.ClusterOfPlaced[i]]; k++) sums.Add(sample.Placed[i]);
        }
        return sums.Fit(SampleNouns.Default) is { Success: true } fit ? fit.Value.RadiusHolding(share) : null;
    };

    private static Fit<RadiusLimit> Resampled(PlaneSample sample, double share, BootstrapMethod method, int seed,
        int replicates, bool normal = false) =>
        RadiusLimit.OfBootstrap(sample, share, Confidence, method, new ResampleOptions { Seed = seed, Replicates = replicates },
            normal ? Normals(sample, share) : null);

    /// <summary>
    /// 2,000 seasons: a true coverage of 0.90 is counted below 0.877 with a chance of 5e-4 at a setting (a standard deviation is 0.0067).
    /// The limits hold more than that, because a distance must be one of those there are. The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(15, 0.0, 0.5)]
    [InlineData(15, 0.3, 0.5)]
    [InlineData(40, 0.3, 0.9)]
    [InlineData(40, 0.6, 0.9)]
    public void The_limit_by_effective_landings_holds_its_confidence(int missions, double likeness, double share)
    {
        var tally = Count(2000, new Season(missions, likeness), share, (s, _) => RadiusLimit.Of(s, share, Confidence));
        Assert.Equal(2000, tally.Given);
        Assert.InRange(tally.Coverage, 0.877, 0.975);
    }

    /// <summary>
    /// Why missions must count: the exact limit for independent values covers about 0.85 here (1,500 seasons of another simulation in
    /// numpy: 0.847). Of 1,000 seasons 0.81 to 0.89 is 3.5 standard deviations (0.0114) about it; a limit that kept its 0.90 would be below
    /// 0.89 with a chance of 0.15. The seed is fixed.
    /// </summary>
    [Fact]
    public void A_limit_that_takes_landings_as_independent_falls_short() =>
        Assert.InRange(Count(1000, new Season(40, 0.6), 0.9, (s, _) => RadiusLimit.Of(PlaneSample.Of(s.Placed), 0.9, Confidence)).Coverage,
            0.81, 0.89);

    /// <summary>
    /// 500 seasons, 300 resamples: of a true coverage of 0.89 less than 0.845 is counted with a chance of 1e-3 (a standard deviation is
    /// 0.014), of one of 0.86, as of the percentiles, more than 0.905 with 2e-3. The seed is fixed.
    /// </summary>
    [Fact]
    public void Widened_bias_corrected_resamples_come_near_their_confidence_and_percentiles_fall_short()
    {
        var season = new Season(15, 0.3);
        Assert.InRange(Count(500, season, 0.9, (s, i) => Resampled(s, 0.9, BootstrapMethod.WidenedBiasCorrected, i, 300)).Coverage,
            0.845, 0.935);
        Assert.InRange(Count(500, season, 0.95, (s, i) => Resampled(s, 0.95, BootstrapMethod.WidenedPercentile, i, 300)).Coverage,
            0.79, 0.895);
    }

    /// <summary>
    /// The table of the documentation. The limit by effective landings: 10,000 seasons, a true coverage of 0.90 is counted below 0.885
    /// with a chance below 1e-3 where a limit is given in 4,000 of them, else below 1e-6. The others: 2,000 (1,000 with 150 missions),
    /// standard deviation 0.007 (0.01); of the normal 400 (200), 0.015 (0.022); bounds are three and more of these about the
    /// documented ranges. The seed is fixed.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void The_coverage_over_a_grid_is_as_documented()
    {
        output.WriteLine("each: share of seasons with a limit, coverage, mean of limit over truth");
        output.WriteLine("missions likeness share | effective landings | widened BCa | BCa | widened percentile | normal, "
            + "widened percentile | normal, widened BCa");
        foreach (var missions in new[] { 15, 40, 150 })
        {
            foreach (var likeness in new[] { 0, 0.3 })
            {
                foreach (var share in new[] { 0.5, 0.9, 0.95 })
                {
                    var season = new Season(missions, likeness);
                    Tally Boot(BootstrapMethod method) =>
                        Count(missions < 100 ? 2000 : 1000, season, share, (s, i) => Resampled(s, share, method, i, 400));
                    Tally Model(BootstrapMethod method) =>
                        Count(missions < 100 ? 400 : 200, season, share, (s, i) => Resampled(s, share, method, i, 300, normal: true));
                    var order = Count(10_000, season, share, (s, _) => RadiusLimit.Of(s, share, Confidence));
                    var (wide, plain, percentile) = (Boot(BootstrapMethod.WidenedBiasCorrected), Boot(BootstrapMethod.BiasCorrected),
                        Boot(BootstrapMethod.WidenedPercentile));
                    var (normal, normalWide) = (Model(BootstrapMethod.WidenedPercentile), Model(BootstrapMethod.WidenedBiasCorrected));
                    output.WriteLine($"{missions} {likeness} {share} | {order} | {wide} | {plain} | "
                        + $"{percentile} | {normal} | {normalWide}");
                    Assert.InRange(order.Coverage, 0.885, 0.985);
                    Assert.InRange(wide.Coverage, 0.86, 0.94);
                    Assert.InRange(plain.Coverage, 0.84, 0.935);
                    Assert.InRange(percentile.Coverage, 0.81, 0.94);
                    Assert.InRange(normal.Coverage, 0.77, 0.98);
                    Assert.InRange(normalWide.Coverage, 0.81, 0.99);
                }
            }
        }
    }

    /// <summary>
    /// Few missions, unequal sticks, strong likeness, far missions; 2,000 seasons of each. Where there is no warning, a true coverage of
    /// 0.90 is counted below 0.875 with a chance of 1e-4 at a setting. A limit that is too low, of all seasons: a true 0.10 is counted
    /// above 0.125 with a chance of 1e-4. The seed is fixed.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void The_limit_by_effective_landings_holds_under_hard_conditions_where_it_does_not_warn()
    {
        output.WriteLine("missions likeness far-missions share | without a warning: share of seasons given, coverage, "
            + "mean of limit over truth | with one");
        foreach (var far in new[] { false, true })
        {
            foreach (var missions in new[] { 3, 5, 8, 15, 40 })
            {
                foreach (var likeness in new[] { 0, 0.3, 0.6, 0.9 })
                {
                    foreach (var share in new[] { 0.5, 0.9 })
                    {
                        var season = new Season(missions, likeness, 1, 8, far);
                        Tally Of(bool warned) => Count(2000, season, share, (s, _) => RadiusLimit.Of(s, share, Confidence),
                            r => r.Warning is not null == warned);
                        var (sure, warned) = (Of(false), Of(true));
                        output.WriteLine($"{missions} {likeness} {far} {share} | {sure} | {warned}");
                        if (sure.Given > 0) Assert.InRange(sure.Coverage, 0.875, 1);
                        Assert.InRange(sure.Given - sure.Held + warned.Given - warned.Held, 0, 250);
                    }
                }
            }
        }
    }
}
