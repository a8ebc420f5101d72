namespace JumpAnalytics.Tests;

public sealed class FitCheckTests
{
    private static IPlaneModel? Refit(PlaneSample sample) => BivariateNormal.FitTo(sample).Value?.Model;

    private static FitCheck Check(PlaneSample sample, int replicates = 99, int seed = 1) =>
        FitCheck.Of(sample, BivariateNormal.FitTo(sample).Value!.Model, Refit, replicates: replicates, seed: seed);

    private static double Rejected(MadeSeason season, int seasons) =>
        Enumerable.Range(0, seasons).Count(s => Check(season.Draw(s), 99, s).FitsBadly == true) / (double)seasons;

    /// <summary>
    /// 100 seasons of 40 missions of one landing, and of up to eight: of a test of level 0.05 exactly more than 0.13 are rejected with a
    /// probability of 5e-4. Seeds are fixed.
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    public void A_normal_that_fits_is_seldom_rejected(int stick) =>
        Assert.InRange(Rejected(new MadeSeason(40) { Stick = stick }, 100), 0, 0.13);

    /// <summary>
    /// A far tail at 150 missions is found in 0.99 of 300 seasons; for a true share of 0.95 fewer than 15 of 20 are counted with a
    /// probability below 4e-4. Seeds are fixed.
    /// </summary>
    [Fact]
    public void A_far_tail_is_found_in_150_missions() => Assert.InRange(Rejected(new MadeSeason(150) { Freedom = 4 }, 20), 0.75, 1);

    /// <summary>
    /// 1,000 seasons at each setting, with landings of one mission alike and with landings known only as beyond 70 m (about one in eight):
    /// of a test of level 0.05 exactly more than 0.0725 are rejected with a probability of 1e-3. Seeds are fixed.
    /// </summary>
    [Theory, Trait("Category", "Long")]
    [InlineData(60, 0, 1, double.PositiveInfinity)]
    [InlineData(60, 0, 1, 70)]
    [InlineData(60, 0.7, 8, double.PositiveInfinity)]
    [InlineData(60, 0.7, 8, 70)]
    public void The_level_is_held(int missions, double likeness, int stick, double beyond) =>
        Assert.InRange(Rejected(new MadeSeason(missions, likeness) { Stick = stick, Beyond = beyond }, 1000), 0, 0.0725);

    [Fact]
    public void The_seed_fixes_every_number()
    {
        var sample = new MadeSeason(40) { Beyond = 90 }.Draw(1);
        Assert.NotEmpty(sample.Beyond);
        Assert.Equal(Check(sample), Check(sample));
        Assert.NotEqual(Check(sample).Distances.Value!.Statistic, Check(sample, seed: 2).Distances.Value!.Statistic);
    }

    [Fact]
    public void The_reading_of_a_fit_that_holds()
    {
        var check = Check(new MadeSeason(60).Draw(3));
        Assert.False(check.FitsBadly);
        Assert.Matches(@"^The test of distances in these 60 clusters with \d+ points does not reject the fitted bivariate normal "
            + @"\(p = [01]\.\d\d\), which is no proof that it fits\. \d+ % of the points lie within the radius that it gives to 50 %, "
            + @"and \d+ % beyond the one that it gives to 95 %\. "
            + @"In fewer than 100 clusters a far tail is often missed\.$", check.Reading);
    }

    /// <summary>
    /// A quarter of the missions spread five times as far as the others, so that a normal holds about 79 % within its R50: more landings
    /// near the spot, and more far off, than a normal has.
    /// </summary>
    [Fact]
    public void The_reading_of_a_far_tail_tells_its_direction()
    {
        var (near, far) = (new BivariateNormal(0, 0, 100, 100, 0), new BivariateNormal(0, 0, 2500, 2500, 0));
        var random = SeedStream.For(1, "two spreads");
        var sample =
            PlaneSample.Of(Enumerable.Range(0, 1200).Select(i => new PlaneReading($"{i / 4}", (i / 4 % 4 == 0 ? far : near).Draw(random))));
        var check = Check(sample);
        Assert.Equal((1, 1), (check.Near!.Direction, check.Far!.Direction));
        Assert.Matches(@"^The fitted bivariate normal has too few points near the origin and too few far off in 300 clusters with "
            + @"1,200 points \(p = 0\.020\)\. (7|8)\d % of the points lie within the radius that it gives to 50 %, and 1\d % beyond the "
            + @"one that it gives to 95 %\.$", check.Reading);
    }

