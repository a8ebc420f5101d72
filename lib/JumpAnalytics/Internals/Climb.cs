using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Internals;

/// <summary>Where a climb to the top of a smooth function ended.</summary>
/// <param name="At">The place.</param>
/// <param name="Value">The function there.</param>
/// <param name="Converged">Whether no more than a negligible rise is left.</param>
internal sealed record Summit(double[] At, double Value, bool Converged);

/// <summary>Maximises a smooth function of a few parameters of the order of one, by Newton steps from numerical derivatives.</summary>
internal static class Climb
{
    /// <summary>Spacing of the differences: truncation 1e-8 of the curvature, rounding below that for sums of up to a million terms.</summary>
    private const double Step = 1e-4;

    /// <summary>A rise of the function below this is nothing: it is a logarithm of a likelihood.</summary>
    private const double Negligible = 1e-10;

    private const int MostSteps = 200;

    /// <summary>Climbs from a start. A value that is no finite number marks a place outside the parameter space.</summary>
    public static Summit To(Func<double[], double> function, double[] start)
    {
        var (at, value) = ((double[])start.Clone(), function(start));
        if (!double.IsFinite(value)) return new Summit(at, value, false);
        for (var step = 0; step < MostSteps; step++)
        {
            var (gradient, curvature) = Slopes(function, at, value);
            if (gradient is null || curvature is null) return new Summit(at, value, false);
            var (direction, concave) = Uphill(gradient, curvature);
            var rise = Dot(gradient, direction) / 2;
            if (concave && rise < Negligible) return Settled(function, at, value, curvature);
            var (next, higher) = Along(function, at, value, direction);
            if (higher - value <= 0) return new Summit(at, value, concave && rise < Negligible * 1e3 * Math.Max(1, Math.Abs(value) * 1e-6));
            (at, value) = (next, higher);
        }
        return new Summit(at, value, false);
    }

    /// <summary>
    /// The place to its last digits, which add nothing to the function: a rise of r is about √(2 r) standard errors off, and the slope
    /// by plain differences is off by what the function's third derivative adds. One more Newton step, with a slope of the fourth order.
    /// </summary>
    private static Summit Settled(Func<double[], double> function, double[] at, double value, Matrix<double> curvature)
    {
        const double Wide = 1e-3;
        var slope = Vector<double>.Build.Dense(at.Length, i => (8 * (Off(i, Wide) - Off(i, -Wide)) - Off(i, 2 * Wide) + Off(i, -2 * Wide)) / (12 * Wide));
        var next = at.Zip(curvature.Solve(slope), (x, step) => x - step).ToArray();
        var there = next.All(double.IsFinite) ? function(next) : double.NaN;
        return there > value - Negligible ? new Summit(next, there, true) : new Summit(at, value, true);

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
            var (up, down) = (Off(i, Step), Off(i, -Step));
            gradient[i] = (up - down) / (2 * Step);
            curvature[i, i] = (up - 2 * value + down) / (Step * Step);
            for (var j = 0; j < i; j++)
            {
                curvature[i, j] = curvature[j, i] =
                    (Off2(i, Step, j, Step) - Off2(i, Step, j, -Step) - Off2(i, -Step, j, Step) + Off2(i, -Step, j, -Step)) / (4 * Step * Step);
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

    /// <summary>The Newton direction, each axis of the curvature that is not downhill turned over, so that it always climbs.</summary>
    private static (double[] Direction, bool Concave) Uphill(double[] gradient, Matrix<double> curvature)
    {
        var axes = curvature.Evd(Symmetricity.Symmetric);
        var (values, vectors) = (axes.EigenValues, axes.EigenVectors);
        var largest = values.Max(v => Math.Abs(v.Real));
        var direction = new double[gradient.Length];
        var concave = true;
        for (var k = 0; k < gradient.Length; k++)
        {
            concave &= values[k].Real < -1e-9 * largest;
            var along = 0.0;
            for (var i = 0; i < gradient.Length; i++) along += vectors[i, k] * gradient[i];
            along /= Math.Max(Math.Abs(values[k].Real), Math.Max(1e-9 * largest, 1e-6 * Math.Abs(along)) + double.Epsilon); // a flat axis: far, but not for ever
            for (var i = 0; i < gradient.Length; i++) direction[i] += vectors[i, k] * along;
        }
        return (direction, concave);
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
