using MathNet.Numerics.Random;

namespace JumpAnalytics.Statistics;

/// <summary>
/// The distribution of a test's statistic when the fitted model is right and its parameters are estimated: samples drawn from the model,
/// each fitted and measured as the data were (Stute, González Manteiga and Presedo Quindimil 1993, Metrika 40:243-256).
/// </summary>
internal sealed class ParametricBootstrap
{
    /// <summary>Share of the samples that must be measured.</summary>
    private const double LeastUsable = 0.95;

    private readonly double[] _sorted;
    private readonly int _replicates;
    private readonly int _seed;

    private ParametricBootstrap(double[] sorted, int replicates, int seed) => (_sorted, _replicates, _seed) = (sorted, replicates, seed);

    /// <summary>Draws the distribution. Each sample has a stream of its own, so that the number of threads does not matter.</summary>
    /// <param name="replicates">Number of samples.</param>
    /// <param name="seed">Seed of the streams.</param>
    /// <param name="purpose">Names the streams.</param>
    /// <param name="statistic">
    /// Draws a sample from the fitted model, fits it and measures it; null when it can't be fitted or measured.
    /// Called from several threads.
    /// </param>
    /// <returns>
    /// The distribution, or that too many of the samples could not be fitted: then its own fits are not to be trusted either.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">No replicates.</exception>
    public static Fit<ParametricBootstrap> Of(int replicates, int seed, string purpose, Func<RandomSource, double?> statistic)
    {
        Guard.AtLeast(replicates, 1);
        var values = new double[replicates];
        Parallel.For(0, replicates, b => values[b] = statistic(SeedStream.For(seed, $"{purpose} {b}")) ?? double.NaN);
        var sorted = values.Where(v => !double.IsNaN(v)).Order().ToArray();
        return sorted.Length >= LeastUsable * replicates
            ? Fit<ParametricBootstrap>.Made(new ParametricBootstrap(sorted, replicates, seed))
            : Fit<ParametricBootstrap>.Refused($"only {sorted.Length} of {replicates} samples drawn from the model could be fitted");
    }

    /// <summary>
    /// The test of a statistic, large when the fit is bad: p = (1 + number of samples with as large a one) / (1 + samples), which keeps the
    /// level at any number of samples (Davison and Hinkley 1997, Bootstrap Methods and their Application, section 4.2).
    /// </summary>
    /// <param name="name">What the test is called.</param>
    /// <param name="statistic">The statistic of the data.</param>
    /// <param name="points">Number of points it was measured on.</param>
    public FitTest Test(string name, double statistic, int points)
    {
        var below = Array.BinarySearch(_sorted, statistic);
        if (below < 0) below = ~below;
        while (below > 0 && _sorted[below - 1] == statistic) below--;
        var p = (1.0 + _sorted.Length - below) / (1.0 + _sorted.Length);
        var run = new BootstrapRun(_replicates, _replicates - _sorted.Length, _seed, Math.Sqrt(p * (1 - p) / (1.0 + _sorted.Length)));
        return new FitTest(name, statistic, p, points, $"parametric bootstrap, {_replicates:#,0} samples with seed {_seed}", run);
    }
}
