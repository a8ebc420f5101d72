using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>The scale of miss distances in each cell, on the log scale, drawn towards what its wind band and terrain say.</summary>
/// <remarks>
/// <para>Mean log distance of a mission in a cell = band + terrain + cell + mission + landing. The variance between missions is that of
/// moments about the cell means, the variance between cells solves Paule and Mandel's equation (1982, Journal of Research of the NBS
/// 87:377-385) with band and terrain as regressors (or the mean alone when there are not more cells than those need), and a cell keeps the
/// part between/(between + its own error) of what it has for itself. With k cells more than regressors the variance between cells is not
/// taken below 2/(k − 2) of the cells' typical error (Morris 1983, Journal of the American Statistical Association 78:47-55): zero by luck
/// would claim that cells can't differ.</para>
/// <para>A mission with passes in two cells counts in both as if it were two.</para>
/// </remarks>
internal sealed class CellScales
{
    private readonly Dictionary<Cell, CellScale> _cells;

    private CellScales(Dictionary<Cell, CellScale> cells, double freedom) => (_cells, Freedom) = (cells, freedom);

    /// <summary>Degrees of freedom of the errors: mission means less cells.</summary>
    public double Freedom { get; }

    /// <summary>The scale of a cell that has a landing.</summary>
    public CellScale this[Cell cell] => _cells[cell];

    /// <summary>Fits the scales.</summary>
    /// <param name="readings">Cell, mission and log distance of each landing.</param>
    /// <returns>The scales, or why there are none.</returns>
    public static Fit<CellScales> Of(IReadOnlyList<ScaleReading> readings)
    {
        var means = readings.GroupBy(r => (r.Cell, r.Mission))
            .Select(g => new MissionMean(g.Key.Cell, g.Average(r => r.Log), g.Count())).ToList();
        var cells = means.Select(m => m.Cell).Distinct()
            .OrderBy(c => c.WindBand, StringComparer.Ordinal).ThenBy(c => c.Terrain, StringComparer.Ordinal).ToList();
        if (cells.Count < 2) return Fit<CellScales>.Refused("there is no other cell to borrow from");
        if (means.Count - cells.Count < 2 || readings.Count == means.Count)
            return Fit<CellScales>.Refused("too few missions, or none with two landings in a cell");

        var within = Math.Max(1e-12, readings.GroupBy(r => (r.Cell, r.Mission)).Sum(SquaresAboutMean) / (readings.Count - means.Count));
        var between = BetweenMissions(means, within);
        var estimates = cells.Select(c =>
        {
            var weights = means.Where(m => m.Cell == c).Select(m => (m.Mean, Weight: 1 / (between + within / m.Landings))).ToList();
            var total = weights.Sum(w => w.Weight);
            return (Cell: c, Mean: weights.Sum(w => w.Weight * w.Mean) / total, Variance: 1 / total);
        }).ToList();

        var design = Additive(cells) is { } full && cells.Count > full.ColumnCount ? full : Matrix<double>.Build.Dense(cells.Count, 1, 1);
        var y = Vector<double>.Build.DenseOfEnumerable(estimates.Select(e => e.Mean));
        var variances = estimates.Select(e => e.Variance).ToArray();
        var spread = Math.Max(PauleMandel(design, y, variances),
            2.0 / Math.Max(1, cells.Count - design.ColumnCount - 2) * cells.Count / variances.Sum(v => 1 / v));
        var (beta, errors) = Weighted(design, y, variances, spread);
        var scales = new Dictionary<Cell, CellScale>();
        for (var i = 0; i < cells.Count; i++)
        {
            var row = design.Row(i);
            var expected = row * beta;
            var kept = spread / (spread + variances[i]);
            var variance = Square(1 - kept) * (row * errors * row) + spread * (1 - kept);
            scales[cells[i]] = new CellScale(expected + kept * (y[i] - expected), Math.Sqrt(variance), 1 - kept);
        }
        return Fit<CellScales>.Made(new CellScales(scales, means.Count - cells.Count));
    }

