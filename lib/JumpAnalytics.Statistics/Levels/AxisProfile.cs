using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Profile-likelihood intervals of a two-level model of one axis without raters: the values that the full likelihood, maximised over all
/// other numbers, lowers by no more than half the chi-square quantile of one degree of freedom.
/// </summary>
[TypeFormatterSource]
public sealed record AxisProfile
{
    /// <summary>Of the standard deviation between clusters; from zero when zero is not ruled out.</summary>
    public required Interval SdBetween { get; init; }

    /// <summary>Of the standard deviation within clusters.</summary>
    public required Interval SdWithin { get; init; }

    /// <summary>Of the mean.</summary>
    public required Interval Mean { get; init; }

    /// <summary>The intervals; null when a search does not end.</summary>
    internal static AxisProfile? Of(LevelSums sums, double confidence)
    {
        var profiled = new Profiled(sums);
        if (profiled.Best(null, null, null) is not { } best) return null;
        var (within, between) = (Math.Abs(best.Place[0]), Math.Abs(best.Place[1]));
        var (unit, mean) = (profiled.Scale[0], profiled.Mean(within, between));
        var limit = best.Value + QuantileOf.ChiSquared(1, TailShare.Below(confidence));
        double Within(double t) => Above(profiled.Best(t, null, null));
        double Between(double t) => Above(profiled.Best(null, t, null));
        double Mean(double t) => Above(profiled.Best(null, null, t));
        double Above(SearchEnd? end) => end is null ? double.NaN : end.Value - limit;

        var lowBetween = Between(0) <= 0 ? 0 : Crossing(Between, between, t => t - between / 8);
        return lowBetween is { } b0 && Crossing(Between, between, t => t + unit) is { } b1
            && Crossing(Within, within, t => t / 1.25) is { } w0 && Crossing(Within, within, t => t * 1.25) is { } w1
            && Crossing(Mean, mean, t => t - unit) is { } m0 && Crossing(Mean, mean, t => t + unit) is { } m1
            ? new AxisProfile { SdBetween = new(b0, b1), SdWithin = new(w0, w1), Mean = new(sums.Centre[0] + m0, sums.Centre[0] + m1) }
            : null;
    }

    // Where a function that is negative at the start rises through zero, in steps away from it.
    private static double? Crossing(Func<double, double> f, double start, Func<double, double> step)
    {
        var (inside, outside) = (start, step(start));
        for (var i = 0; i < 200; i++)
        {
            var value = f(outside);
            if (double.IsNaN(value)) return null;
            if (value > 0) return Roots.Of(f, Math.Min(inside, outside), Math.Max(inside, outside),
                1e-11 * Math.Max(Math.Abs(inside), Math.Abs(outside)));
            (inside, outside) = (outside, step(outside));
        }
        return null;
    }

    /// <summary>The full likelihood, maximised over what is not held.</summary>
    private sealed class Profiled
    {
        private readonly LevelLikelihood _likelihood;
        private readonly double[] _start;

        public Profiled(LevelSums sums)
        {
            _likelihood = new LevelLikelihood(sums, restricted: false);
            var within = sums.Within.Axes[0, 0] / (sums.Points - sums.Clusters);
            var between = (sums.Sizes.Sum(s => s.Between.Axes[0, 0]) / (sums.Clusters - 1) - within) / sums.EvenPoints;
            Scale = [Math.Sqrt(within), Math.Sqrt(within / sums.EvenPoints)];
            _start = [Scale[0], Math.Max(Scale[1], Math.Sqrt(Math.Max(0, between)))];
        }

        /// <summary>Size that matters of the standard deviations within and between clusters.</summary>
        public double[] Scale { get; }

        public double Mean(double within, double between) =>
            _likelihood.At(One(within * within), One(between * between), null)!.Coefficients.Values[0, 0];

        /// <summary>The best of what is not held: standard deviations within and between clusters.</summary>
        public SearchEnd? Best(double? within, double? between, double? mean)
        {
            int[] free = [.. new[] { 0, 1 }.Where(i => (i == 0 ? within : between) is null)];
            var end = NewtonSearch.Minimise((x, gradient) =>
            {
                double[] sd = [within ?? 0, between ?? 0];
                for (var i = 0; i < free.Length; i++) sd[free[i]] = x[i];
                if (_likelihood.At(One(sd[0] * sd[0]), One(sd[1] * sd[1]), null, mean is { } m ? One(m) : null) is not { } point)
                    return double.PositiveInfinity;
                for (var i = 0; i < free.Length; i++) gradient[i] = 2 * sd[free[i]] * (free[i] == 0 ? point.Within : point.Between)[0, 0];
                return point.Deviance;
            }, [.. free.Select(i => _start[i])], [.. free.Select(i => Scale[i])]);
            return end.Converged ? end : null;
        }

        private static Matrix<double> One(double value) => Matrix<double>.Build.Dense(1, 1, value);
    }
}
