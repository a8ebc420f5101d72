using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ExitShiftTests(ITestOutputHelper output)
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    /// <summary>
    /// Missions of three in each of four bands; the drift goes north, so that + long is + north. Misses of a shared
    /// and an own part about a bias.
    /// </summary>
    private static List<Landing> Base(Random random, int missions, Func<int, (double Long, double Right)> bias, double shared = 8,
        double own = 10, double radius = 30, double wider = 1)
    {
        double[] winds = [1, 3, 5.5, 8];
        var landings = new List<Landing>();
        for (var b = 0; b < winds.Length; b++)
        {
            for (var m = 0; m < missions; m++)
            {
                var drop = Made.Drop($"{b}-{m}", $"{b}-{m}", targetRadius: radius, windSpeed: winds[b]);
                var scale = Math.Pow(wider, b);
                var (l, r) = (bias(b).Long + scale * Normal.Sample(random, 0, shared),
                    bias(b).Right + scale * Normal.Sample(random, 0, shared));
                for (var j = 0; j < 3; j++)
                {
                    var east = r + scale * Normal.Sample(random, 0, own);
                    landings.Add(Made.Landing(drop, east, l + scale * Normal.Sample(random, 0, own)));
                }
            }
        }
        return landings;
    }

    [Fact]
    public void A_true_bias_is_centred_and_the_rate_of_missions_not_learnt_from_rises()
    {
        // True gain: P(|miss| <= 30) with sd √164 per axis rises from an offset of 20 to none, 0.70 to 0.94. 60 missions a band: the change
        // has a standard error below 0.03.
        var shifts = ExitShifts.Of(Base(new Random(1), 60, _ => (20, 0)), _options);
        var all = shifts.Rows[^1];
        Assert.True(all.IsSupported);
        Assert.True(all.Downwind.Range!.Value.Contains(-20));
        Assert.True(all.Right.Range!.Value.Contains(0));
        Assert.InRange(all.Kept, 0.95, 1);
        Assert.InRange(all.Change.Value!.Value, 0.24 - 0.09, 0.24 + 0.09); // three standard errors: fails with probability below 0.003
        Assert.True(all.Change.Value.Range!.Value.Low > 0);
        Assert.All(shifts.Rows, r => Assert.True(r.IsSupported));
    }

    /// <summary>
    /// Without any bias, 40 bases of 4 cells and margins: at most 5 % of the regions leave out no shift; of 160 cells 12 or more have
    /// probability below 0.07 even at 5 %, and drawing towards none makes it rarer.
    /// </summary>
    [Fact]
    public void Without_a_bias_hardly_any_shift_is_supported_and_what_is_given_is_small()
    {
        var random = new Random(2);
        var (supported, seasons, cells, kept) = (0, 0, 0, 0.0);
        for (var i = 0; i < 40; i++)
        {
            var shifts = ExitShifts.Of(Base(random, 12, _ => (0, 0)), _options);
            if (shifts.Rows.Any(r => r.IsSupported)) seasons++;
            var inner = shifts.Rows.Where(r => !r.Cell.IsMargin).ToList();
            supported += inner.Count(r => r.IsSupported);
            kept += inner.Sum(r => r.Kept);
            cells += inner.Count;
        }
        Assert.Equal(160, cells);
        Assert.InRange(supported, 0, 12);
        Assert.InRange(seasons, 0, 9); // any row supported: 10 or more of 40 have a chance below 5e-3 at 10 %
        Assert.InRange(kept / cells, 0, 0.7); // of four cells no less than about half is kept
    }

    /// <summary>
    /// Biases drawn from a normal of 8 m: the drawn shifts miss them by less, in the mean square over 40 bases of 4 cells, than minus the
    /// plain means do, and their intervals hold 95 % (between 140 and 159 of 160 with probability above 0.99).
    /// </summary>
    [Fact]
    public void Drawing_towards_none_comes_nearer_the_truth_and_intervals_hold_it()
    {
        var random = new Random(3);
        var (drawn, plain, held) = (0.0, 0.0, 0);
        for (var i = 0; i < 40; i++)
        {
            var biases = Enumerable.Range(0, 4).Select(_ => (Normal.Sample(random, 0, 8), Normal.Sample(random, 0, 8))).ToArray();
            var shifts = ExitShifts.Of(Base(random, 5, b => biases[b], shared: 12, own: 15), _options);
            for (var b = 0; b < 4; b++)
            {
                var cell = shifts.Rows[b];
                drawn += Math.Pow(cell.Vector.Along + biases[b].Item1, 2) + Math.Pow(cell.Vector.Across + biases[b].Item2, 2);
                plain += Math.Pow(cell.Mean.Along - biases[b].Item1, 2) + Math.Pow(cell.Mean.Across - biases[b].Item2, 2);
                if (cell.Downwind.Range!.Value.Contains(-biases[b].Item1)) held++;
            }
        }
        Assert.True(drawn < plain, $"{drawn} against {plain}");
        Assert.InRange(held, 140, 160);
    }

    /// <summary>
    /// By hand, 12 missions of three in each of three bands, radius 30 m. Long by 14, 20, 32 m in the first (the third lies outside),
    /// by 14, 20, 24 in the second (all hits), by −10, 0, 10 in the third; each mission 1 m off to either side. Over all the mean is 13.8 m
    /// long: moved by that, the third of each mission of the first band comes in and no other landing changes sides. 12 of 108 landings are
    /// 11 points.
    /// </summary>
    [Fact]
    public void The_reading_counts_what_a_hand_counts()
    {
        double[][] misses = [[14, 20, 32], [14, 20, 24], [-10, 0, 10]];
        double[] winds = [1, 3, 5.5];
        List<Landing> landings = [.. from b in Enumerable.Range(0, 3) from m in Enumerable.Range(0, 12) from miss in misses[b]
            let drop = Made.Drop($"{b}-{m}", $"{b}-{m}", windSpeed: winds[b])
            select Made.Landing(drop, m / 2 % 2 * 2 - 1 + miss % 3, miss + m % 2 * 2 - 1)];
        var shifts = ExitShifts.Of(landings, _options);
        Assert.Equal(12 / 108.0, shifts.Rows[^1].Change.Value!.Value, 12);
        Assert.Contains("Over all landings (36 missions, 108 landings) the exit shift that centres them is −1", shifts.Reading);
        Assert.Contains("; with it the landing rate would have changed by +11 (", shifts.Reading);
        Assert.Contains("A shift is supported in 5 of 7 cells, bands and terrains: ", shifts.Reading); // of the third band neither
        Assert.Contains("(12 missions, 36 landings)", shifts.Reading);
        Assert.Contains("About 0.3 of these are expected to be false.", shifts.Reading); // 5 % of 5
        Assert.All(shifts.Rows.SkipLast(1), r => Assert.Contains("for all landings alone", r.Change.Reason!));
    }

    /// <summary>
    /// Four bands of 4 to 30 missions without any bias, misses alike or wider with the wind, 400 seasons each: at
    /// most 10 % show a supported shift anywhere. Were it 10 %, more than 62 would come up with a chance below 1e-3.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Without_a_bias_few_seasons_show_any_supported_shift()
    {
        var (random, seasons, rows) = (new Random(11), 0, 0);
        (int Missions, double Wider)[] worlds = [(4, 1), (9, 1), (9, 1.3), (12, 1.3), (30, 1), (30, 1.3)];
        foreach (var world in worlds)
        {
            var any = 0;
            for (var i = 0; i < 400; i++)
            {
                var shifts = ExitShifts.Of(Base(random, world.Missions, _ => (0, 0), wider: world.Wider), _options);
                if (shifts.Rows.Any(r => r.IsSupported)) any++;
                rows += shifts.Rows.Count(r => r.IsSupported);
            }
            output.WriteLine($"{world}: {any} of 400 seasons");
            Assert.InRange(any, 0, 62);
            seasons += any;
        }
        output.WriteLine($"{seasons} of 2400 seasons, {rows} rows");
    }

    /// <summary>
    /// The change over all landings: biases of four bands drawn from a normal of 8 m, 400 seasons. The truth is what the shift given would
    /// do to the chance of a hit, from the planted normal. It has no interval where fewer than four missions change. An interval that
    /// holds it in 93 % or more is counted below 88 % of 300 with a chance below 2e-3.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void The_change_of_all_landings_holds_the_true_one()
    {
        var (random, held, told) = (new Random(12), 0, 0);
        for (var i = 0; i < 400; i++)
        {
            var biases = Enumerable.Range(0, 4).Select(_ => (Normal.Sample(random, 0, 8), Normal.Sample(random, 0, 8))).ToArray();
            var all = ExitShifts.Of(Base(random, 12, b => biases[b]), _options).Rows[^1];
            var truth = biases.Average(b => Within(b.Item1 + all.Downwind.Value, b.Item2 + all.Right.Value) - Within(b.Item1, b.Item2));
            if (all.Change.Value!.Range is not { } range) continue;
            told++;
            if (range.Contains(truth)) held++;
        }
        output.WriteLine($"{held} of {told}");
        Assert.InRange(told, 300, 400);
        Assert.InRange(held / (double)told, 0.88, 1);

        static double Within(double along, double across) =>
            new BivariateNormal(along, across, 164, 164, 0).ProbabilityWithin(30);
    }

    [Fact]
    public void A_thin_cell_keeps_less_than_a_thick_one_with_the_same_mean()
    {
        var cells = new[] { (new PlaneVector(10, 0), new PlaneCovariance(4, 4, 0), 1.0), (new PlaneVector(-10, 0),
            new PlaneCovariance(4, 4, 0), 1.0) };
        var prior = ShrunkenShift.Of(cells); // spread along: 100 − 4; across, where there is none, twice the mean error
        var (thick, errors) = prior.Drawn(new(10, 0), new PlaneCovariance(4, 4, 0));
        Assert.Equal(10 * 96 / 100.0, thick.Along, 1e-12);
        Assert.Equal(0, thick.Across, 1e-12);
        Assert.Equal(96 * 4 / 100.0, errors.VarianceAlong, 1e-10);
        Assert.Equal(10 * 96 / 192.0, prior.Drawn(new(10, 0), new PlaneCovariance(96, 96, 0)).Mean.Along, 1e-12);
    }

    [Fact]
    public void Too_few_missions_say_so() =>
        Assert.Equal("No exit shift can be given: 8 missions with a known miss; shifts are given from 10 on.",
            ExitShifts.Of(Base(new Random(4), 2, _ => (0, 0)), _options).Reading);
}
