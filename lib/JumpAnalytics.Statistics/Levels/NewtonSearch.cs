using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace JumpAnalytics.Statistics;

/// <summary>Where a search for a least value ended.</summary>
/// <param name="Place">The point.</param>
/// <param name="Value">The value there.</param>
/// <param name="Hessian">Second derivatives there.</param>
/// <param name="Decrement">Twice the fall in value that a Newton step still promises: the squared distance to the least value in units
/// of its curvature.</param>
internal sealed record SearchEnd(double[] Place, double Value, Matrix<double> Hessian, double Decrement)
{
    /// <summary>Whether the slope has vanished: the end is within a millionth of a standard error of where it is zero.</summary>
    public bool Converged => Decrement <= 1e-12;
}

/// <summary>
/// Newton's method for a smooth function of a few numbers with an exact gradient. Second derivatives are central differences of
/// the gradient; where they are not positive the step goes downhill by their size; far from the end a step must lower the
/// value, near it the gradient.
/// </summary>
internal static class NewtonSearch
{
    /// <summary>A value and its gradient; an infinite value where there is none.</summary>
    public delegate double Objective(double[] point, double[] gradient);

    private const int MostSteps = 100;
    private const double Difference = 1e-4;

    // Of the value: a fall smaller than this is hard to see for rounding.
    private const double Near = 1e-13;

    // Of the decrement: what a gradient's rounding leaves.
    private const double Done = 1e-20;

    /// <summary>Searches from a point.</summary>
    /// <param name="objective">What to make small.</param>
    /// <param name="start">Where to begin; the value there must be finite.</param>
    /// <param name="scale">The least size of each number that matters.</param>
    public static SearchEnd Minimise(Objective objective, double[] start, double[] scale)
    {
        var x = start;
        var gradient = new double[x.Length];
        var value = objective(x, gradient);
        for (var step = 0; step < MostSteps; step++)
        {
            var curvature = HessianAt(objective, x, scale).Evd(Symmetricity.Symmetric);
            var (direction, decrement) = Direction(curvature, gradient);
            var moved = decrement < Near * Math.Max(1000, Math.Abs(value)) ? Close(objective, curvature, x, direction, decrement) : null;
            moved ??= decrement > Done ? Far(objective, x, value, gradient, direction, scale) : null;
            if (moved is not { } next) break;
            (x, value, gradient) = next;
        }
        var hessian = HessianAt(objective, x, scale);
        return new SearchEnd(x, value, hessian, Direction(hessian.Evd(Symmetricity.Symmetric), gradient).Decrement);
    }

    private static (double[] Direction, double Decrement) Direction(Evd<double> curvature, double[] gradient)
    {
        var direction = new double[gradient.Length];
        var floor = 1e-14 * curvature.EigenValues.Max(v => Math.Abs(v.Real));
        var decrement = 0.0;
        for (var k = 0; k < gradient.Length; k++)
        {
            var (vector, size) = (curvature.EigenVectors.Column(k), Math.Max(Math.Abs(curvature.EigenValues[k].Real), floor));
            var slope = vector.DotProduct(Vector<double>.Build.Dense(gradient));
            if (slope == 0) continue;
            decrement += slope * slope / size;
            for (var i = 0; i < direction.Length; i++) direction[i] -= slope / size * vector[i];
        }
        return (direction, decrement);
    }

    // A step that lowers the value by a part of what the slope promises, halved until it does.
    private static (double[], double, double[])? Far(Objective objective, double[] x, double value,
        double[] gradient, double[] direction, double[] scale)
    {
        var slope = 0.0;
        var length = 1.0;
        for (var i = 0; i < x.Length; i++)
        {
            slope += gradient[i] * direction[i];
            length = Math.Min(length, 2 * Math.Max(Math.Abs(x[i]), 10 * scale[i]) / Math.Max(Math.Abs(direction[i]), double.Epsilon));
        }
        for (; length > 1e-12; length /= 2)
        {
            var (point, slopes) = (Moved(x, direction, length), new double[x.Length]);
            var lower = objective(point, slopes);
            if (lower <= value + 1e-4 * length * slope) return (point, lower, slopes);
        }
        return null;
    }

    // Whole steps by one curvature, each kept if the gradient shrinks by it: the value itself no longer has the digits to tell.
    private static (double[], double, double[])? Close(Objective objective, Evd<double> curvature, double[] x,
        double[] direction, double decrement)
    {
        (double[], double, double[])? best = null;
        while (decrement > 0)
        {
            var (point, slopes) = (Moved(x, direction, 1), new double[x.Length]);
            var value = objective(point, slopes);
            var (following, left) = Direction(curvature, slopes);
            if (!double.IsFinite(value) || !(left < decrement / 4)) break;
            best = (point, value, slopes);
            (x, direction, decrement) = (point, following, left);
        }
        return best;
    }

    private static double[] Moved(double[] x, double[] direction, double length) => [.. x.Zip(direction, (a, d) => a + length * d)];

    private static Matrix<double> HessianAt(Objective objective, double[] x, double[] scale)
    {
        var hessian = Matrix<double>.Build.Dense(x.Length, x.Length);
        var (above, below) = (new double[x.Length], new double[x.Length]);
        for (var i = 0; i < x.Length; i++)
        {
            var h = Difference * Math.Max(Math.Abs(x[i]), scale[i]);
            var point = x.ToArray();
            point[i] = x[i] + h;
            objective(point, above);
            point[i] = x[i] - h;
            objective(point, below);
            for (var j = 0; j < x.Length; j++) hessian[i, j] = (above[j] - below[j]) / (2 * h);
        }
        return (hessian + hessian.Transpose()) / 2;
    }
}
