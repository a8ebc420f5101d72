using System.Globalization;
using JumpAnalytics.Demo;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests.Demo;

/// <summary>
/// What the library makes of the demo season holds the truth behind it. Each bound fails a sound library with a probability of 1 % or
/// less; the season is fixed, so a test that passed goes on passing.
/// </summary>
public class TruthTests
{
    private const double YdPerM = 1 / 0.9144;

    /// <summary>Mean miss along the drift that the spotter's low reading leaves after steering, yards.</summary>
    private static readonly double _plantedBiasYd =
        Planted.BiasedSpotterReadsLowMph * Descent.YdPerSecondPerMph * Planted.Round.DescentS * Planted.Round.LeftShare;

    /// <summary>Only the bootstrap of the fitted normal takes time, and it is not looked at here.</summary>
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    private static readonly RateTable _rates = RateTable.Of(DemoLog.Log.Landings, _options);

    [Fact]
    public void Truth_has_every_cell_and_margin_of_the_rate_table() => Assert.Equal(
        _rates.Cells.Select(c => (c.WindBand, c.Terrain)).Order(), DemoLog.Rows("truth.csv").Select(t => (t[0], t[1])).Order());

    /// <summary>
    /// Inner cells only: margins count the same landings again. That rounding and heaping lift what is written over what was by a point
    /// or so is small against these intervals.
    /// </summary>
    [Fact]
    public void Intervals_of_the_cells_hold_the_true_rates()
    {
        var cells = _rates.Cells.Where(c => !c.IsMargin && c.Missions >= CellRate.FewMissions).ToList();
        var truth = DemoLog.Rows("truth.csv").Where(t => t[3] != "")
            .ToDictionary(t => (t[0], t[1]), t => double.Parse(t[3], CultureInfo.InvariantCulture));
        var held = cells.Count(c => c.Counted.Value!.Rate.Range!.Value.Contains(truth[(c.WindBand, c.Terrain)]));
        Assert.InRange(cells.Count, 10, 16);
        Assert.InRange(held, Least(cells.Count, 0.95), cells.Count);
    }

    [Fact]
    public void The_spotter_who_reads_low_is_long_and_the_others_are_not()
    {
        var low = Bias(l => l.Drop.Spotter == Planted.BiasedSpotter);
        Assert.False(low.Contains(0));
        Assert.True(low.Contains(_plantedBiasYd), $"{low} yd does not hold {_plantedBiasYd:0.0}");
        var others = Bias(l => l.Drop.Spotter != Planted.BiasedSpotter);
        Assert.True(others.Contains(0), $"{others} yd does not hold 0");

        static Interval Bias(Func<Landing, bool> where)
        {
            var along = SeasonGlance.Of([.. DemoLog.Log.Landings.Where(where)],
                _options with { Confidence = 0.99 }).Seasons[^1].BiasDownwind.Value!.Range!.Value;
            return new Interval(along.Low * YdPerM, along.High * YdPerM);
        }
    }

    /// <summary>
    /// Planted is a factor of 2.3 across the drift on all but the exit and the measurement, and none along it. Four hundred further seasons
    /// give 2.13 for the ratio of the standard deviations across and 2.16 for that of the median sizes, which the heavy tail hardly
    /// touches; the logarithms of the ratios scatter between seasons by 0.15 and 0.11. The bounds are three of those.
    /// </summary>
    [Fact]
    public void Ridge_lee_is_twice_as_wide_across_the_drift_and_no_wider_along()
    {
        AssertNear(2.13, 3 * 0.15, Ratio(m => m.Across, StandardDeviation));
        AssertNear(2.16, 3 * 0.11, Ratio(m => m.Across, MedianSize));
        AssertNear(1, 3 * 0.15, Ratio(m => m.Along, StandardDeviation));
        AssertNear(1, 3 * 0.11, Ratio(m => m.Along, MedianSize));

        static double Ratio(Func<PlaneVector, double> axis, Func<IEnumerable<double>, double> spread)
        {
            var lee = DemoLog.Log.Landings.Where(l => l.MissDownwind is not null)
                .ToLookup(l => l.Drop.Terrain == "ridge lee", l => axis(l.MissDownwind!.Value));
            return spread(lee[true]) / spread(lee[false]);
        }

        static double StandardDeviation(IEnumerable<double> misses) => MathNet.Numerics.Statistics.Statistics.StandardDeviation(misses);
        static double MedianSize(IEnumerable<double> misses) => MathNet.Numerics.Statistics.Statistics.Median(misses.Select(Math.Abs));
        static void AssertNear(double expected, double logWidth, double actual) =>
            Assert.InRange(Math.Log(actual / expected), -logWidth, logWidth);
    }

