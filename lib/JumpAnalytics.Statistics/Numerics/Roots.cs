using MathNet.Numerics.RootFinding;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Where something changes between two ends. A smooth function's root is found by Brent's method of the numerical library; where a
/// condition ends, which may be all that is known of a function with steps, noise or a value of any size, is found by halving: the
/// library's searches need a function, and stop where its value is below their accuracy in whatever unit it has.
/// </summary>
internal static class Roots
{
    private const int MostTrials = 200;

    /// <summary>
    /// The root of a smooth function of the order of one, with a change of sign from one end to the other; null where none is found.
    /// </summary>
    /// <param name="function">The function.</param>
    /// <param name="low">Lower end.</param>
    /// <param name="high">Upper end.</param>
    /// <param name="accuracy">Of the root, and of the function's value.</param>
    public static double? Of(Func<double, double> function, double low, double high, double accuracy) =>
        Brent.TryFindRoot(function, low, high, accuracy, MostTrials, out var root) ? root : null;

    /// <summary>Where a condition ends that holds at one place and not at another: the two, brought together.</summary>
    /// <param name="holds">The condition; it changes once.</param>
    /// <param name="inside">Where it holds.</param>
    /// <param name="outside">Where it does not; above or below.</param>
    /// <param name="apart">How far apart the two may stay; at 0 they are neighbouring numbers.</param>
    public static (double Inside, double Outside) End(Func<double, bool> holds, double inside, double outside, double apart = 0)
    {
        for (var step = 0; step < MostTrials && Math.Abs(outside - inside) > apart; step++)
        {
            var middle = 0.5 * (inside + outside);
            if (middle == inside || middle == outside) break;
            if (holds(middle)) inside = middle;
            else outside = middle;
        }
        return (inside, outside);
    }

    /// <summary>The middle of the two places between which a condition ends.</summary>
    /// <param name="holds">The condition; it changes once.</param>
    /// <param name="inside">Where it holds.</param>
    /// <param name="outside">Where it does not; above or below.</param>
    public static double Middle(Func<double, bool> holds, double inside, double outside)
    {
        var (last, first) = End(holds, inside, outside);
        return last + (first - last) / 2;
    }

    /// <summary>The same for whole numbers, the condition holding at the lower one.</summary>
    /// <param name="holds">The condition; it changes once.</param>
    /// <param name="inside">Where it holds, or one below the least that is asked of.</param>
    /// <param name="outside">Where it does not; above.</param>
    /// <param name="apart">How far apart the two may stay, given the upper one; neighbours when left out.</param>
    /// <returns>The upper of the two: when neighbours, the least number at which the condition does not hold.</returns>
    public static int First(Func<int, bool> holds, int inside, int outside, Func<int, int>? apart = null)
    {
        while (outside - inside > (apart?.Invoke(outside) ?? 1))
        {
            var middle = (inside + outside) / 2;
            if (holds(middle)) inside = middle;
            else outside = middle;
        }
        return outside;
    }
}
