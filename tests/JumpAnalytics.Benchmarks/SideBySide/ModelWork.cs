using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Benchmarks;

/// <summary>Fits of models to many landings.</summary>
internal static class ModelWork
{
    private const int Stick = 5;

    /// <summary>Of a log-likelihood of some −50,000: 1e-4.</summary>
    public const double PoolingTolerance = 2e-9;

    public static Func<IReadOnlyDictionary<string, double>> PreparePooling(string folder, int size)
    {
        var random = new Random(3);
        var counts = new List<PooledCount>();
        var rows = new List<double>();
        string[] bands = ["0-5", "10-15", "5-10"], terrains = ["meadow", "ridge", "sage", "timber"];
        for (var mission = 0; mission < size / Stick; mission++)
        {
            var (band, terrain) = (random.Next(bands.Length), random.Next(terrains.Length));
            var chance = 1 / (1 + Math.Exp(-(1.5 - 0.3 * band - 0.2 * terrain + 0.8 * Normal.Sample(random, 0, 1))));
            var hits = Enumerable.Range(0, Stick).Count(_ => random.NextDouble() < chance);
            counts.Add(new PooledCount($"m{mission}", bands[band], terrains[terrain], hits, Stick));
            rows.AddRange([mission, band, terrain, hits, Stick]);
        }
        Comparisons.WriteDoubles(Path.Combine(folder, "pooling.f64"), [.. rows]);
        return () =>
        {
            var fit = PooledRates.Of(counts, new PoolingOptions { CellEffect = false, Nodes = 1 }).Value!;
            return new Dictionary<string, double> { ["log_likelihood"] = fit.LogLikelihood };
        };
    }

    public static Func<IReadOnlyDictionary<string, double>> PrepareLevels(string folder, int size)
    {
        var random = new Random(5);
        var (readings, rows) = (new List<PlaneReading>(), new List<double>());
        for (var mission = 0; mission < size / Stick; mission++)
        {
            var (x, y) = (Normal.Sample(random, 3, 20), Normal.Sample(random, -2, 15));
            for (var j = 0; j < Stick; j++)
            {
                var miss = new PlaneVector(x + Normal.Sample(random, 0, 12), y + Normal.Sample(random, 0, 10));
                readings.Add(new PlaneReading($"m{mission}", miss));
                rows.AddRange([mission, miss.Along, miss.Across]);
            }
        }
        Comparisons.WriteDoubles(Path.Combine(folder, "levels.f64"), [.. rows]);
        return () =>
        {
            var fit = TwoLevelModel.FitTo(PlaneSample.Of(readings)).Value!;
            return new Dictionary<string, double>
            {
                ["between_downwind"] = fit.Between.Value.VarianceAlong, ["within_downwind"] = fit.Within.Value.VarianceAlong,
                ["between_right"] = fit.Between.Value.VarianceAcross, ["within_right"] = fit.Within.Value.VarianceAcross,
            };
        };
    }

    public static Func<IReadOnlyDictionary<string, double>> PrepareT(string folder, int size)
    {
        var random = new Random(9);
        var truth = new BivariateT(new BivariateNormal(4, -3, 400, 225, 90), 5);
        var misses = Enumerable.Range(0, size).Select(_ => truth.Draw(random)).ToArray();
        Comparisons.WriteDoubles(Path.Combine(folder, "t.f64"), [.. misses.SelectMany(m => new[] { m.Along, m.Across })]);
        var sample = PlaneSample.Of(misses);
        return () =>
        {
            var core = BivariateT.FitTo(sample, 5).Value!.Model.Core;
            return new Dictionary<string, double>
            {
                ["center1"] = core.MeanAlong, ["center2"] = core.MeanAcross, ["scatter11"] = core.VarianceAlong,
                ["scatter22"] = core.VarianceAcross, ["scatter12"] = core.Covariance,
            };
        };
    }
}
