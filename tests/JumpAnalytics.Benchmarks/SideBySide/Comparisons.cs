namespace JumpAnalytics.Benchmarks;

/// <summary>The pieces of work that are compared; every input is made from a seed.</summary>
internal static class Comparisons
{
    public static IReadOnlyList<Comparison> All { get; } =
    [
        new("log", "read, check and reduce a log to rates by cell", 1_000_000, LogWork.Prepare,
            new Peer("log.R", ["data.table"], 2, 1e-9), new Peer("log.py", ["numpy", "pandas"], 5, 1e-9)),
        new("discs", "probabilities of offset normals in circles", 1_000_000, DiscWork.Prepare,
            new Peer("discs.py", ["numpy", "scipy"], 2000, 1e-9)),
        new("discs-equal", "the same with equal variances", 1_000_000, DiscWork.PrepareEqual,
            new Peer("discs_equal.py", ["numpy", "scipy"], 2, 1e-9)),
        new("bootstrap", "10,000 resamples of missions: rates and R90 of 12 cells", 5000, BootstrapWork.Prepare,
            new Peer("bootstrap.py", ["numpy"], 5, BootstrapWork.Tolerance),
            new Peer("bootstrap.R", ["boot"], 20, BootstrapWork.Tolerance)),
        new("pooling", "logistic mixed model: bands, terrains, a random mission effect", 100_000, ModelWork.PreparePooling,
            new Peer("pooling.R", ["lme4"], 50, ModelWork.PoolingTolerance)),
        new("levels", "two-level bivariate REML", 100_000, ModelWork.PrepareLevels, new Peer("levels.R", ["lme4"], 5, 1e-4)),
        new("t", "bivariate t with five degrees of freedom", 1_000_000, ModelWork.PrepareT, new Peer("t.R", ["MASS"], 5, 1e-6)),
        new("drift", "forecasts simulated through 30 layers", 1_000_000, DriftWork.Prepare, new Peer("drift.py", ["numpy"], 5, 0.01)),
    ];

    /// <summary>Writes doubles as they are in memory.</summary>
    public static void WriteDoubles(string file, double[] values) =>
        File.WriteAllBytes(file, System.Runtime.InteropServices.MemoryMarshal.AsBytes<double>(values).ToArray());
}
