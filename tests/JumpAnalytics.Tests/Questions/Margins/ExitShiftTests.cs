using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

public sealed class ExitShiftTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    /// <summary>
    /// Missions of three in each of four bands; the drift goes north, so that + long is + north. Misses of a shared
    /// and an own part about a bias.
    /// </summary>
    private static List<Landing> Base(Random random, int missions, Func<int, (double Long, double Right)> bias, double shared = 8,
        double own = 10, double radius = 30)
    {
        double[] winds = [1, 3, 5.5, 8];
        var landings = new List<Landing>();
        for (var b = 0; b < winds.Length; b++)
        {
            for (var m = 0; m < missions; m++)
            {
                var drop = Made.Drop($"{b}-{m}", $"{b}-{m}", targetRadius: radius, windSpeed: winds[b]);
                var (l, r) = (bias(b).Long + Normal.Sample(random, 0, shared), bias(b).Right + Normal.Sample(random, 0, shared));
                for (var j = 0; j < 3; j++)
                    landings.Add(Made.Landing(drop, r + Normal.Sample(random, 0, own), l + Normal.Sample(random, 0, own)));
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
        var (supported, cells, kept) = (0, 0, 0.0);
        for (var i = 0; i < 40; i++)
        {
            var inner = ExitShifts.Of(Base(random, 12, _ => (0, 0)), _options).Rows.Where(r => !r.Cell.IsMargin).ToList();
            supported += inner.Count(r => r.IsSupported);
            kept += inner.Sum(r => r.Kept);
            cells += inner.Count;
        }
        Assert.Equal(160, cells);
        Assert.InRange(supported, 0, 12);
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
