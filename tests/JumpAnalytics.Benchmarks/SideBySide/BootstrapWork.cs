namespace JumpAnalytics.Benchmarks;

/// <summary>Rates and R90 of twelve cells under one set of resamples of missions.</summary>
internal static class BootstrapWork
{
    private const int Cells = 12, Replicates = 10_000, Stick = 4;

    /// <summary>
    /// Standard deviations of 10,000 resamples each differ by 1 % of themselves by chance; five of those for 24 figures:
    /// a false alarm in 1 of 70,000.
    /// </summary>
    public const double Tolerance = 0.05;

    public static Func<IReadOnlyDictionary<string, double>> Prepare(string folder, int size)
    {
        var random = new Random(11);
        var rows = new List<(int Mission, int Cell, double Distance, bool Hit)>();
        for (var mission = 0; rows.Count < size; mission++)
        {
            var (cell, shared) = (mission % Cells, 15 * random.NextDouble());
            for (var j = 0; j < Stick && rows.Count < size; j++)
            {
                var distance = shared + -18 * Math.Log(1 - random.NextDouble());
                rows.Add((mission, cell, distance, distance <= 45));
            }
        }
        Comparisons.WriteDoubles(Path.Combine(folder, "bootstrap.f64"),
            [.. rows.SelectMany(r => new[] { r.Mission, r.Cell, r.Distance, r.Hit ? 1 : 0 })]);
        var missions = rows[^1].Mission + 1;
        var figures = Enumerable.Range(0, Cells).Select(c => Rate([.. rows.Where(r => r.Cell == c)]))
            .Concat(Enumerable.Range(0, Cells).Select(c => R90([.. rows.Where(r => r.Cell == c)]))).ToList();
        return () =>
        {
            var made = ClusterBootstrap.OfMany(missions, figures, new ResampleOptions { Replicates = Replicates, Seed = 1 });
            return made.Select((b, i) => ($"{(i < Cells ? "rate" : "r90")}_sd_{i % Cells}", b.Value!.StandardError!.Value))
                .ToDictionary(x => x.Item1, x => x.Item2);
        };
    }

    private static Func<int[], double?> Rate((int Mission, int Cell, double Distance, bool Hit)[] rows)
    {
        var (missions, hits) = (rows.Select(r => r.Mission).ToArray(), rows.Select(r => r.Hit ? 1 : 0).ToArray());
        return draws =>
        {
            var (n, inside) = (0L, 0L);
            for (var i = 0; i < missions.Length; i++)
            {
                var times = draws[missions[i]];
                n += times;
                inside += times * hits[i];
            }
            return n == 0 ? null : (double)inside / n;
        };
    }

    private static Func<int[], double?> R90((int Mission, int Cell, double Distance, bool Hit)[] rows)
    {
        (int Mission, double Distance)[] sorted = [.. rows.OrderBy(r => r.Distance).Select(r => (r.Mission, r.Distance))];
        return draws => DrawnQuantile.Of(sorted, draws, 0.9);
    }
}
