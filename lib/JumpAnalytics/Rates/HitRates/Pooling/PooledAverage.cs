using MathNet.Numerics.LinearAlgebra;
namespace JumpAnalytics;

/// <summary>
/// The rates of the cells averaged over what the landings leave open about the spread between cells, which with a dozen cells is much: the
/// likeliest spread is often zero, and rates that took it for certain would look far surer than they are.
/// </summary>
/// <remarks>
/// The model is fitted for a row of spreads, each weighted by its likelihood with all else integrated out (Laplace), times a half-normal
/// density of standard deviation <see cref="PriorSd"/>, which keeps a few cells from allowing any spread. Each fit gives a normal for the
/// log-odds of a cell; their mixture has the median and the limits that are reported.
/// </remarks>
internal sealed class PooledAverage
{
    /// <summary>Standard deviation of the half-normal density of the spread between cells, log-odds.</summary>
    public const double PriorSd = 1;

    private const double Negligible = 8; // of the log weight
    private const int MostFits = 60;

    private readonly List<(double Weight, PooledComponent Fit)> _parts;

    private PooledAverage(List<(double Weight, PooledComponent Fit)> parts) => _parts = parts;

    /// <summary>A single fit, for a model without cell effects.</summary>
    public static PooledAverage Of(PooledComponent only) => new([(1, only)]);

    /// <summary>The average over the spread between cells.</summary>
    /// <param name="likelihood">The likelihood.</param>
    /// <param name="at">Its top, with the likeliest spread.</param>
    public static PooledAverage? Over(PooledLikelihood likelihood, double[] at)
    {
        var likeliest = likelihood.CellSd(at);
        if (Fitted(likelihood, likeliest, at[..(at.Length - (likelihood.Spreads.CellFree ? 1 : 0))], null) is not { } centre) return null;

        // A spacing over which the weight falls a little.
        var spacing = 0.25;
        for (var trial = 0; trial < 10; trial++)
        {
            var fall = centre.LogWeight - (Fitted(likelihood, likeliest + spacing, centre.At, centre.Curvature)?.LogWeight
                ?? double.NegativeInfinity);
            if (fall > 1) spacing /= 2;
            else if (fall < 0.1) spacing *= 2;
            else break;
        }

        var (found, top) = (new SortedList<int, PooledComponent>(), double.NegativeInfinity);
        var middle = (int)Math.Round(likeliest / spacing);
        for (var (j, near) = (middle, centre); found.Count < MostFits && Take(j, ref near); j++) { }
        for (var (j, near) = (middle - 1, centre); j >= 0 && Take(j, ref near); j--) { }
        if (found.Count == 0) return null;
        var weights = found.Select(f => Math.Exp(f.Value.LogWeight - top) * (f.Key == 0 ? 0.5 : 1)).ToArray();
        return new PooledAverage([.. found.Values.Select((f, i) => (weights[i] / weights.Sum(), f))]);

        bool Take(int j, ref PooledComponent near)
        {
            if (Fitted(likelihood, j * spacing, near.At, near.Curvature) is not { } part) return false;
            found.Add(j, near = part);
            top = Math.Max(top, part.LogWeight);
            return part.LogWeight > top - Negligible;
        }
    }

    /// <summary>The rate of a cell on a mission not yet flown, with its interval.</summary>
    public Estimate Rate(int cell, double confidence) => Chances([.. _parts.Select(p => (p.Weight, p.Fit.Cells[cell]))], confidence);

    /// <summary>The same without the effect of the cell.</summary>
    public Estimate ModelRate(int cell, double confidence) => Chances([.. _parts.Select(p => (p.Weight, p.Fit.Models[cell]))], confidence);

    /// <summary>
    /// The weight of the model against the landings of the cell; rounding, and too few nodes, may carry it beyond 1 by a hair.
    /// </summary>
    public double Pull(int cell) => Math.Min(1, _parts.Sum(p => p.Weight * p.Fit.Pull[cell]));

    private static Estimate Chances((double Weight, NormalFigure LogOdds)[] mixture, double confidence) =>
        Estimate.Of(Chance(mixture, 0.5), new Interval(Chance(mixture, (1 - confidence) / 2), Chance(mixture, (1 + confidence) / 2)));

    /// <summary>The chance whose log-odds are a quantile of a mixture of normals.</summary>
    private static double Chance((double Weight, NormalFigure LogOdds)[] mixture, double share)
    {
        var z = QuantileOf.Normal(TailShare.Below(share));
        var ends = mixture.Select(m => m.LogOdds.Mean + z * Math.Sqrt(m.LogOdds.Variance)).ToArray();
        var (low, high) = (ends.Min(), ends.Max()); // the quantile of a mixture lies between those of its parts
        var logOdds = high - low < 1e-9 ? low : Roots.Of(Excess, low - 1e-6, high + 1e-6, 1e-10)
            ?? throw new InvalidOperationException($"No log-odds between {low} and {high} hold a share of {share} below.");
        return Kernels.Logistic(logOdds);

        double Excess(double x) =>
            mixture.Sum(m => m.Weight * NormalInterval.Below((x - m.LogOdds.Mean) / Math.Sqrt(m.LogOdds.Variance))) - share;
    }

    private static PooledComponent? Fitted(PooledLikelihood likelihood, double cellSd, double[] start, Matrix<double>? curvature)
    {
        var given = likelihood.With(likelihood.Spreads with { CellSd = cellSd, CellFree = false });
        var top = SlopeClimb.To(given.At, start, curvature);
        return top.Converged && PooledComponent.Of(given, top.At) is { } part
            ? part with { LogWeight = part.LogWeight - cellSd * cellSd / (2 * PriorSd * PriorSd) } : null;
    }
}
