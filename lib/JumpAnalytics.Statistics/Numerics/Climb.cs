using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>Where a climb to the top of a smooth function ended.</summary>
/// <param name="At">The place.</param>
/// <param name="Value">The function there.</param>
/// <param name="Converged">Whether no more than a negligible rise is left.</param>
internal sealed record Summit(double[] At, double Value, bool Converged);

/// <summary>Maximises a smooth function of a few parameters of the order of one, by Newton steps from numerical derivatives.</summary>
/// <remarks>
/// The searches differ in what they are given: values alone here, slopes in <see cref="SlopeClimb"/>, and in <see cref="NewtonSearch"/>
/// slopes with ends on the edge of what a covariance can be, where the gradient and not the value must fall. MathNet's minimisers throw
/// where a step leaves the domain and give back no curvature, which standard errors need.
/// </remarks>
internal static class Climb
{
    /// <summary>Spacing of first differences.</summary>
    private const double Step = 1e-4;

    /// <summary>
    /// Spacing of second differences: they truncate some 1e-6 of the curvature, and magnify an error of the function four million times.
    /// </summary>
    private const double Span = 5e-4;

    /// <summary>
    /// A rise of the function below this is nothing: it is a logarithm of a likelihood, a sum whose rounding grows with it.
    /// </summary>
    private static double Negligible(double value) => 1e-9 + 1e-14 * Math.Abs(value);

    private const int MostSteps = 200;

    /// <summary>
    /// Climbs from a start. A value that is no finite number marks a place outside the parameter space. Slopes and curvature at a place
    /// with its value are taken from a closed form where one is given.
    /// </summary>
    public static Summit To(
        Func<double[], double> function, double[] start,
        Func<double[], double, (double[]? Gradient, Matrix<double>? Curvature)>? slopes = null)
    {
        var exact = slopes is not null;
        slopes ??= (x, value) => Slopes(function, x, value);
        var (at, value) = ((double[])start.Clone(), function(start));
        if (!double.IsFinite(value)) return new Summit(at, value, false);
        for (var step = 0; step < MostSteps; step++)
        {
            var (gradient, curvature) = slopes(at, value);
            if (gradient is null || curvature is null || !gradient.All(double.IsFinite) || !double.IsFinite(curvature.FrobeniusNorm()))
                return new Summit(at, value, false);
            var (direction, concave, hollow) = Uphill(gradient, curvature);
            var rise = Dot(gradient, direction) / 2;
            if (concave && rise < Negligible(value))
                return exact ? Last(function, at, value, direction) : Settled(function, at, value, curvature);
            var (next, higher) = rise < Negligible(value) ? OffSaddle(function, at, value, hollow) : Along(function, at, value, direction);
            if (higher - value <= 0) return new Summit(at, value, concave && rise < 100 * Negligible(value));
            (at, value) = (next, higher);
        }
        return new Summit(at, value, false);
    }

    /// <summary>The top after one step more: its rise is lost in the rounding of the function, its place is not.</summary>
    private static Summit Last(Func<double[], double> function, double[] at, double value, double[] direction)
    {
        var next = at.Select((x, i) => x + direction[i]).ToArray();
        var last = function(next);
        return double.IsFinite(last) ? new Summit(next, last, true) : new Summit(at, value, true);
    }

    /// <summary>
    /// The place to its last digits, which add nothing to the function: a rise of r is about √(2 r) standard errors off, and the slope
    /// by plain differences is off by what the function's third derivative adds. One more Newton step, with a slope of the fourth order.
    /// </summary>
    private static Summit Settled(Func<double[], double> function, double[] at, double value, Matrix<double> curvature)
    {
        const double Wide = 1e-3;
        var slope = Vector<double>.Build.Dense(at.Length,
            i => (8 * (Off(i, Wide) - Off(i, -Wide)) - Off(i, 2 * Wide) + Off(i, -2 * Wide)) / (12 * Wide));
        var next = at.Zip(curvature.Solve(slope), (x, step) => x - step).ToArray();
        var there = next.All(double.IsFinite) ? function(next) : double.NaN;
        return there > value - Negligible(value) ? new Summit(next, there, true) : new Summit(at, value, true);

        double Off(int i, double h)
        {
            var x = (double[])at.Clone();
            x[i] += h;
            return function(x);
        }
    }

