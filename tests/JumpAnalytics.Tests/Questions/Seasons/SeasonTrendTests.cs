using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class SeasonTrendTests(ITestOutputHelper output)
{
    private static readonly AccuracyOptions _options = new();

    /// <summary>Missions of a season on one terrain, each with landings of which some are hits.</summary>
    private static IEnumerable<Landing> Missions(string season, string terrain, int missions, int landings, Func<int, int> hits) =>
        Enumerable.Range(0, missions).SelectMany(m => Enumerable.Range(0, landings).Select(j =>
            Made.Landing(Made.Drop($"{season}{terrain}{m}", $"{season}{terrain}{m}", season, terrain), j < hits(m) ? 10 : 50, 0)));

    /// <summary>
    /// Timber stays at 1 in 4 and meadow rises from 3/4 to 7/8, but three times as much timber is flown: the plain rate
    /// falls, the rate at one mix rises.
    /// </summary>
    [Fact]
    public void A_change_of_mix_is_taken_out()
    {
        List<Landing> landings =
        [
            .. Missions("2030", "meadow", 30, 4, m => 2 + m % 3), .. Missions("2030", "timber", 10, 4, m => m % 2 * 2),
            .. Missions("2031", "meadow", 10, 4, m => 3 - m % 2 + m % 2 * 2), .. Missions("2031", "timber", 30, 4, m => m % 2 * 2),
        ];
        var step = Assert.Single(SeasonTrend.Of(landings, _options).Steps);
        Assert.True(step.AsFlown!.Range!.Value.High < 0, "the plain rate falls beyond chance");
        Close.Absolute((0.875 - 0.75) / 2, step.SameMix.Value!.Value, 1e-12, "meadow is half of the mix");
        Assert.Equal(1, step.Covered, 12);
    }

    /// <summary>
    /// By hand: one terrain, 4 missions of 4; hits 4 4 3 3 and then 2 2 3 1. Each variance is 4/3 Σ(hits − 4
    /// rate)²/16²; Satterthwaite's freedom.
    /// </summary>
    [Fact]
    public void One_cell_gives_the_plain_difference_with_its_between_mission_error()
    {
        int[] first = [4, 4, 3, 3], second = [2, 2, 3, 1];
        var step = SeasonTrend.Of([.. Missions("2030", "meadow", 4, 4, m => first[m]), .. Missions("2031", "meadow", 4, 4, m => second[m])],
            _options).Steps[0];
        var (v1, v2) = (4.0 / 3 * (4 * 0.25) / 256, 4.0 / 3 * 2 / 256);
        var freedom = (v1 + v2) * (v1 + v2) / (v1 * v1 / 3 + v2 * v2 / 3);
        var half = StudentT.InvCDF(0, 1, freedom, 0.975) * Math.Sqrt(v1 + v2);
        Close.Absolute(-6 / 16.0, step.SameMix.Value!.Value, 1e-12, "change");
        Close.Absolute(-6 / 16.0 - half, step.SameMix.Value.Range!.Value.Low, 1e-12, "low");
        Close.Absolute(-6 / 16.0 + half, step.SameMix.Value.Range.Value.High, 1e-12, "high");
    }

    [Fact]
    public void A_cell_with_a_single_mission_in_one_season_is_left_out_and_told()
    {
        var trend = SeasonTrend.Of(
            [.. Missions("2030", "meadow", 5, 4, _ => 3), .. Missions("2030", "ridge", 1, 4, _ => 0),
                .. Missions("2031", "meadow", 5, 4, m => 2 + m % 2), .. Missions("2031", "ridge", 5, 4, _ => 4)], _options);
        Assert.Equal(40 / 64.0, trend.Steps[0].Covered, 12);
        Assert.Equal((5, 20), (trend.Steps[0].MissionsTo, trend.Steps[0].LandingsTo));
    }

    [Fact]
    public void Seasons_without_a_common_cell_can_not_be_compared()
    {
        var trend = SeasonTrend.Of([.. Missions("2030", "meadow", 5, 4, _ => 3), .. Missions("2031", "ridge", 5, 4, _ => 4)], _options);
        Assert.Equal("no cell has 2 missions in both seasons", trend.Steps[0].SameMix.Reason);
        Assert.Contains("can't be held fixed", trend.Reading);
        Assert.Empty(SeasonTrend.Of([], _options).Steps);
        Assert.Equal("There is no pair of seasons to compare.",
            SeasonTrend.Of([.. Missions("2030", "meadow", 5, 4, _ => 3)], _options).Reading);
    }

    /// <summary>
    /// 400 pairs of seasons without any true change, missions alike within (beta-binomial, 0.15), mix shifting: the 95 % interval holds
    /// zero in 92.5 to 97.5 % of them. If it covers 95 %, fewer than 370 or more than 390 of 400 come up with probability 0.02 (binomial),
    /// seed fixed; if it covers 90 %, they come up within with 0.05.
    /// </summary>
    [Fact]
    public void The_interval_covers_no_change()
    {
        var random = new Random(5);
        var (meadow, timber) = (new SeasonSimulation([3, 4, 5, 6], 0.9, 0.15), new SeasonSimulation([3, 4, 5, 6], 0.7, 0.15));
        var covered = 0;
        for (var s = 0; s < 400; s++)
        {
            var landings = new List<Landing>();
            foreach (var (season, easy, hard) in new[] { ("2030", 40, 20), ("2031", 20, 40) })
            {
                Add(landings, season, "meadow", meadow.Draw(easy, random));
                Add(landings, season, "timber", timber.Draw(hard, random));
            }
            if (SeasonTrend.Of(landings, _options).Steps[0].SameMix.Value!.Range!.Value.Contains(0)) covered++;
        }
        Assert.InRange(covered, 370, 390);
    }

    private static void Add(List<Landing> landings, string season, string terrain, (int[] Hits, int[] Landings) drawn)
    {
        for (var m = 0; m < drawn.Hits.Length; m++)
        {
            var drop = Made.Drop($"{season}{terrain}{m}", $"{season}{terrain}{m}", season, terrain);
            for (var j = 0; j < drawn.Landings[m]; j++) landings.Add(Made.Landing(drop, j < drawn.Hits[m] ? 10 : 50, 0));
        }
    }

    /// <summary>
    /// By hand: meadow with hits 4 2 and 3 3 of 4, timber with hits 4 1 2 and 2 2 1 of 4, two and three missions a season. Cells weigh 2/5
    /// and 3/5. Each cell of a season has m/(m−1) Σ(hits − 4 rate)²/(4m)², and m − 1 degrees.
    /// </summary>
    [Fact]
    public void Each_cell_is_widened_by_its_own_missions_and_has_their_degrees()
    {
        int[][] meadow = [[4, 2], [3, 3]], timber = [[4, 1, 2], [2, 2, 1]];
        List<Landing> landings = [];
        for (var s = 0; s < 2; s++)
        {
            Add(landings, $"203{s}", "meadow", (meadow[s], [4, 4]));
            Add(landings, $"203{s}", "timber", (timber[s], [4, 4, 4]));
        }
        var change = SeasonTrend.Of(landings, _options).Steps[0].SameMix.Value!;
        double[] variances = [0.16 * 2 * 2 / 64, 0, 0.36 * 1.5 * 42 / 9 / 144, 0.36 * 1.5 * 6 / 9 / 144];
        var freedom = Math.Pow(variances.Sum(), 2) / (variances[0] * variances[0] + (variances[2] * variances[2]
            + variances[3] * variances[3]) / 2);
        var half = StudentT.InvCDF(0, 1, freedom, 0.975) * Math.Sqrt(variances.Sum());
        Close.Absolute(0.6 * (5 - 7) / 12.0, change.Value, 1e-12, "change");
        Close.Absolute(change.Value + half, change.Range!.Value.High, 1e-12, "high");
    }

    /// <summary>
    /// Seasons of 60 and 110 missions over 12 cells of unlike rates (0.6 to 0.97), some of them thin, nothing changed: 5 % are declared
    /// beyond chance. 1,200 pairs each (standard deviation 0.63 points): 7 % are passed with a chance below 1e-3; at 9 % fewer come up with
    /// 8e-3.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Unchanged_seasons_of_many_thin_cells_are_seldom_declared_changed()
    {
        var random = new Random(6);
        (string Name, double Share, double Rate)[] ground = [("a", 0.35, 0.95), ("b", 0.3, 0.88), ("c", 0.2, 0.85), ("d", 0.15, 0.7)];
        (string Name, double Share, double Change)[] winds = [("1", 0.4, 0.02), ("2", 0.4, -0.03), ("3", 0.2, -0.1)];
        (string Terrain, double Share, double Rate)[] cells = [.. from g in ground from w in winds
            select (g.Name + w.Name, g.Share * w.Share, g.Rate + w.Change)];
        var draws = cells.ToDictionary(c => c.Terrain, c => new SeasonSimulation([2, 3, 4, 5, 6, 7, 8], c.Rate, 0.2));
        foreach (var missions in new[] { 60, 110 })
        {
            var (changed, told) = (0, 0);
            for (var i = 0; i < 1200; i++)
            {
                var landings = new List<Landing>();
                foreach (var season in new[] { "2030", "2031" })
                {
                    var flown = Enumerable.Range(0, missions).Select(_ => Drawn()).CountBy(t => t);
                    foreach (var (terrain, n) in flown) Add(landings, season, terrain, draws[terrain].Draw(n, random));
                }
                if (SeasonTrend.Of(landings, _options).Steps[0].SameMix.Value?.Range is not { } range) continue;
                told++;
                if (!range.Contains(0)) changed++;
            }
            output.WriteLine($"{missions} missions: {changed} of {told}");
            Assert.InRange(changed / (double)told, 0.03, 0.07);
        }

        string Drawn()
        {
            var u = random.NextDouble();
            return cells.FirstOrDefault(c => (u -= c.Share) < 0).Terrain ?? cells[^1].Terrain;
        }
    }
}
