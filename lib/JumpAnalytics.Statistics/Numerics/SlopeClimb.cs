using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>A function at a place, with its slope there.</summary>
internal readonly record struct Sloped(double Value, double[] Slope)
{
    public bool IsFinite => double.IsFinite(Value) && Slope.All(double.IsFinite);
}

/// <summary>
/// Maximises a smooth function that knows its slope, by Newton steps with the curvature taken from differences of slopes.
/// </summary>
internal static class SlopeClimb
{
    /// <summary>Spacing of the differences.</summary>
    public const double Spacing = 1e-4;

    /// <summary>A rise below this is left to one last step, which squares what is missing.</summary>
    private const double Near = 1e-9;

    private const int MostSteps = 100;

    /// <summary>Climbs from a start.</summary>
    /// <param name="function">The function.</param>
    /// <param name="start">Where to begin.</param>
    /// <param name="curvature">The curvature thereabouts, if it is known; it is used as long as it serves.</param>
    public static Summit To(Func<double[], Sloped> function, double[] start, Matrix<double>? curvature = null)
    {
        var (at, here, before, fresh) = ((double[])start.Clone(), function(start), double.PositiveInfinity, false);
        for (var step = 0; step < MostSteps && here.IsFinite; step++)
        {
            if (curvature is null)
            {
                if (Curvature(function, at, here) is not { } measured) break;
                (curvature, fresh) = (measured, true);
            }
            var (direction, concave, _) = Climb.Uphill(here.Slope, curvature);
            var rise = here.Slope.Zip(direction, (s, d) => s * d).Sum() / 2;
            var next = concave || fresh ? Along(function, at, here, direction, rise) : null;
            if (next is not { } found)
            {
                if (fresh) break;
                curvature = null;
                continue;
            }
            (at, here) = found;
            if (concave && rise < (fresh ? Near : Near * Near)) return new Summit(at, here.Value, true);
            if (rise > before / 100) curvature = null;
            (before, fresh) = (rise, false);
        }
        return new Summit(at, here.Value, false);
    }

    /// <summary>
    /// Curvature at a place by central differences of the slope; null where the function ends within them. The function is asked at one
    /// <see cref="Spacing"/> above and below on each axis in turn, so that a caller may note down other things on the way.
    /// </summary>
    public static Matrix<double>? Curvature(Func<double[], Sloped> function, double[] at)
    {
        var curvature = Matrix<double>.Build.Dense(at.Length, at.Length);
        for (var i = 0; i < at.Length; i++)
        {
            var (up, down) = (function(Moved(at, i, Spacing)), function(Moved(at, i, -Spacing)));
            if (!up.IsFinite || !down.IsFinite) return null;
            for (var j = 0; j < at.Length; j++) curvature[i, j] = (up.Slope[j] - down.Slope[j]) / (2 * Spacing);
        }
        return (curvature + curvature.Transpose()) / 2;
    }

    private static Matrix<double>? Curvature(Func<double[], Sloped> function, double[] at, Sloped here)
    {
        var curvature = Matrix<double>.Build.Dense(at.Length, at.Length);
        for (var i = 0; i < at.Length; i++)
        {
            var up = function(Moved(at, i, Spacing));
            if (!up.IsFinite) return null;
            for (var j = 0; j < at.Length; j++) curvature[i, j] = (up.Slope[j] - here.Slope[j]) / Spacing;
        }
        return (curvature + curvature.Transpose()) / 2;
    }

    private static (double[] At, Sloped Here)? Along(Func<double[], Sloped> function, double[] at,
        Sloped here, double[] direction, double rise)
    {
        var slack = 1e-11 * (1 + Math.Abs(here.Value)); // sums of many terms are no surer than that
        for (var share = 1 / Math.Max(1, direction.Max(Math.Abs) / 2); share > 1e-8; share /= 3)
        {
            var next = at.Select((x, i) => x + share * direction[i]).ToArray();
            var there = function(next);
            if (there.IsFinite && (there.Value > here.Value || (rise < 1e3 * slack && there.Value > here.Value - slack)))
                return (next, there);
        }
        return null;
    }

    private static double[] Moved(double[] at, int axis, double step)
    {
        var moved = (double[])at.Clone();
        moved[axis] += step;
        return moved;
    }
}
