namespace JumpAnalytics;

/// <summary>The cells of a set of counts and the fixed part of their log-odds, in contrasts to the first band and terrain.</summary>
/// <remarks>Columns that follow from earlier ones in the cells that have landings are left out, as R does.</remarks>
internal sealed class PooledDesign
{
    private PooledDesign(
        IReadOnlyList<Cell> cells, int observed, IReadOnlyList<string> names, IReadOnlyList<string> dropped,
        double[][] rows, bool[] estimable) =>
        (Cells, Observed, Names, Dropped, Rows, Estimable) = (cells, observed, names, dropped, rows, estimable);

    /// <summary>Every combination of band and terrain; those with landings first.</summary>
    public IReadOnlyList<Cell> Cells { get; }

    /// <summary>Number of cells with landings.</summary>
    public int Observed { get; }

    /// <summary>Names of the fixed effects.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>Names of those that the cells can't tell from others.</summary>
    public IReadOnlyList<string> Dropped { get; }

    /// <summary>The fixed effects in each cell.</summary>
    public double[][] Rows { get; }

    /// <summary>Whether the cells with landings determine the fixed part of each cell.</summary>
    public bool[] Estimable { get; }

    public static PooledDesign Of(IReadOnlyList<PooledCount> counts, bool interaction)
    {
        string[] bands = [.. counts.Select(c => c.WindBand).Distinct()], terrains = [.. counts.Select(c => c.Terrain).Distinct()];
        var with = counts.Select(c => c.Cell).ToHashSet();
        Cell[] all = [.. from band in bands from terrain in terrains select new Cell(band, terrain)];
        Cell[] cells = [.. all.Where(with.Contains), .. all.Where(c => !with.Contains(c))];

        List<(string Name, Func<string, string, bool> In)> columns = [("intercept", (_, _) => true)];
        columns.AddRange(bands.Skip(1).Select(b => ($"wind band {b}", (Func<string, string, bool>)((band, _) => band == b))));
        columns.AddRange(terrains.Skip(1).Select(t => ($"terrain {t}", (Func<string, string, bool>)((_, terrain) => terrain == t))));
        if (interaction)
        {
            columns.AddRange(from t in terrains.Skip(1) from b in bands.Skip(1)
                             select ($"wind band {b}, terrain {t}",
                                 (Func<string, string, bool>)((band, terrain) => band == b && terrain == t)));
        }
        double[][] whole = [.. cells.Select(c => columns.Select(k => k.In(c.WindBand, c.Terrain) ? 1.0 : 0).ToArray())];
        var byColumn = new Basis();
        var kept = Enumerable.Range(0, columns.Count).Where(k => byColumn.Add([.. whole.Take(with.Count).Select(row => row[k])])).ToArray();
        var byRow = new Basis();
        foreach (var row in whole.Take(with.Count)) byRow.Add(row);
        return new PooledDesign(cells, with.Count, [.. kept.Select(k => columns[k].Name)],
            [.. Enumerable.Range(0, columns.Count).Except(kept).Select(k => columns[k].Name)],
            [.. whole.Select(row => kept.Select(k => row[k]).ToArray())], [.. whole.Select(byRow.Holds)]);
    }

    /// <summary>The fixed part of every cell's log-odds.</summary>
    public double[] Levels(ReadOnlySpan<double> effects)
    {
        var levels = new double[Rows.Length];
        for (var c = 0; c < levels.Length; c++)
        {
            for (var k = 0; k < Names.Count; k++) levels[c] += Rows[c][k] * effects[k];
        }
        return levels;
    }
}