    /// <summary>
    /// Columns for the mean, each band but the first and each terrain but the first; null when they are not independent in these cells.
    /// </summary>
    private static Matrix<double>? Additive(List<Cell> cells)
    {
        var (bands, terrains) = (cells.Select(c => c.WindBand).Distinct().ToList(), cells.Select(c => c.Terrain).Distinct().ToList());
        var design = Matrix<double>.Build.Dense(cells.Count, bands.Count + terrains.Count - 1, (i, j) =>
            j == 0 ? 1 : j < bands.Count ? cells[i].WindBand == bands[j] ? 1 : 0
            : cells[i].Terrain == terrains[j - bands.Count + 1] ? 1 : 0);
        return design.RowCount >= design.ColumnCount && design.Rank() == design.ColumnCount ? design : null;
    }

    /// <summary>Moment estimate of the variance between missions of one cell.</summary>
    private static double BetweenMissions(List<MissionMean> means, double within)
    {
        double q = 0, c = 0;
        var freedom = 0;
        foreach (var cell in means.GroupBy(m => m.Cell))
        {
            var total = cell.Sum(m => m.Landings / within);
            var mean = cell.Sum(m => m.Landings / within * m.Mean) / total;
            q += cell.Sum(m => m.Landings / within * Square(m.Mean - mean));
            c += total - cell.Sum(m => Square(m.Landings / within)) / total;
            freedom += cell.Count() - 1;
        }
        return c > 0 ? Math.Max(0, (q - freedom) / c) : 0;
    }

    /// <summary>
    /// The variance between cells at which the weighted squares about the regression are what is expected of them;
    /// 0 when they are less at 0.
    /// </summary>
    private static double PauleMandel(Matrix<double> design, Vector<double> y, double[] variances)
    {
        var wanted = design.RowCount - design.ColumnCount;
        if (Excess(0) <= 0) return 0;
        var high = 1.0;
        while (Excess(high) > 0 && high < 1e6) high *= 4;
        return Roots.Middle(spread => Excess(spread) > 0, 0, high);

        double Excess(double spread)
        {
            var residuals = y - design * Weighted(design, y, variances, spread).Beta;
            return residuals.Select((r, i) => r * r / (variances[i] + spread)).Sum() - wanted;
        }
    }

    private static (Vector<double> Beta, Matrix<double> Errors) Weighted(Matrix<double> design,
        Vector<double> y, double[] variances, double spread)
    {
        var weights = Matrix<double>.Build.DiagonalOfDiagonalArray([.. variances.Select(v => 1 / (v + spread))]);
        var errors = (design.TransposeThisAndMultiply(weights) * design).Inverse();
        return (errors * design.TransposeThisAndMultiply(weights) * y, errors);
    }

    private static double SquaresAboutMean(IEnumerable<ScaleReading> group)
    {
        var mean = group.Average(r => r.Log);
        return group.Sum(r => Square(r.Log - mean));
    }

    private static double Square(double x) => x * x;

    private sealed record MissionMean(Cell Cell, double Mean, int Landings);
}

/// <summary>One landing as a scale sees it.</summary>
/// <param name="Cell">Wind band and terrain.</param>
/// <param name="Mission">Mission.</param>
/// <param name="Log">Natural logarithm of the miss distance in metres.</param>
internal readonly record struct ScaleReading(Cell Cell, string Mission, double Log);

/// <summary>The scale of one cell.</summary>
/// <param name="Log">Natural logarithm of the scale in metres.</param>
/// <param name="Error">Standard error of <paramref name="Log"/>, the spread between cells included.</param>
/// <param name="Borrowed">Share of what band and terrain say in it, 0 to 1.</param>
internal readonly record struct CellScale(double Log, double Error, double Borrowed);
