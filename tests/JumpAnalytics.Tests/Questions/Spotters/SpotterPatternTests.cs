using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class SpotterPatternTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200, Units = ReportUnits.Of("m", "mps") };

    /// <summary>
    /// Missions of one spotter, three landings each, drifts of 200 to 600 m in all directions; the miss is given
    /// the drift and a normal error.
    /// </summary>
    private static List<Landing> Missions(string? spotter, int count, Func<DownwindFrame, double, LocalVector> miss,
        double error = 8, bool run = false, int seed = 7)
    {
        var random = SeedStream.For(seed, "pattern of " + spotter);
        var landings = new List<Landing>();
        for (var m = 0; m < count; m++)
        {
            var (length, to) = (200 + 400 * random.NextDouble(), Bearing.FromDegrees(360 * random.NextDouble()));
            var drop = Made.Drop($"{spotter}-{m}", $"{spotter}m{m}",
                forecastDrift: LocalVector.FromPolar(length, to)) with { Spotter = spotter };
            if (run) drop = drop with { RunHeading = Bearing.FromDegrees(360 * random.NextDouble()), GroundSpeed = 45, ExitSpacing = 1 };
            if (run) drop = drop with { ActualExit = drop.PlannedExit + LocalVector.FromPolar(-45 + 20, drop.RunHeading!.Value) };
            for (var j = 0; j < 3; j++)
            {
                var noise = new LocalVector(error * Normal.Sample(random, 0, 1), error * Normal.Sample(random, 0, 1));
                landings.Add(Made.Landing(drop, miss(drop.Frame!, length) + noise, exitOrder: j + 1));
            }
        }
        return landings;
    }

    /// <summary>
    /// 6 % of the drift long, in 20 records: the slope's 95 % interval holds 0.06, what is left at no drift holds 0, and so does the slope
    /// to the right, each in 16 records or more but for a chance of 3e-3; none of the intervals of 0.06 ± 0.013 reaches 0.
    /// </summary>
    [Fact]
    public void A_wind_read_low_in_proportion_shows_as_a_share_of_the_drift()
    {
        var records = Enumerable.Range(0, 20)
            .Select(seed => SpotterPatterns.Of(Missions("A", 40, (f, d) => f.ToLocal(new(0.06 * d, 0)), seed: seed), _options)).ToList();
        var patterns = records.Select(r => r.Of("A")).ToList();
        Assert.All(patterns, p => Assert.True(p.LongWithDrift.Value!.Share.Range!.Value.Low > 0));
        Assert.InRange(patterns.Count(p => p.LongWithDrift.Value!.Share.Range!.Value.Contains(0.06)), 16, 20);
        Assert.InRange(patterns.Count(p => p.LongWithDrift.Value!.AtNoDrift.Range!.Value.Contains(0)), 16, 20);
        Assert.InRange(patterns.Count(p => p.RightWithDrift.Value!.Share.Range!.Value.Contains(0)), 16, 20);
        Assert.All(records.Zip(patterns).Where(p => p.Second.LongWithDrift.Value!.AtNoDrift.Range!.Value.Contains(0)),
            p => Assert.Contains(p.First.Points, t => t.StartsWith('A') && t.Contains("an error in proportion", StringComparison.Ordinal)));
    }

    /// <summary>
    /// 1,000 records of 12 missions whose errors grow with the drift, landings sharing half: the interval errs to the wide side, 98 % held
    /// in R; for a true share of 0.95 to 0.985 fewer than 945 or more than 997 have a chance below 1e-2. The seeds are fixed.
    /// </summary>
    [Fact]
    public void Intervals_of_the_share_hold_it()
    {
        var held = 0;
        for (var seed = 0; seed < 1000; seed++)
        {
            var random = SeedStream.For(seed, "drift slope");
            var missions = Enumerable.Range(0, 12).Select(_ =>
            {
                var (drift, shared) = (150 + 450 * random.NextDouble(), Normal.Sample(random, 0, 1));
                return (IReadOnlyList<(double, double)>)[.. Enumerable.Range(0, 2 + random.Next(7))
                    .Select(_ => (drift, 3 + 0.05 * drift + 0.04 * drift * (shared + Normal.Sample(random, 0, 1))))];
            }).ToList();
            if (DriftSlope.Of(missions, 0.95).Value!.Share.Range!.Value.Contains(0.05)) held++;
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"{held} of 1000");
        Assert.InRange(held, 945, 997);
    }

    /// <summary>A bearing 5° off turns the drift: tan-like 8.7 % of it right, in every drift direction.</summary>
    [Fact]
    public void A_wrong_north_shows_as_a_share_to_one_side()
    {
        var patterns =
            SpotterPatterns.Of(Missions("A", 40, (f, d) => f.ToLocal(new(0, d * Math.Sin(double.DegreesToRadians(5))))), _options);
        Assert.True(patterns.Of("A").RightWithDrift.Value!.Share.Range!.Value.Contains(Math.Sin(double.DegreesToRadians(5))));
        Assert.Contains(patterns.Points, p => p.StartsWith('A') && p.Contains("north and declination", StringComparison.Ordinal));
        Assert.InRange(patterns.Of("A").Relative.Summary.Value!.Mean, Math.PI / 2 - 0.3, Math.PI / 2 + 0.3);
    }

    /// <summary>30 m to the north-east whatever the drift: seen by the compass (45°), not in the downwind frame.</summary>
    [Fact]
    public void A_set_of_one_compass_direction_shows_in_the_compass_frame()
    {
        var patterns = SpotterPatterns.Of(Missions("A", 40, (_, _) => new LocalVector(21, 21)), _options);
        var a = patterns.Of("A");
        Assert.True(a.Compass.Value!.First.Range!.Value.Contains(21) && a.Compass.Value.Second.Range!.Value.Contains(21));
        Assert.Equal(Math.PI / 4, a.Bearings.Summary.Value!.Mean, 0.15);
        Assert.True(a.Bearings.Rayleigh.Value!.PValue < 1e-6 && a.Relative.Rayleigh.Value!.PValue > 1e-4);
        Assert.Contains(patterns.Points, p => p.StartsWith('A') && p.Contains("keep to the compass", StringComparison.Ordinal));
    }

    /// <summary>
    /// The first jumper leaves 25 m before the plan and each next 45 m later: −25, 20 and 65, in the mean 20 m late along
    /// the run, none across, exactly.
    /// </summary>
    [Fact]
    public void Exits_are_each_jumpers_own_along_the_run()
    {
        var exit = DriftFree();
        Assert.Equal(20, exit.Mean.Along, 1e-9);
        Assert.Equal(0, exit.Mean.Across, 1e-9);

        static MeanMiss DriftFree()
        {
            var landings = Missions("A", 12, (_, _) => default, run: true);
            // One mission a little across the run, so that an ellipse exists, and its opposite.
            return SpotterPatterns.Of([.. landings.Select((l, i) => l.Drop.Mission switch
            {
                "Am0" => Shifted(l, 3, 2), "Am1" => Shifted(l, -3, -2), "Am2" => Shifted(l, 2, -3), "Am3" => Shifted(l, -2, 3), _ => l,
            })], _options).Of("A").ExitPlacement.Value!;
        }

        static Landing Shifted(Landing l, double along, double right) =>
            l with { Drop = l.Drop with { ActualExit = l.Drop.ActualExit!.Value
                + DownwindFrame.Along(LocalVector.FromPolar(1, l.Drop.RunHeading!.Value))!.ToLocal(new(along, right)) } };
    }

    [Fact]
    public void Few_missions_say_what_it_would_take_and_nothing_else()
    {
        var patterns = SpotterPatterns.Of([.. Missions("A", 30, (f, _) => f.ToLocal(new(5, 0))),
            .. Missions("B", 6, (f, _) => f.ToLocal(new(5, 0))), .. Missions(null, 2, (_, _) => default)], _options);
        var few = patterns.Of("B");
        Assert.StartsWith("6 missions: a pattern is given from 10 on; if they are like the base's, about ", few.Downwind.Reason);
        Assert.All(new[] { few.LongWithDrift.Reason, few.Spread.Reason, few.Compass.Reason, few.AlongRun.Reason },
            r => Assert.Equal(few.Downwind.Reason, r));
        Assert.Null(few.AdjustedP);
        Assert.True(few.SharesOfBase);
        Assert.Equal(2, patterns.MissionsWithoutSpotter);
        Assert.Equal(38, patterns.Base.Missions);
        Assert.Throws<ArgumentException>(() => patterns.Of("C"));
        Assert.Contains(patterns.Points, p => p.StartsWith("B: 6 missions", StringComparison.Ordinal));
    }

    [Fact]
    public void No_landing_at_all_has_words_and_no_number()
    {
        var patterns = SpotterPatterns.Of([], _options);
        Assert.Contains("can't be given", patterns.Reading, StringComparison.Ordinal);
        Assert.Empty(patterns.Spotters);
        Assert.Single(patterns.Points);
        Assert.NotEqual("", patterns.ToString());
        Assert.NotEqual("", SpotterInfluence.Of([], _options).ToString());
    }

    /// <summary>P.adjust of R 4.2.2, method "holm", of 0.01, 0.04, 0.03 and 0.005: 0.03, 0.06, 0.06, 0.02.</summary>
    [Fact]
    public void Holm_holds_tests_together()
    {
        var adjusted = HolmAdjustment.Of([0.01, 0.04, 0.03, 0.005]);
        double[] expected = [0.03, 0.06, 0.06, 0.02];
        for (var i = 0; i < 4; i++) Close.Relative(expected[i], adjusted[i], 1e-12);
        Assert.Empty(HolmAdjustment.Of([]));
    }

    /// <summary>
    /// One mission 300 m long among 30: it is named first for the mean miss along the drift, and without it the figure is as counted anew.
    /// </summary>
    [Fact]
    public void The_mission_that_drives_a_figure_is_named()
    {
        var landings = Missions("A", 30, (f, _) => f.ToLocal(new(4, 0)));
        landings = [.. landings.Select(l =>
            l.Drop.Mission == "Am11" ? Made.Landing(l.Drop, l.Miss!.Value + l.Drop.Frame!.ToLocal(new(300, 0))) : l)];
        var influence = SpotterInfluence.Of(landings, _options);
        var figure = influence.Figures.Single(f => f.Figure == "mean miss downwind");
        var top = figure.Top.Value![0];
        Assert.Equal("Am11", top.Mission);
        Close.Relative(landings.Where(l => l.Drop.Mission != "Am11").Average(l => l.MissDownwind!.Value.Along),
            top.Influence.ValueWithout, 1e-9);
        var three = figure.Top.Value.Select(t => t.Mission).ToHashSet();
        Close.Relative(landings.Where(l => !three.Contains(l.Drop.Mission)).Average(l => l.MissDownwind!.Value.Along),
            figure.WithoutTop!.Value, 1e-9);
        Assert.Contains("mission Am11 of 2031-07-14", influence.Reading, StringComparison.Ordinal);
        Assert.Equal(["mean miss downwind", "mean miss right", "landing rate", "R90"], influence.Figures.Select(f => f.Figure));
        Assert.Contains(SpotterInfluence.Of([.. landings.Take(15)], _options).Figures,
            f => f.Top.Reason!.StartsWith("5 missions", StringComparison.Ordinal));
    }
}
