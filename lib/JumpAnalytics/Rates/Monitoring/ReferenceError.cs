namespace JumpAnalytics;

/// <summary>
/// What a reference of finite length does to a chance: mean and spread of its scores are estimates. The chance is averaged over their
/// errors, normal for the mean (a reference of n missions: standard deviation 1/√n of a mission's) and chi on f degrees for the spread (by
/// Wilson and Hilferty 1931, Proceedings of the National Academy of Sciences 17:684-688), by Gauss-Hermite quadrature.
/// </summary>
internal static class ReferenceError
{
    private static readonly (double Place, double Weight)[] _shifts = Rule(9), _spreads = Rule(5);

    /// <summary>Mean of a chance over the errors of a reference of so many missions.</summary>
    /// <param name="missions">Missions of the reference, ten or more.</param>
    /// <param name="axes">Coordinates of a score, 1 or 2.</param>
    /// <param name="chance">
    /// The chance, given the length of the error of the mean and the ratio of the true spread to the estimated one.
    /// </param>
    public static double Mean(int missions, int axes, Func<double, double, double> chance)
    {
        var error = 1 / Math.Sqrt(missions);
        var ninth = 2.0 / (9 * axes * (missions - 1));
        // Only the length of the error counts; of two axes it is that of two independent ones.
        var shifts = axes == 2 ? _lengths
            : _shifts.Where(s => s.Place > -1e-9).Select(s => (s.Place, Weight: s.Place > 1e-9 ? 2 * s.Weight : s.Weight));
        return shifts.SelectMany(s => _spreads, (s, v) => (s, v))
            .Sum(p => p.s.Weight * p.v.Weight * chance(error * p.s.Place, Math.Pow(1 - ninth - Math.Sqrt(ninth) * p.v.Place, -1.5)));
    }

    /// <summary>Mean of a chance over a normal error of one level.</summary>
    /// <param name="error">Standard error of the level.</param>
    /// <param name="chance">The chance, given the error.</param>
    public static double Mean(double error, Func<double, double> chance) => _shifts.Sum(s => s.Weight * chance(error * s.Place));

    private static (double, double)[] Rule(int nodes) =>
        GaussHermite.Of(nodes) is var rule ? [.. rule.Nodes.Zip(rule.LogWeights, (z, w) => (z, Math.Exp(w)))] : [];

    // Gauss-Laguerre for half the squared length, four nodes (Abramowitz and Stegun 1964, table 25.9).
    private static readonly (double Place, double Weight)[] _lengths =
    [
        .. new[] { (0.322547689619, 0.603154104342), (1.745761101158, 0.357418692438), (4.536620296921, 0.0388879085150),
            (9.395070912301, 0.000539294705561) }.Select(n => (Math.Sqrt(2 * n.Item1), n.Item2)),
    ];
}
