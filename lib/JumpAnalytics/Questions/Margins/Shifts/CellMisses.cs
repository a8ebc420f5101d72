namespace JumpAnalytics;

/// <summary>Sums of the misses of a cell by mission, so that a mission can be left out without adding anew.</summary>
internal sealed class CellMisses
{
    /// <summary>Fewest missions whose own differences give the error of a mean miss; fewer take it from all cells.</summary>
    private const int OwnErrors = 10;

    private readonly Dictionary<string, (double Downwind, double Right, int Landings)> _missions = new(StringComparer.Ordinal);
    private readonly PlaneCovariance _between, _within;

    /// <summary>Gathers the misses.</summary>
    /// <param name="landings">Landings of the cell whose miss along and across the drift is known.</param>
    /// <param name="between">Covariance between missions over all cells, square metres.</param>
    /// <param name="within">Covariance within missions over all cells, square metres.</param>
    public CellMisses(IEnumerable<Landing> landings, PlaneCovariance between, PlaneCovariance within)
    {
        (_between, _within) = (between, within);
        foreach (var landing in landings)
        {
            var miss = landing.MissDownwind!.Value;
            var (d, r, n) = _missions.GetValueOrDefault(landing.Drop.Mission);
            _missions[landing.Drop.Mission] = (d + miss.Along, r + miss.Across, n + 1);
        }
    }

    public int Missions => _missions.Count;

    public int Landings => _missions.Values.Sum(m => m.Landings);

    /// <summary>Mean miss and the covariance of its error, without a mission; null when nothing is left.</summary>
    public (PlaneVector Mean, PlaneCovariance Errors)? Mean(string? without = null)
    {
        var missions = _missions.Where(m => m.Key != without).Select(m => m.Value).ToList();
        double n = missions.Sum(m => m.Landings);
        if (n == 0) return null;
        var mean = new PlaneVector(missions.Sum(m => m.Downwind) / n, missions.Sum(m => m.Right) / n);
        if (missions.Count < OwnErrors)
        {
            var squares = missions.Sum(m => (double)m.Landings * m.Landings) / (n * n);
            return (mean, squares * _between + 1 / n * _within);
        }
        var (dd, rr, dr) = (0.0, 0.0, 0.0);
        foreach (var m in missions)
        {
            var (d, r) = (m.Downwind - m.Landings * mean.Along, m.Right - m.Landings * mean.Across);
            (dd, rr, dr) = (dd + d * d, rr + r * r, dr + d * r);
        }
        var scale = missions.Count / (missions.Count - 1.0) / (n * n);
        return (mean, new PlaneCovariance(scale * dd, scale * rr, scale * dr));
    }
}