    /// <summary>Slope and curvature by central differences; null where the function ends within the differences.</summary>
    public static (double[]? Gradient, Matrix<double>? Curvature) Slopes(Func<double[], double> function, double[] at, double value)
    {
        var n = at.Length;
        var (gradient, curvature) = (new double[n], Matrix<double>.Build.Dense(n, n));
        for (var i = 0; i < n; i++)
        {
            gradient[i] = (Off(i, Step) - Off(i, -Step)) / (2 * Step);
            curvature[i, i] = (Off(i, Span) - 2 * value + Off(i, -Span)) / (Span * Span);
            for (var j = 0; j < i; j++)
            {
                curvature[i, j] = curvature[j, i] =
                    (Off2(i, Span, j, Span) - Off2(i, Span, j, -Span) - Off2(i, -Span, j, Span) + Off2(i, -Span, j, -Span))
                        / (4 * Span * Span);
            }
        }
        return gradient.All(double.IsFinite) && curvature.ForAll(double.IsFinite) ? (gradient, curvature) : (null, null);

        double Off(int i, double h)
        {
            var x = (double[])at.Clone();
            x[i] += h;
            return function(x);
        }

        double Off2(int i, double h, int j, double k)
        {
            var x = (double[])at.Clone();
            x[i] += h;
            x[j] += k;
            return function(x);
        }
    }

    /// <summary>
    /// The Newton direction, each axis of the curvature that is not downhill turned over, so that it always climbs; and the axis along
    /// which the function bends upwards most.
    /// </summary>
    internal static (double[] Direction, bool Concave, double[] Hollow) Uphill(double[] gradient, Matrix<double> curvature)
    {
        var axes = curvature.Evd(Symmetricity.Symmetric);
        var (values, vectors) = (axes.EigenValues, axes.EigenVectors);
        var largest = values.Max(v => Math.Abs(v.Real));
        var direction = new double[gradient.Length];
        var (concave, hollow) = (true, 0);
        for (var k = 0; k < gradient.Length; k++)
        {
            concave &= values[k].Real < -1e-9 * largest;
            if (values[k].Real > values[hollow].Real) hollow = k;
            var along = 0.0;
            for (var i = 0; i < gradient.Length; i++) along += vectors[i, k] * gradient[i];
            // a flat axis: far, but not for ever.
            along /= Math.Max(Math.Abs(values[k].Real), Math.Max(1e-9 * largest, 1e-6 * Math.Abs(along)) + double.Epsilon);
            for (var i = 0; i < gradient.Length; i++) direction[i] += vectors[i, k] * along;
        }
        return (direction, concave, vectors.Column(hollow).ToArray());
    }

    /// <summary>
    /// A step up from a place where the function is level, but no top: to either side along the axis that bends upwards most.
    /// </summary>
    private static (double[] At, double Value) OffSaddle(Func<double[], double> function, double[] at, double value, double[] axis)
    {
        foreach (var length in (ReadOnlySpan<double>)[0.3, 0.03, 0.003])
        {
            var (up, down) = (at.Select((x, i) => x + length * axis[i]).ToArray(), at.Select((x, i) => x - length * axis[i]).ToArray());
            var (one, other) = (function(up), function(down));
            if (one > value && !(other > one)) return (up, one);
            if (other > value) return (down, other);
        }
        return (at, value);
    }

    private static (double[] At, double Value) Along(Func<double[], double> function, double[] at, double value, double[] direction)
    {
        var longest = Math.Max(1, direction.Max(Math.Abs) / 2); // no step farther than two units on any axis
        for (var share = 1 / longest; share > 1e-8; share /= 3)
        {
            var next = at.Select((x, i) => x + share * direction[i]).ToArray();
            var higher = function(next);
            if (higher > value) return (next, higher);
        }
        return (at, value);
    }

    private static double Dot(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }
}
