using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

public sealed class StickMarginsTests
{
    private static readonly StickModel _truth = new(new(4, 0), 15, 12, 9, 10, 0.08, 5);
    private static readonly AccuracyOptions _options = new() { Replicates = 400 };
    private static readonly StickMargins _demo = StickMargins.Of(DemoLog.Log.Landings, _options, new StickOptions { Wanted = 0.6 });

    /// <summary>
    /// The likelihood of a pass against a sum over the shared part on a fine grid, narrow and wide kinds mixed for each jumper by itself.
    /// The sum is good to 1e-10 (step a third of the least spread).
    /// </summary>
    [Fact]
    public void The_likelihood_of_a_pass_is_the_integral_over_what_it_shares()
    {
        PlaneVector[] misses = [new(12, -3), new(40, 18), new(-6, 9)];
        var drop = Made.Drop();
        var passes = StickPass.Of([.. misses.Select(m => Made.Landing(drop, m.Across, m.Along))]);
        var sum = 0.0;
        const double Step = 2;
        for (var a = -120.0; a <= 120; a += Step)
        {
            for (var b = -100.0; b <= 100; b += Step)
                sum += Step * Step * Density(a, _truth.SharedDownwind) * Density(b, _truth.SharedRight) * misses.Aggregate(1.0,
                    (p, m) => p * Own(m.Along - 4 - a, m.Across - b));
        }
        Close.Absolute(Math.Log(sum), new StickLikelihood(passes, 0).Of(_truth), 1e-9);

        static double Density(double x, double sd) => Math.Exp(-0.5 * x * x / (sd * sd)) / (sd * Math.Sqrt(2 * Math.PI));
        static double Own(double d, double r) => (1 - _truth.WideShare) * Density(d, _truth.OwnDownwind) * Density(r, _truth.OwnRight)
            + _truth.WideShare * Density(d, 5 * _truth.OwnDownwind) * Density(r, 5 * _truth.OwnRight);
    }

    /// <summary>
    /// With a normal own part the likelihood is that of the two-level model of each axis, which is checked against lme4 elsewhere.
    /// </summary>
    [Fact]
    public void With_a_normal_own_part_the_fit_is_the_two_level_model_of_passes()
    {
        var landings = MadeSticks.Season(SeedStream.For(2, "two levels"), _truth with { WideShare = 0, Widening = 1 },
            60, 0, recorded: false);
        var along = Axis(m => m.Along);
        var across = Axis(m => m.Across);
        var model = new StickModel(new(along.Mean, across.Mean), Math.Sqrt(along.Between.Value), Math.Sqrt(across.Between.Value),
            Math.Sqrt(along.Within.Value), Math.Sqrt(across.Within.Value));
        var likelihood = new StickLikelihood(StickPass.Of(landings), 0);
        Close.Absolute(along.LogLikelihood + across.LogLikelihood, likelihood.Of(model), 1e-6);
        // The faint pull of the search moves it by less than a hundredth of the likelihood's curvature.
        var fit = StickFitting.Of(likelihood, 60).Value!;
        Assert.False(fit.HasWide);
        Assert.InRange(likelihood.Of(model) - fit.LogLikelihood, -1e-6, 0.01);

        TwoLevelAxisModel Axis(Func<PlaneVector, double> of) => TwoLevelAxisModel.FitTo(
            [.. landings.Select(l => new AxisReading(l.Drop.Id, of(l.MissDownwind!.Value)))], LikelihoodKind.Full).Value!;
    }

    /// <summary>
    /// Twenty seasons of 80 missions. For a true coverage of 0.93 the chance of fewer than 15 is 0.002. The seed is fixed.
    /// </summary>
    [Fact]
    public void Intervals_hold_the_planted_chances() => Assert.InRange(Covered(20, 80), 15, 20);

    /// <summary>400 seasons each: for a true coverage of 0.93 the chance of fewer than 352 (0.88) is below 2e-4.</summary>
    [Fact, Trait("Category", "Long")]
    public void Intervals_hold_the_planted_chances_over_many_seasons()
    {
        Assert.InRange(Covered(400, 80), 352, 400);
        Assert.InRange(Covered(400, 300), 352, 400);
    }

    private static int Covered(int seasons, int missions)
    {
        var truth = _truth.ProbabilityAll(4, MadeSticks.Radius, new(0.2 * MadeSticks.Gap, 0));
        var held = 0;
        for (var s = 0; s < seasons; s++)
        {
            var margins = StickMargins.Of(MadeSticks.Season(SeedStream.For(s, "sticks"), _truth, missions, 0.2),
                _options with { Seed = s }, new StickOptions { Largest = 4 });
            if (margins.Row(RunDirection.Along, 4)!.All.Range!.Value.Contains(truth)) held++;
        }
        return held;
    }