    /// <summary>Landings on a ring have none near the spot and none far off.</summary>
    [Fact]
    public void The_reading_of_a_ring_tells_the_other_direction()
    {
        var random = SeedStream.For(1, "ring");
        var ring = PlaneSample.Of(Enumerable.Range(0, 200).Select(_ => 2 * Math.PI * random.NextDouble())
            .Select(a => new PlaneVector(50 * Math.Cos(a), 50 * Math.Sin(a))));
        var check = Check(ring);
        Assert.StartsWith("The fitted bivariate normal has too many points near the origin and too many far off in 200 clusters with 200 "
            + "points (p = 0.010). 0 % of the points", check.Reading);
    }

    [Theory]
    [InlineData(1, 1, "has too few points near the origin and too few far off")]
    [InlineData(1, -1, "has too few points near the origin and too many far off")]
    [InlineData(-1, 1, "has too many points near the origin and too few far off")]
    [InlineData(1, 0, "has too few points near the origin in")]
    [InlineData(-1, 0, "has too many points near the origin in")]
    [InlineData(0, 1, "has too few points far off")]
    [InlineData(0, -1, "has too many points far off")]
    [InlineData(0, 0, "does not have the spread of the distances, though its shares near the origin and far off can't be told from "
        + "those in")]
    public void Every_direction_has_its_words(int near, int far, string words)
    {
        var check = Check(new MadeSeason(30).Draw(1)) with
        {
            Distances = Fit<FitTest>.Made(new FitTest("t", 1, 0.0004, 30, "m")),
            Near = new ModelledShare(30, 0.5, 0.5 + 0.1 * near, 0.04, 100),
            Far = new ModelledShare(90, 0.05, 0.05 + 0.04 * far, 0.01, 100),
        };
        Assert.Contains(words, check.Reading);
        Assert.Contains("(p < 0.001)", check.Reading);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(19)]
    public void Too_few_missions_to_tell(int missions)
    {
        var check = FitCheck.Of(new MadeSeason(missions).Draw(1), MadeSeason.Truth, Refit);
        Assert.Null(check.FitsBadly);
        Assert.Equal($"too few clusters ({missions}); 20 are needed", check.Distances.Reason);
        Assert.Equal($"Too few clusters ({missions}; 20 are needed) to tell whether the fitted bivariate normal fits.", check.Reading);
        Assert.Equal(missions == 0, check.Near is null);
        if (missions == 1) Assert.Null(check.Near!.StandardError);
    }

    [Fact]
    public void Landings_all_at_one_place_or_all_beyond_have_no_test()
    {
        var same = FitCheck.Of(PlaneSample.Of(Enumerable.Repeat(new PlaneVector(3, 4), 30)), MadeSeason.Truth, Refit);
        Assert.Equal("Whether the fitted bivariate normal fits can't be tested on these 30 clusters with 30 points: the model can't be "
            + "fitted to one point of each cluster.", same.Reading);
        var beyond = FitCheck.Of(PlaneSample.Of(Enumerable.Range(0, 30).Select(i => new PlaneReading($"{i}", null, 10))),
            MadeSeason.Truth, Refit);
        Assert.False(beyond.Distances.Success);
        Assert.Null(beyond.Near);
        Assert.DoesNotContain("lie within", beyond.Reading);
        Assert.Equal("only 0 of 499 samples drawn from the model could be fitted",
            FitCheck.Of(new MadeSeason(30).Draw(1), MadeSeason.Truth, _ => null).Distances.Reason);
    }

    /// <summary>
    /// By hand: of five decided landings of three missions (2 of 2, 1 of 2, 0 of 1) three lie within; the one beyond 5 is undecided.
    /// </summary>
    [Fact]
    public void Shares_have_a_between_mission_standard_error()
    {
        var sample = PlaneSample.Of(new PlaneReading[] { new("a", new(1, 0)), new("a", new(10, 0)), new("b", new(2, 0)), new("b", null, 10),
            new("c", new(11, 0)), new("c", null, 5) });
        var share = ModelledShare.Within(sample, 10, 0.5)!;
        Assert.Equal((5, 0.6), (share.Points, share.Observed));
        // Residuals 2 − 1.2, 1 − 1.2, 0 − 0.6; squares 0.64 + 0.04 + 0.36 = 1.04; times 3/2; root over 5.
        Close.Relative(Math.Sqrt(1.04 * 1.5) / 5, share.StandardError!.Value, 1e-12);
        Close.Relative(0.4, share.Others().Observed, 1e-12);
        Assert.Equal(0, share.Direction);
    }

    [Fact, Trait("Category", "Long")]
    public void A_million_landings_are_checked_on_some_of_their_missions()
    {
        var sample = new MadeSeason(220_000).Draw(1);
        Assert.InRange(sample.Points, 900_000, 1_100_000);
        var check = Check(sample);
        Assert.Equal((5000, 220_000), (check.Distances.Value!.Points, check.Clusters));
        Assert.Equal("Anderson-Darling, distances, 5,000 of 220,000 clusters, one point of each cluster", check.Distances.Value.Name);
        Assert.False(check.FitsBadly);
    }
}
