using JumpAnalytics.Demo;
using JumpAnalytics.Tests.Demo;
using JumpAnalytics.Tests.Monitoring;

namespace JumpAnalytics.Tests;

/// <summary>How often a review names a spotter in seasons in which nobody differs and nothing changes.</summary>
public sealed class QuietReviewTests(ITestOutputHelper output)
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    private sealed class Tally
    {
        public int Seasons, Named, Patterns, Hits, Charts, Learning, Signals, Made;
        public double Stated;
        public readonly List<double> ChartP = [];

        public void Add(SpotterReview review, string? but = null)
        {
            Seasons++;
            string[] findings = ["Look next", "with the forecast drift by", "keep to the compass", "along the run ("];
            var patterns = review.Patterns.Points.Count(p => findings.Any(f => p.Contains(f, StringComparison.Ordinal))
                && (but is null || !p.StartsWith(but, StringComparison.Ordinal) && !p.StartsWith("Whole base", StringComparison.Ordinal)));
            var hits = review.Comparison.Off.Count(s => s.Spotter != but);
            var charts = review.Charts.Spotters.Where(s => s.Name != "spotter " + but).ToList();
            var found = charts.Sum(s => s.Found.Count);
            var learning = review.Learning.Spotters.Count(s => s.Name != but && review.Learning.Looks.Found(s.Name, "learning", 0.95));
            if (patterns + hits + found + learning > 0) Named++;
            (Patterns, Hits, Charts, Learning) = (Patterns + (patterns > 0 ? 1 : 0), Hits + hits, Charts + found, Learning + learning);
            foreach (var chart in charts.SelectMany(s => s.Made))
            {
                Made++;
                Stated += chart.ChanceOfFalseSignal;
                if (chart.Signals.Count > 0) Signals++;
                ChartP.Add(chart.PValue);
            }
        }

        public override string ToString() => $"{Seasons} seasons, {Named} with a name (patterns {Patterns}, hits {Hits}, charts {Charts}, "
            + $"learning {Learning}); signals {Signals / (double)Seasons:0.00} a season of {Made / Seasons}, "
            + $"{Stated / Seasons:0.00} stated; "
            + $"chart p below 0.1: {Share(0.1):0.000}, 0.01: {Share(0.01):0.0000}, 0.001: {Share(0.001):0.00000}";

        public double Share(double p) => ChartP.Count(x => x < p) / (double)ChartP.Count;
    }

    /// <summary>Made missions dealt to eight spotters in turn.</summary>
    private static SpotterReview Made(int season, int missions)
    {
        var made = new MadeMissions(SeedStream.For(season, "quiet " + missions));
        var landings = Enumerable.Range(0, missions).SelectMany(i => made.Mission($"S{i % 8}")).ToList();
        var drops = landings.Select(l => l.Drop).Distinct().ToList();
        return SpotterReview.Of(new JumpLog("made", null, drops, landings, Tests.Made.NoIntake), _options);
    }

    /// <summary>
    /// Quiet seasons: a name in at most 5 % of them by Holm's rule, more than 10 % with a chance below 0.05 (40 seasons) and 0.08
    /// (20), and far below as the rule errs to the safe side; the chance of a signal that each chart
    /// states against how many came, standard deviation of the mean over seasons about 0.2.
    /// </summary>
    [Theory]
    [InlineData(110, 40)]
    [InlineData(330, 20)]
    [Trait("Category", "Long")]
    public void Quiet_seasons_seldom_have_a_name(int missions, int seasons)
    {
        var tally = new Tally();
        for (var s = 0; s < seasons; s++) tally.Add(Made(s, missions));
        output.WriteLine($"{missions} missions: {tally}");
        Assert.InRange(tally.Named, 0, seasons / 10);
        Assert.InRange(tally.Signals / tally.Stated, 0.6, 1.4);
    }

    /// <summary>Demo seasons: the planted spotter, whose fault is one of the review's findings, and the seven others.</summary>
    [Theory]
    [InlineData(12)]
    [Trait("Category", "Long")]
    public void The_planted_spotter_of_demo_seasons_is_named_and_others_are_not(int seasons)
    {
        var (others, found) = (new Tally(), 0);
        for (ulong seed = 101; seed < 101 + (ulong)seasons; seed++)
        {
            DemoLog.InTemporaryFolder(folder =>
            {
                new DemoSeason(seed).WriteLog(folder);
                var review = SpotterReview.Of(JumpLog.Read(folder), _options);
                if (review.Patterns.Points.Any(p => p.StartsWith(Planted.BiasedSpotter, StringComparison.Ordinal)
                    && p.Contains("along the drift, long", StringComparison.Ordinal))) found++;
                others.Add(review, Planted.BiasedSpotter);
            });
        }
        output.WriteLine($"planted spotter long in {found}; others: {others}");
        Assert.InRange(found, (int)(0.9 * seasons), seasons);
        Assert.InRange(others.Named, 0, seasons / 5);
    }

    /// <summary>The demo itself: one spotter is named, by patterns, hits and charts, and nobody else.</summary>
    [Fact]
    public void The_demo_names_its_planted_spotter_alone()
    {
        var review = SpotterReview.Of(DemoLog.Log, _options);
        var tally = new Tally();
        tally.Add(review, Planted.BiasedSpotter);
        output.WriteLine($"{tally}; {review.Patterns.Looks.Count} looks; {review.Brief.Reading} {string.Join(" ", review.Brief.Points)}");
        Assert.Equal(0, tally.Named);
        Assert.Contains(review.Patterns.Points, p => p.StartsWith(Planted.BiasedSpotter, StringComparison.Ordinal)
            && p.Contains("along the drift, long", StringComparison.Ordinal));
        Assert.NotEmpty(review.Charts.Spotters.Single(s => s.Name == "spotter " + Planted.BiasedSpotter).Found);
        Assert.All(review.Charts.Spotters.Where(s => s.Name != "spotter " + Planted.BiasedSpotter), s => Assert.Empty(s.Found));

        // One rule: the parts share their looks, each look once, and the p of one is that among all of them.
        Assert.Same(review.Patterns.Looks, review.Charts.Looks);
        Assert.Same(review.Patterns.Looks, review.Comparison.Looks);
        Assert.Same(review.Patterns.Looks, review.Learning.Looks);
        Assert.Equal(review.Patterns.Looks.Count, review.Patterns.LooksTaken.Count() + review.Charts.LooksTaken.Count()
            + review.Comparison.LooksTaken.Count() + review.Learning.LooksTaken.Count());
        Assert.True(review.Comparison.Spotters[3].PAdjusted >= 8 * review.Comparison.Spotters[3].P);
        Assert.Single(review.ChartsToDraw());
    }
}
