namespace JumpAnalytics.Statistics;

/// <summary>
/// The likeliest effect of each cluster for given levels of the cells, and what follows from it. Log-odds of a success are the level of the
/// cell plus sd times the cluster's effect, which is standard normal.
/// </summary>
internal sealed class ClusterModes(ClusterPatterns data)
{
    private const int MostSteps = 200;

    /// <summary>The mode of each pattern's effect, in units of the sd.</summary>
    public double[] Mode { get; } = new double[data.Count];

    /// <summary>Its variance about the mode, the levels known, in units of the sd: 1 / (1 + sd² Σ weight).</summary>
    public double[] Variance { get; } = new double[data.Count];

    /// <summary>Expected successes of each group at the mode.</summary>
    public double[] Expected { get; } = new double[data.Cell.Length];

    /// <summary>Binomial variance of each group at the mode.</summary>
    public double[] Weight { get; } = new double[data.Cell.Length];

    /// <summary>Logarithm of the density of points and effects at the modes, without constants.</summary>
    public double Density { get; private set; }

    /// <summary>Sum of the logarithms of the variances.</summary>
    public double LogVariance { get; private set; }

    /// <summary>Finds the modes; they start from those found last.</summary>
    public void Find(ReadOnlySpan<double> levels, double sd)
    {
        var (density, logVariance) = (0.0, 0.0);
        for (var p = 0; p < data.Count; p++)
        {
            if (sd == 0) Mode[p] = 0;
            else Climb(p, levels, sd);
            var (u, weights, terms) = (Mode[p], 0.0, 0.0);
            for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
            {
                var eta = levels[data.Cell[g]] + sd * u;
                var odds = Math.Exp(-Math.Abs(eta));
                var n = data.Points[g];
                Expected[g] = n * (eta > 0 ? 1 : odds) / (1 + odds);
                Weight[g] = n * odds / ((1 + odds) * (1 + odds));
                weights += Weight[g];
                terms += data.Successes[g] * eta - n * (Math.Max(eta, 0) + Math.Log(1 + odds));
            }
            Variance[p] = 1 / (1 + sd * sd * weights);
            density += data.Times[p] * (terms - u * u / 2);
            logVariance += data.Times[p] * Math.Log(Variance[p]);
        }
        (Density, LogVariance) = (density, logVariance);
    }

    /// <summary>
    /// Mode and variance of each pattern's effect, log-odds: its own with the levels known, and what an uncertainty of the
    /// levels adds through the mode.
    /// </summary>
    public (double Mode, double Variance)[] Effects(double sd, double[] covariance)
    {
        var effects = new (double, double)[data.Count];
        for (var p = 0; p < data.Count; p++)
        {
            var variance = sd * sd * Variance[p];
            effects[p] = (sd * Mode[p], variance + variance * variance * Shared(p, covariance));
        }
        return effects;
    }

    /// <summary>Variance of the sum of levels, each times its weight, over the groups of a pattern.</summary>
    public double Shared(int p, double[] covariance)
    {
        var sum = 0.0;
        for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
        {
            for (var h = data.Start[p]; h < data.Start[p + 1]; h++)
                sum += Weight[g] * Weight[h] * covariance[data.Cell[g] * data.Cells + data.Cell[h]];
        }
        return sum;
    }

    /// <summary>
    /// Newton's method, with bisection where it is slow: the slope falls from + to − between −sd · points and sd · successes.
    /// </summary>
    private void Climb(int p, ReadOnlySpan<double> levels, double sd)
    {
        var (low, high) = (0.0, 0.0);
        for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
        {
            low -= sd * (data.Points[g] - data.Successes[g]);
            high += sd * data.Successes[g];
        }
        var u = Math.Clamp(Mode[p], low, high);
        var last = high - low;
        for (var step = 0; step < MostSteps; step++)
        {
            var (slope, curvature) = (-u, 1.0);
            for (var g = data.Start[p]; g < data.Start[p + 1]; g++)
            {
                var eta = levels[data.Cell[g]] + sd * u;
                var odds = Math.Exp(-Math.Abs(eta));
                var n = data.Points[g];
                slope += sd * (data.Successes[g] - n * (eta > 0 ? 1 : odds) / (1 + odds));
                curvature += sd * sd * n * odds / ((1 + odds) * (1 + odds));
            }
            if (slope > 0) low = u;
            else high = u;
            var move = slope / curvature;
            if (u + move < low || u + move > high || Math.Abs(move) > last / 2) move = (low + high) / 2 - u;
            last = Math.Abs(move);
            u += move;
            if (!(last > 1e-8 * (1 + Math.Abs(u)))) break; // the step taken squares what is left
        }
        Mode[p] = u;
    }
}