    /// <summary>The exit recorded is the first jumper's, and the spotter puts the middle of the stick on the planned exit.</summary>
    [Fact]
    public void First_jumpers_leave_half_a_stick_early_and_whole_sticks_on_the_plan()
    {
        var halfStickYd = DemoLog.Season.AcceptedDrops.ToDictionary(r => r.Drop.Id,
            r => (r.Drop.Jumpers.Length - 1) / 2.0 * r.Drop.SpacingS * r.Drop.GroundKt * Descent.YdPerSecondPerKt);
        var placed = DemoLog.Log.Landings.Where(l => l.Miss is not null)
            .Select(l => (Landing: l, MissBudget.Of(l).ExitPlacement.Vector)).Where(p => p.Vector is not null)
            .Select(p => (p.Landing, AlongYd: AlongRun(p.Vector!.Value, p.Landing.Drop) * YdPerM)).ToList();
        var first = placed.Where(p => p.Landing.ExitOrder == 1).ToList();
        var slip = first.Select(p => p.AlongYd + halfStickYd[p.Landing.Drop.Id]).ToList();
        var threeErrors = 3 * MathNet.Numerics.Statistics.Statistics.StandardDeviation(slip) / Math.Sqrt(slip.Count);

        Assert.InRange(slip.Average(), -threeErrors, threeErrors);
        Assert.InRange(first.Average(p => p.AlongYd), -60, -40);
        Assert.InRange(placed.Average(p => p.AlongYd), -2 * threeErrors, 2 * threeErrors);

        static double AlongRun(LocalVector v, Drop drop)
        {
            var (sin, cos) = Math.SinCos(drop.RunHeading!.Value.Radians);
            return v.East * sin + v.North * cos;
        }
    }

    /// <summary>
    /// Four hundred further seasons. The rate that an interval must hold is that of all their landings as measured and rounded, before
    /// any flaw: rounding lifts it over the rate of the landings as they were, by construction of the record and not by any fault of the
    /// interval. Against the latter the interval covers less, and taken for independent landings it would cover far less.
    /// </summary>
    [Fact, Trait("Category", "Long")]
    public void Intervals_of_the_overall_rate_cover_as_often_as_they_say()
    {
        const int seasons = 400;
        var of = new (int Landings, int WereHits, int WrittenHits, ClusteredProportion Counted)[seasons];
        Parallel.For(0, seasons, i => DemoLog.InTemporaryFolder(folder =>
        {
            var season = new DemoSeason(1_000_000 + (ulong)i);
            season.WriteLog(folder);
            of[i] = (season.Landings.Count, season.Landings.Count(r => r.WasHit), season.Landings.Count(r => r.WrittenAsHit),
                MissionSample.Of(JumpLog.Read(folder).Landings).CountedRate(0.95).Value!);
        }));
        var (were, written) =
            (of.Sum(s => s.WereHits) / (double)of.Sum(s => s.Landings), of.Sum(s => s.WrittenHits) / (double)of.Sum(s => s.Landings));
        var (coversWritten, coversWere) =
            (of.Count(s => s.Counted.Rate.Range!.Value.Contains(written)), of.Count(s => s.Counted.Rate.Range!.Value.Contains(were)));
        var coversAlone = of.Count(s => ClusteredProportion.Wilson(s.Counted.Rate.Value, s.Counted.Landings, 1.96).Contains(written));
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"true rate {were:0.0000}, as written {written:0.0000}, counted {of.Average(s => s.Counted.Rate.Value):0.0000}; "
            + $"of {seasons} intervals {coversWritten} hold the rate as written, {coversWere} the true one; "
            + $"as independent landings {coversAlone}; design effect {of.Average(s => s.Counted.DesignEffect):0.00}");

        Assert.InRange(coversWritten, Least(seasons, 0.95), seasons - Least(seasons, 0.05));
        Assert.InRange(coversWere, Least(seasons, 0.80), seasons);
        Assert.InRange(coversAlone, 0, Least(seasons, 0.95) - 1);
    }

    /// <summary>The count that so many intervals fall short of with a probability below 1 % when each covers as often as it says.</summary>
    private static int Least(int intervals, double coverage)
    {
        var least = 0;
        while (Binomial.CDF(coverage, intervals, least) < 0.01) least++;
        return least;
    }
}
