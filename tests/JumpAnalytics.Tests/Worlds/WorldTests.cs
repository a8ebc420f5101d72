namespace JumpAnalytics.Tests.Worlds;

/// <summary>The worlds are what they say, so that what is judged by them is judged rightly.</summary>
public sealed class WorldTests(ITestOutputHelper output)
{
    public static TheoryData<string> Names => [.. TwelveWorlds.All.Select(w => w.Name)];

    /// <summary>
    /// The rate of what was truly flown agrees with the truth of the world, season by season of eight: the mean of eight differences over
    /// its error is a t of 7 degrees, beyond 6.6 with probability 0.0003, in one of thirteen worlds and two truths below 0.01.
    /// </summary>
    [Theory, MemberData(nameof(Names))]
    public void What_is_flown_has_the_rate_that_is_called_true(string name)
    {
        var world = TwelveWorlds.All.Single(w => w.Name == name);
        var seasons = Enumerable.Range(0, 8).Select(world.Season).ToList();
        var truth = world.Truth.Rate(Cell.All);
        var rates = seasons.Select(s => (double)s.FlownHits / s.Flown).ToList();
        output.WriteLine($"{name}: true {truth:P2}, flown {rates.Average():P2}, in the own mix {seasons.Average(s => s.OwnMixRate):P2}, "
            + $"{seasons.Average(s => s.Flown):0} landings");
        Assert.True(Math.Abs(T(rates.Select(r => r - truth))) < 6.6);
        Assert.True(Math.Abs(T(seasons.Select((s, i) => rates[i] - s.OwnMixRate))) < 6.6);
    }

    /// <summary>Of a world that writes everything down, the library's own count of hits is the one flown.</summary>
    [Theory, MemberData(nameof(Names))]
    public void The_log_holds_what_was_flown(string name)
    {
        var world = TwelveWorlds.All.Single(w => w.Name == name);
        var season = world.Season(1);
        Assert.Empty(season.Log.Intake.Quarantine);
        Assert.Empty(season.Log.Intake.SetAside);
        Assert.Equal(world.Missions, season.Log.Drops.Select(d => d.Mission).Distinct().Count());
        Assert.Equal(world.Seasons, season.Log.Seasons.Count);
        var hits = season.Log.Landings.Count(l => l.Outcome == LandingOutcome.Hit);
        if (world.LostFar > 0)
        {
            Assert.InRange(season.Log.Landings.Count, season.Flown * 0.8, season.Flown * 0.97);
            Assert.InRange(hits, season.FlownHits - 1, season.FlownHits + 1);
        }
        else
        {
            Assert.Equal(season.Flown, season.Log.Landings.Count);
            if (world.WrittenDistance < 1) Assert.InRange(hits, season.FlownHits - 1, season.FlownHits + 1);
        }
    }

    /// <summary>
    /// Misses come through the reader in the frame of the forecast drift: in 400 missions with a spotter who is off in each, their mean is
    /// the planted one within 4.5 errors of it, as it is not with probability below 1e-4.
    /// </summary>
    [Fact]
    public void A_planted_bias_comes_through_the_reader()
    {
        var world = new World { Name = "off", Spotters = 1, MissionsPerSeason = 400, Seasons = 1, FirstSpotterBias = (6, -15) };
        var log = world.Season(2).Log;
        var means = log.Landings.GroupBy(l => l.Drop.Mission)
            .Select(g => (Downwind: g.Average(l => l.MissDownwind!.Value.Along), Right: g.Average(l => l.MissDownwind!.Value.Across)))
            .ToList();
        var truth = world.Truth.MeanMiss(Cell.All);
        Assert.InRange(truth.Along, 5.9 * 0.9144, 6.1 * 0.9144);
        Assert.InRange(truth.Across, -15.1 * 0.9144, -14.9 * 0.9144);
        Assert.True(Math.Abs(T(means.Select(m => m.Downwind - truth.Along))) < 4.5);
        Assert.True(Math.Abs(T(means.Select(m => m.Right - truth.Across))) < 4.5);
        Assert.All(log.Drops, d => Assert.True(d.ActualExit is not null));
    }

    /// <summary>The worlds try what they are named for.</summary>
    [Fact]
    public void Each_world_tries_what_it_is_named_for()
    {
        var drifting = Enumerable.Range(2041, 4).Select(s => TwelveWorlds.Drifting.Truth.Rate(Cell.All, $"{s}")).ToList();
        Assert.All(drifting.Zip(drifting.Skip(1)), s => Assert.InRange(s.First - s.Second, 0.05, 0.09));
        var steady = Enumerable.Range(2041, 4).Select(s => TwelveWorlds.Steady.Truth.Rate(Cell.All, $"{s}")).ToList();
        Assert.InRange(steady.Max() - steady.Min(), 0, 0.008); // six errors of a difference
        Assert.InRange(TwelveWorlds.Clean.Truth.Rate(Cell.All), 0.80, 0.86);
        var cell = new Cell("10-15", "high bench");
        Assert.InRange(TwelveWorlds.Interaction.Truth.Rate(cell), 0.28, 0.36);
        Assert.InRange(TwelveWorlds.Clean.Truth.Rate(cell), 0.6, 0.75);
        output.WriteLine(string.Join(", ", drifting.Select(r => $"{r:P1}")));
        foreach (var c in new Cells(new AccuracyOptions().Bands, TwelveWorlds.Clean.Season(1).Log.Drops))
            output.WriteLine($"{c.WindBand} {c.Terrain}: {TwelveWorlds.Clean.Truth.Rate(c):P1} R90 "
                + $"{TwelveWorlds.Clean.Truth.Radius(c, 0.9) / 0.9144:0.0} yd");
    }

    /// <summary>The same seed gives the same season, another another.</summary>
    [Fact]
    public void A_seed_is_a_season()
    {
        var (a, b, c) = (TwelveWorlds.Thirty.Season(5), TwelveWorlds.Thirty.Season(5), TwelveWorlds.Thirty.Season(6));
        Assert.Equal(a.Log.Landings.Select(l => l.MissDistance), b.Log.Landings.Select(l => l.MissDistance));
        Assert.NotEqual(a.Log.Landings.Select(l => l.MissDistance).Take(5), c.Log.Landings.Select(l => l.MissDistance).Take(5));
    }

    private static double T(IEnumerable<double> values)
    {
        var of = values.ToList();
        var mean = of.Average();
        return mean / Math.Sqrt(of.Sum(v => (v - mean) * (v - mean)) / (of.Count - 1) / of.Count);
    }
}
