using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class AgeFittingTests
{
    private static AgedLandings Data(int seed, int missions = 120) =>
        AgedLandings.Of(MadeAges.Season(SeedStream.For(seed, "fitting"), missions, 1.5, 0.7)).Value!;

    /// <summary>
    /// Central differences of step 1e-5: truncation and rounding leave 1e-5 of slopes that are sums of a hundred terms of order one.
    /// </summary>
    [Fact]
    public void Slopes_and_curvatures_are_those_of_the_likelihood()
    {
        var likelihood = new AgeLikelihood(Data(1));
        var law = new AgeLaw(0.4, 0.3, 0.7, 0.2);
        var at = Total(law);
        AgeLaw[] up = [law with { Base = 0.4 + 1e-5 }, law with { Growth = 0.3 + 1e-5 }, law with { Wind = 0.2 + 1e-5 }];
        AgeLaw[] down = [law with { Base = 0.4 - 1e-5 }, law with { Growth = 0.3 - 1e-5 }, law with { Wind = 0.2 - 1e-5 }];
        int[][] entry = [[4, 5, 6], [5, 7, 8], [6, 8, 9]];
        for (var i = 0; i < 3; i++)
        {
            var (high, low) = (Total(up[i]), Total(down[i]));
            Close.Absolute((high[0] - low[0]) / 2e-5, at[1 + i], 1e-4, $"slope {i}");
            for (var j = 0; j < 3; j++) Close.Absolute(-(high[1 + j] - low[1 + j]) / 2e-5, at[entry[i][j]], 1e-3, $"curvature {i} {j}");
        }

        double[] Total(AgeLaw of)
        {
            var sums = likelihood.ByMission(of);
            return [.. Enumerable.Range(0, 10).Select(j => sums.Where((_, i) => i % 10 == j).Sum())];
        }
    }

    /// <summary>
    /// The top of a concave quadratic with floors: no parameter that may move wants to, none on its floor wants to leave it.
    /// </summary>
    [Fact]
    public void The_bounded_step_ends_at_the_top() => Cases.Each(
        Gen.Double[-3, 3].Array[12], 400, 21, v =>
        {
            double[][] rows = [v[0..3], v[3..6], v[6..9]];
            var full = new double[3, 3];
            for (var i = 0; i < 3; i++)
            {
                for (var j = 0; j < 3; j++) full[i, j] = rows.Sum(r => r[i] * r[j]) + (i == j ? 0.1 : 0);
            }
            double[] a = [full[0, 0], full[0, 1], full[0, 2], full[1, 1], full[1, 2], full[2, 2]];
            double[] floor = [1e-3, 0, 0], at = [1, 0.5, 0], to = new double[3];
            ThreeBounded.Step(at, floor, v[9..12], a, 0b111, to);
            for (var i = 0; i < 3; i++)
            {
                var slope = v[9 + i] - Enumerable.Range(0, 3).Sum(j => full[i, j] * (to[j] - at[j]));
                if (to[i] > floor[i] + 1e-12) Close.Absolute(0, slope, 1e-7);
                else Assert.True(slope < 1e-7);
            }
        });

    [Fact]
    public void No_neighbour_of_the_fit_is_more_likely()
    {
        var fitting = new AgeFitting(Data(2));
        var best = fitting.Best;
        foreach (var exponent in (double[])[Math.Max(0, best.Law.Exponent - 0.03), Math.Min(2, best.Law.Exponent + 0.03)])
            Assert.True(fitting.At(exponent).LogLikelihood <= best.LogLikelihood + 1e-7);
        Assert.All(fitting.Grid, m => Assert.True(m.LogLikelihood <= best.LogLikelihood + 1e-7));
        Assert.Equal(0, fitting.Grid[0].Law.Growth);
    }

    /// <summary>
    /// One Newton step against a fit of the resample itself, the ratio of spreads at 20 and 5 min. The error is of second order: no more
    /// than a tenth of the variance, which would widen an interval by 5 %.
    /// </summary>
    [Fact]
    public void Resampled_laws_are_near_those_of_the_resamples_own_fits()
    {
        var season = MadeAges.Season(SeedStream.For(5, "resampled ages"), 150, 1.5, 0.7);
        var data = AgedLandings.Of(season).Value!;
        var fitting = new AgeFitting(data);
        var law = fitting.Resampled();
        var byMission = season.GroupBy(l => l.Drop.Mission).Select(g => g.ToList()).ToList();
        var (error, spread, draws) = (0.0, 0.0, new int[150]);
        ClusterResamples.Random(draws, 20, SeedStream.For(6, "resampled ages"), _ =>
        {
            var again = byMission.SelectMany((m, i) =>
                Enumerable.Range(0, draws[i]).SelectMany(k => m.Select(l => l with { Drop = l.Drop with { Mission = $"{i}.{k}" } })));
            var own = new AgeFitting(data.With([.. again])).Best.Law; // the same centre, shape and tail
            var (whole, step, all) = (Ratio(own), Ratio(law(draws)), Ratio(fitting.Best.Law));
            error += (step - whole) * (step - whole);
            spread += (whole - all) * (whole - all);
        });
        Assert.True(error < 0.1 * spread, $"{error} of {spread}");

        static double Ratio(AgeLaw l) => 0.5 * Math.Log(l.At(1200, 1) / l.At(300, 1));
    }
}