    /// <summary>
    /// A resample's chance by one Newton step and linear log odds, against the fit of the resample itself. The error is of second order: no
    /// more than a twentieth of the variance over six resamples, which would widen an interval by 2.5 %.
    /// </summary>
    [Fact]
    public void Resampled_chances_are_near_those_of_the_resamples_own_fits()
    {
        var passes = StickPass.Of(MadeSticks.Season(SeedStream.For(8, "resamples"), _truth, 150, 0.2));
        var fit = StickFitting.Of(new StickLikelihood(passes, 0.2), 150).Value!;
        var (error, spread, draws) = (new double[5], new double[5], new int[150]);
        ClusterResamples.Random(draws, 6, SeedStream.For(4, "few resamples"), _ =>
        {
            var again = passes.SelectMany(p => Enumerable.Repeat(p, draws[p.Mission])).ToList();
            var own = StickFitting.Of(new StickLikelihood(again, 0.2), 150).Value!.Model;
            var chances = StickChances.Of(fit, 40, 0, 0.2, 4, [(fit.Drawn(draws), 0.2)]);
            foreach (var n in (int[])[1, 2, 4])
            {
                var (whole, step, all) =
                    (own.ProbabilityAll(n, 40), chances.At(0, RunDirection.Along, n, 0), chances.At(-1, RunDirection.Along, n, 0));
                error[n] += (step - whole) * (step - whole);
                spread[n] += (whole - all) * (whole - all);
            }
        });
        foreach (var n in (int[])[1, 2, 4]) Assert.True(error[n] < 0.05 * spread[n], $"{n} jumpers: {error[n]} of {spread[n]}");
    }

    /// <summary>
    /// Planted is 0.2 left for round canopies and 0.109 for ram-air, 55 % round: between the two, but for a chance of 5 % at most.
    /// </summary>
    [Fact]
    public void On_the_demo_what_is_left_of_the_exits_lies_between_the_planted_shares()
    {
        var left = _demo.Smear.Value!;
        Assert.True(left.Left.Range!.Value.Low < 0.2 && left.Left.Range.Value.High > 0.109, $"{left.Left.Range}");
        Assert.True(left.Left.Range.Value.High < 0.25 && left.Left.Range.Value.Low > 0.08);
        Assert.InRange(left.Missions, 280, 327);
    }

    /// <summary>Four sizes, intervals at 95 %: one of a sound library's four fails with a chance of 19 %, two with 1.4 %.</summary>
    [Fact]
    public void On_the_demo_the_model_says_what_the_sticks_did()
    {
        Assert.Equal([1, 2, 3, 4], _demo.Calibration.Select(c => c.Jumpers));
        Assert.InRange(_demo.Calibration.Count(c => c.Observed.Range!.Value.Contains(c.Modelled)), 3, 4);
        Assert.Equal(DemoLog.Log.Landings.GroupBy(l => l.Drop.Id).Count(g => g.Count() == 2 && g.All(l => l.Outcome == LandingOutcome.Hit)),
            _demo.Calibration[1].Inside);
        // The rate of the model for one jumper is the landing rate, of which the normal says 0.69.
        Assert.InRange(_demo.Row(RunDirection.Along, 1)!.All.Value, 0.80, 0.88);
        Assert.InRange(_demo.Model.Value!.WideShare, 0.05, 0.13); // planted: 0.08
    }

    [Fact]
    public void The_largest_stick_follows_from_the_chances()
    {
        foreach (var largest in _demo.Largest)
        {
            Assert.True(_demo.Row(largest.Run, largest.Jumpers)!.All.Value >= 0.6);
            Assert.True(_demo.Row(largest.Run, largest.Jumpers + 1)!.All.Value < 0.6);
            Assert.InRange(largest.Jumpers, largest.Low, largest.High);
        }
        Assert.Equal(3, _demo.Largest.Count);
        Assert.Empty(StickMargins.Of(DemoLog.Log.Landings.Take(200).ToList(), _options, new StickOptions { Largest = 2 }).Largest);
    }

    [Fact]
    public void The_chance_at_any_angle_is_that_of_the_runs_of_the_table()
    {
        foreach (var (run, angle) in new[] { (RunDirection.Along, 0.0), (RunDirection.Oblique, Math.PI / 4),
            (RunDirection.Across, Math.PI / 2) })
            Close.Absolute(_demo.Row(run, 3)!.All.Value, _demo.ProbabilityAll(3, angle).Value!.Value, 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => _demo.ProbabilityAll(3, double.NaN));
    }

    [Fact]
    public void The_readers_own_numbers_are_taken_and_named()
    {
        var own = StickMargins.Of(DemoLog.Log.Landings, _options,
            new StickOptions { PassThrough = 0, TargetRadius = 100, ExitGap = 50, Largest = 2 });
        Assert.Equal((100.0, 50.0, 0.0), (own.TargetRadius, own.ExitGap, own.PassThrough.Value!.Value));
        Assert.Equal(own.Row(RunDirection.Along, 2)!.All.Value, own.Row(RunDirection.Across, 2)!.All.Value); // nothing is left of the exits
        Assert.Contains("the reader's number", string.Join(' ', own.Points));
        Assert.Equal(own.ToString(), StickMargins.Of(DemoLog.Log.Landings, _options, own.Settings).ToString()); // same seed, same text
    }

    [Fact]
    public void Thin_records_are_refused_with_what_it_takes()
    {
        Assert.Contains("0 missions", StickMargins.Of([], _options).Model.Reason);
        var few = StickMargins.Of(MadeSticks.Season(SeedStream.For(1, "few"), _truth, 6, 0.2), _options);
        Assert.Contains("from 15", few.Model.Reason);
        Assert.Empty(few.Rows);
        Assert.Contains("can't be told", few.Reading);
        var bare = StickMargins.Of(MadeSticks.Season(SeedStream.For(1, "bare"), _truth, 60, 0.2, recorded: false),
            _options, new StickOptions { Largest = 2 });
        Assert.Contains("it needs 5", bare.PassThrough.Reason);
        Assert.NotEmpty(bare.Rows);
        Assert.Contains("the runs are told without it", string.Join(' ', bare.Points));
    }
}
