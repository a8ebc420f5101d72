namespace JumpAnalytics.Statistics;

/// <summary>The mean of a success probability whose log-odds are normal: the chance of a success in a cluster not yet seen.</summary>
/// <remarks>
/// Trapezoidal sum over the normal, which for a function without poles near the real line errs by exp(−2π²/(sd · step)): here below
/// 1e-16 for any spread, where a fixed number of Gauss-Hermite nodes fails for wide ones.
/// </remarks>
internal static class LogisticNormal
{
    private const double Tail = 8.5; // beyond it lies less than 2e-17
    private const double Step = 0.5;

    /// <summary>Mean probability, the mean of its complement (exact near 1), and the mean slope of the probability in the level.</summary>
    /// <param name="level">Mean of the log-odds.</param>
    /// <param name="sd">Their standard deviation, zero or more.</param>
    public static (double Success, double Place, double Slope) Mean(double level, double sd)
    {
        var points = (int)Math.Ceiling(Tail / Step * Math.Max(1, sd));
        var step = Tail / points;
        var (success, point, slope) = (0.0, 0.0, 0.0);
        for (var i = -points; i <= points; i++)
        {
            var z = i * step;
            var weight = step * NormalInterval.InverseSqrt2Pi * Math.Exp(-z * z / 2);
            var odds = Math.Exp(-Math.Abs(level + sd * z));
            var (rare, common) = (odds / (1 + odds), 1 / (1 + odds));
            var high = level + sd * z > 0;
            success += weight * (high ? common : rare);
            point += weight * (high ? rare : common);
            slope += weight * rare * common;
        }
        return (success, point, slope);
    }

    /// <summary>Log-odds of the mean probability, and their slope in the level.</summary>
    public static (double LogOdds, double Slope) Marginal(double level, double sd)
    {
        var (success, point, slope) = Mean(level, sd);
        return (Math.Log(success / point), slope / (success * point));
    }
}
