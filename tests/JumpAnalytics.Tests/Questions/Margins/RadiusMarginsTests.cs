using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class RadiusMarginsTests(ITestOutputHelper output)
{
    private static readonly AccuracyOptions _options = new();

    private static readonly double[] _winds = [1, 3, 5.5, 8]; // m/s, one in each usual band
    private static readonly string[] _terrains = ["meadow", "ridge", "timber"];

    /// <summary>
    /// A base of twelve cells: scales of band and terrain with deviations of a log standard deviation of their own, missions of one to
    /// eight jumpers, one landing in twelve far off.
    /// </summary>
    private static (List<Landing> Landings, Dictionary<(string, string), double> Scales) Base(Random random, double deviation,
        double shared, Func<int> missionsOfCell)
    {
        var landings = new List<Landing>();
        var scales = new Dictionary<(string, string), double>();
        for (var b = 0; b < _winds.Length; b++)
        {
            for (var t = 0; t < _terrains.Length; t++)
            {
                var cell = (_options.Bands.LabelOf(_winds[b]), _terrains[t]);
                var scale = scales[cell] = 10 * Math.Exp(0.15 * b + 0.2 * t + deviation * Normal.Sample(random, 0, 1));
                var missions = missionsOfCell();
                for (var m = 0; m < missions; m++)
                {
                    var drop = Made.Drop($"{b}-{t}-{m}", $"{b}-{t}-{m}", terrain: _terrains[t], windSpeed: _winds[b]);
                    landings.AddRange(Stick(random, scale, shared, 1 + random.Next(8)).Select(miss => Made.Landing(drop, miss)));
                }
            }
        }
        return (landings, scales);
    }

    private static IEnumerable<LocalVector> Stick(Random random, double scale, double shared, int jumpers)
    {
        var (along, across) = (Normal.Sample(random, 0, Math.Sqrt(shared)), Normal.Sample(random, 0, Math.Sqrt(shared)));
        for (var j = 0; j < jumpers; j++)
        {
            var own = Math.Sqrt(1 - shared) * (random.Next(12) == 0 ? 3 : 1);
            yield return scale * new LocalVector(along + Normal.Sample(random, 0, own), across + Normal.Sample(random, 0, own));
        }
    }

    /// <summary>
    /// The radius of a landing drawn from all, scale 1: shared and own parts are normal, the own one three times as wide for one in twelve.
    /// </summary>
    private static double TrueRadius(double shared, double share)
    {
        var (low, high) = (0.0, 100.0);
        for (var i = 0; i < 100; i++)
        {
            var r = (low + high) / 2;
            var inside = 1 - (11 * Math.Exp(-r * r / 2) + Math.Exp(-r * r / (2 * (shared + 9 * (1 - shared))))) / 12;
            if (inside < share) low = r;
            else high = r;
        }
        return (low + high) / 2;
    }

    /// <summary>Coverage of 90 % upper limits in cells of their own and in cells that borrow.</summary>
    private (int Held, int Given, double Ratio)[] Coverage(int bases, double deviation, double shared, int seed)
    {
        var random = new Random(seed);
        var truth = RadiusMargins.UsualShares.ToDictionary(s => s, s => TrueRadius(shared, s));
        var tally = new (int Held, int Given, double Ratio)[2];
        for (var s = 0; s < bases; s++)
        {
            var (landings, scales) = Base(random, deviation, shared,
                () => random.Next(4) switch { 0 => 2 + random.Next(4), 1 => 6 + random.Next(8), 2 => 15 + random.Next(15), _ => 60 });
            var margins = RadiusMargins.Of(landings, _options);
            foreach (var cell in scales)
            {
                var row = margins.Cell(cell.Key.Item1, cell.Key.Item2)!;
                foreach (var limit in row.Radii.Select(r => r.Value).OfType<RadiusLimit>())
                {
                    ref var t = ref tally[row.IsOwn ? 0 : 1];
                    t = (t.Held + (limit.UpperLimit >= cell.Value * truth[limit.Share] ? 1 : 0), t.Given + 1,
                        t.Ratio + limit.UpperLimit / (cell.Value * truth[limit.Share]));
                }
            }
        }
        output.WriteLine($"deviation {deviation}, shared {shared}: own {tally[0].Held / (double)tally[0].Given:0.000} of {tally[0].Given}, "
            + $"limit {tally[0].Ratio / tally[0].Given:0.00} of the truth; borrowed {tally[1].Held / (double)tally[1].Given:0.000} of "
            + $"{tally[1].Given}, limit {tally[1].Ratio / tally[1].Given:0.00} of the truth");
        return tally;
    }

    /// <summary>
    /// 60 bases of twelve cells. Limits of one base lean on one another; their share held in a base varies by a standard
    /// deviation of about 0.08 (measured), so the mean of 60 by 0.01: with a true coverage of 0.9 or more the bound of 0.87 fails
    /// with probability below 0.002.
    /// </summary>
    [Fact]
    public void Borrowed_limits_hold_the_true_radius_as_often_as_they_say()
    {
        var tally = Coverage(60, deviation: 0.1, shared: 0.3, seed: 20310716);
        Assert.True(tally[1].Given > 1000);
        Assert.True(tally[1].Held >= 0.87 * tally[1].Given, $"{tally[1]}");
        Assert.True(tally[1].Ratio / tally[1].Given < 1.6, $"{tally[1]}");
    }

    [Fact]
    [Trait("Category", "Long")]
    public void Coverage_in_many_settings()
    {
        foreach (var deviation in new[] { 0, 0.1, 0.25 })
        {
            foreach (var shared in new[] { 0, 0.3, 0.6 })
            {
                var tally = Coverage(400, deviation, shared, 7);
                Assert.All(tally, t => Assert.True(t.Held >= 0.87 * t.Given, $"{deviation}, {shared}: {t}"));
            }
        }
    }

    [Fact]
    public void A_thick_cell_stands_for_itself_and_a_thin_one_borrows()
    {
        var random = new Random(5);
        var counts = new Queue<int>([300, 300, 300, 300, 300, 300, 300, 300, 300, 300, 300, 2]);
        var (landings, _) = Base(random, 0, 0.2, counts.Dequeue);
        var margins = RadiusMargins.Of(landings, _options);
        Assert.Equal(12 + 4 + 3 + 1, margins.Rows.Count);
        Assert.Equal(11, margins.Rows.Take(12).Count(r => r.IsOwn));
        var thin = margins.Cell(_options.Bands.LabelOf(8), "timber")!;
        Assert.InRange(thin.Borrowed!.Value, 0.7, 1);
        Assert.All(thin.Radii, r => Assert.Equal(RadiusLimitMethod.PooledScale, r.Value!.Method));
        foreach (var row in margins.Rows)
        {
            Assert.All(row.Radii, r => Assert.True(r.Value!.UpperLimit >= r.Value.Radius));
            Assert.Equal(row.Radii.Select(r => r.Value!.Radius).Order(), row.Radii.Select(r => r.Value!.Radius));
            Assert.Equal(row.Radii.Select(r => r.Value!.UpperLimit).Order(), row.Radii.Select(r => r.Value!.UpperLimit));
        }
        var own = RadiusLimit.Of(PlaneSample.Of(landings.Where(l => l.Drop.Terrain == "meadow" && l.Drop.WindSpeed == 1)
            .Select(l => new PlaneReading(l.Drop.Mission, l.MissDownwind))), 0.9, 0.9).Value!;
        Assert.Equal(own.UpperLimit, margins.Cell(_options.Bands.LabelOf(1), "meadow")!.Radii[2].Value!.UpperLimit, 1e-9);
    }

    [Fact]
    public void Other_lengths_give_the_same_margins_in_other_lengths()
    {
        var (landings, _) = Base(new Random(6), 0.1, 0.2, () => 6);
        var tripled = landings.Select(l => l with { Miss = 3 * l.Miss!.Value, MissDistance = 3 * l.MissDistance }).ToList();
        foreach (var (a, b) in RadiusMargins.Of(landings, _options).Rows.Zip(RadiusMargins.Of(tripled, _options).Rows))
        {
            Assert.Equal(a.Borrowed ?? -1, b.Borrowed ?? -1, 1e-9);
            Assert.All(a.Radii.Zip(b.Radii).Where(r => r.First.Success),
                r => Assert.Equal(3 * r.First.Value!.UpperLimit, r.Second.Value!.UpperLimit, 1e-9 * r.Second.Value!.UpperLimit));
        }
    }

    [Fact]
    public void A_landing_beyond_a_distance_widens_its_cell()
    {
        var (landings, _) = Base(new Random(8), 0, 0.2, () => 5);
        var last = landings[^1].Drop;
        var with = RadiusMargins.Of([.. landings, Made.Beyond(last, 60), Made.Beyond(last, 60)], _options)
            .Cell(_options.Bands.LabelOf(8), "timber")!;
        var without = RadiusMargins.Of(landings, _options).Cell(_options.Bands.LabelOf(8), "timber")!;
        Assert.Equal(without.Landings + 2, with.Landings);
        Assert.True(with.Radii[1].Value!.Radius > without.Radii[1].Value!.Radius);
    }

    [Fact]
    public void Records_that_give_no_margin_say_why()
    {
        Assert.Equal("No margin can be given: no landing.", RadiusMargins.Of([], _options).Reading);
        var one = RadiusMargins.Of([Made.Landing(Made.Drop(), 3, 4)], _options);
        Assert.Equal("a single mission", one.Overall.Radii[0].Reason);
        Assert.Throws<ArgumentOutOfRangeException>(() => RadiusMargins.Of([], _options, [0.5, 1]));
    }

    [Fact]
    public void Last_season_s_margins_are_held_against_this_season_s_landings()
    {
        // First season: 40 missions of 3 in one cell at 1 to 30 m; the second lands at 11, 23 and 41 m. Radius of a
        // half: type 8 of 120 distances.
        var landings = new List<Landing>();
        for (var m = 0; m < 40; m++)
        {
            var (first, second) = (Made.Drop($"a{m}", $"a{m}", season: "2030"), Made.Drop($"b{m}", $"b{m}", season: "2031"));
            for (var j = 0; j < 3; j++)
            {
                landings.Add(Made.Landing(first, 0, 1 + (m * 3 + j) % 30));
                landings.Add(Made.Landing(second, 0, new[] { 11, 23, 41 }[j]));
            }
        }
        landings.Add(Made.Landing(Made.Drop("c", "c", season: "2031", terrain: "lava"), 0, 5));
        var trial = MarginBacktest.Of(landings, _options, [0.5, 0.9]).Trials.Where(t => t.Cell.IsWhole).ToList();
        Assert.Equal([("2031", 0.5), ("2031", 0.9)], trial.Select(t => (t.Season, t.Nominal)));
        Assert.Equal(1 / 3.0, trial[0].Inside.Value!.Rate.Value, 12); // radius 15.5: the landings at 11
        Assert.Equal(2 / 3.0, trial[1].Inside.Value!.Rate.Value, 12);
        Assert.Equal((40, 120, 1), (trial[0].Inside.Value!.Missions, trial[0].Inside.Value!.Landings, trial[0].Without));
        Assert.StartsWith("There is no second season",
            MarginBacktest.Of([.. landings.Where(l => l.Drop.Season == "2030")], _options).Reading);
    }
}
