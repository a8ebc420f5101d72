using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>The law of ageing that is most likely, what the exponent may be, and the tests of two exponents.</summary>
internal sealed class AgeFitting
{
    /// <summary>
    /// The largest exponent: a wind that turns or rises steadily makes the error grow with the age itself, its variance with the square;
    /// nothing grows faster for long.
    /// </summary>
    public const double MostExponent = 2;

    private const int Steps = 20;

    private readonly AgedLandings _data;
    private readonly AgeLikelihood _likelihood;

    public AgeFitting(AgedLandings data)
    {
        _data = data;
        _likelihood = new AgeLikelihood(data);
        var grid = new AgeMaximum[Steps + 1];
        for (var i = 0; i <= Steps; i++) grid[i] = _likelihood.At(ExponentAt(i));
        Grid = grid;
        var top = 0;
        for (var i = 1; i <= Steps; i++)
        {
            if (grid[i].LogLikelihood > grid[top].LogLikelihood + 1e-9) top = i;
        }
        Best = Refined(top);
        (DesignEffect, Slope) = Clustering(grid[0]);
    }

    /// <summary>The maximum at each exponent of the grid, 0 to <see cref="MostExponent"/>.</summary>
    public IReadOnlyList<AgeMaximum> Grid { get; }

    public AgeMaximum Best { get; }

    /// <summary>How many times as much the growth varies as it would if the landings were independent and the distribution right.</summary>
    public double DesignEffect { get; }

    /// <summary>Score of growth by the published shape at no growth, in standard errors between missions.</summary>
    public double Slope { get; }

    public AgeMaximum At(double exponent) => _likelihood.At(exponent, Best.Law);

    /// <summary>Chance of as much growth as this or more if there were none: one-sided, t between missions.</summary>
    public double NoGrowthP => StudentT.CDF(0, 1, _data.Missions - 1, -Slope);

    /// <summary>Chance of a likelihood as much below the best one if this exponent were right.</summary>
    public double ChanceOf(double exponent) => ChiSquaredBeyond(Drop(exponent));

    /// <summary>
    /// Exponents whose likelihood is not too far below the best; the upper end is <see cref="MostExponent"/> where it lies beyond.
    /// </summary>
    public (Interval Range, bool Open) Exponents(double confidence)
    {
        var critical = QuantileOf.ChiSquared(1, TailShare.Below(confidence));
        var best = Best.Law.Exponent;
        return (new Interval(Limit(0), Limit(MostExponent)), !(Drop(MostExponent) > critical));

        double Limit(double end) => Drop(end) > critical ? Roots.End(e => !(Drop(e) > critical), best, end, 1e-4).Inside : end;
    }

    /// <summary>The laws that resampled missions give, one Newton step from the fit at each exponent and then the best of these.</summary>
    public Func<int[], AgeLaw> Resampled()
    {
        var sums = Grid.Select(m => _likelihood.ByMission(m.Law)).ToArray();
        return draws =>
        {
            var (best, top) = (default(AgeLaw), double.NegativeInfinity);
            Span<double> total = stackalloc double[10];
            Span<double> at = stackalloc double[3];
            Span<double> to = stackalloc double[3];
            for (var e = 0; e < sums.Length; e++)
            {
                total.Clear();
                for (var m = 0; m < draws.Length; m++)
                {
                    if (draws[m] == 0) continue;
                    var of = sums[e].AsSpan(10 * m, 10);
                    for (var j = 0; j < 10; j++) total[j] += draws[m] * of[j];
                }
                var law = Grid[e].Law;
                (at[0], at[1], at[2]) = (law.Base, law.Growth, law.Wind);
                var rise = AgeLikelihood.Step(at, total[1..4], total[4..], e > 0, to);
                if (!double.IsFinite(rise) || !(total[0] + rise > top + 1e-9)) continue;
                (top, best) = (total[0] + rise, new AgeLaw(to[0], to[1], law.Exponent, to[2]));
            }
            return double.IsFinite(top) ? best : Best.Law;
        };
    }

    /// <summary>
    /// Twice the drop of the logarithm of the likelihood, over the design effect (Rotnitzky and Jewell 1990, Biometrika 77:485-497).
    /// </summary>
    private double Drop(double exponent) => Math.Max(0, 2 * (Best.LogLikelihood - At(exponent).LogLikelihood) / DesignEffect);

    private static double ExponentAt(int step) => MostExponent * step / Steps;

    private AgeMaximum Refined(int top)
    {
        if (Grid[top].Law.Growth == 0) return Grid[top];
        const double Golden = 0.6180339887498949;
        var (low, high) = (ExponentAt(Math.Max(0, top - 1)), ExponentAt(Math.Min(Steps, top + 1)));
        var best = Grid[top];
        while (high - low > 1e-4)
        {
            var (a, b) = (_likelihood.At(high - Golden * (high - low), best.Law), _likelihood.At(low + Golden * (high - low), best.Law));
            if (a.LogLikelihood >= b.LogLikelihood) (high, best) = (b.Law.Exponent, a);
            else (low, best) = (a.Law.Exponent, b);
        }
        return best.LogLikelihood > Grid[top].LogLikelihood ? best : Grid[top];
    }

    /// <summary>
    /// The score of growth by the published shape at no growth, base and wind allowed for, mission by mission: its variance between
    /// missions over that of independent landings, and its size in standard errors.
    /// </summary>
    private (double DesignEffect, double Slope) Clustering(AgeMaximum none)
    {
        var sums = _likelihood.ByMission(none.Law with { Exponent = ForecastAgeing.PublishedExponent });
        var total = new double[10];
        for (var m = 0; m < _data.Missions; m++)
        {
            for (var j = 0; j < 10; j++) total[j] += sums[10 * m + j];
        }
        // Growth regressed on base and wind (unless wind stays on its floor), by the curvature.
        var (a00, a01, a02, a11, a12, a22) = (total[4], total[5], total[6], total[7], total[8], total[9]);
        var det = none.Law.Wind > 0 ? a00 * a22 - a02 * a02 : 0;
        var (b, w) = det > 0 ? ((a01 * a22 - a12 * a02) / det, (a12 * a00 - a01 * a02) / det) : (a01 / a00, 0);
        var information = a11 - b * a01 - w * a12;
        var (score, squares) = (0.0, 0.0);
        for (var m = 0; m < _data.Missions; m++)
        {
            var of = sums[10 * m + 2] - b * sums[10 * m + 1] - w * sums[10 * m + 3];
            score += of;
            squares += of * of;
        }
        squares *= _data.Missions / (_data.Missions - 1.0);
        return (information > 0 ? Math.Max(0.5, squares / information) : 1, squares > 0 ? score / Math.Sqrt(squares) : 0);
    }

    private static double ChiSquaredBeyond(double x) => 2 * StandardBelow(-Math.Sqrt(x));

    private static double StandardBelow(double z) => NormalInterval.Below(z);
}
