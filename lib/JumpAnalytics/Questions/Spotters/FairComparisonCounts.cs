namespace JumpAnalytics;

/// <summary>Landings of one flight in one cell with one target radius.</summary>
/// <param name="Flight">Mission and spotter: a mission of two spotters is two flights.</param>
/// <param name="Spotter">Place among the spotters.</param>
/// <param name="Conditions">
/// Columns of the conditions and the values in them: ones, and the logarithm of the target radius less its mean.
/// </param>
/// <param name="Cell">Wind band and terrain.</param>
/// <param name="Hits">Hits.</param>
/// <param name="Landings">Landings told a hit or a miss.</param>
internal sealed record FlightCount(int Flight, int Spotter, (int Column, double Value)[] Conditions, Cell Cell, int Hits, int Landings);

/// <summary>
/// The landings of a comparison as counts, in an order that does not depend on that of the rows, and the conditions as columns.
/// </summary>
internal sealed class FairComparisonCounts
{
    // Standard deviations of the pulls, log-odds. Level: wider than any band or terrain differs. Cell: a cell of some 25 landings keeps
    // half of what is its own beyond band and terrain. Radius: the log-odds of a hit per log of the radius are about 4 for a Rayleigh
    // distance at a rate of 0.8, and less with a heavy tail.
    private const double LevelSd = 2, CellSd = 0.5, RadiusSd = 3;

    private FairComparisonCounts(IReadOnlyList<string> spotters, IReadOnlyList<FlightCount> rows, int flights, double[] pulls) =>
        (Spotters, Rows, Flights, Pulls) = (spotters, rows, flights, pulls);

    /// <summary>Codes in ordinal order.</summary>
    public IReadOnlyList<string> Spotters { get; }

    public IReadOnlyList<FlightCount> Rows { get; }

    public int Flights { get; }

    /// <summary>One over the variance of the pull of each condition's column; 0 for the intercept.</summary>
    public double[] Pulls { get; }

    public static FairComparisonCounts Of(IReadOnlyList<Landing> told, WindBands bands, bool useRadius)
    {
        string[] spotters = [.. told.Select(l => l.Drop.Spotter!).Distinct().Order(StringComparer.Ordinal)];
        Cell[] cells = [.. new Cells(bands, told).Inner.Intersect(told.Select(l => Cell.Of(l.Drop, bands)))];
        string[] used = [.. cells.Select(c => c.WindBand).Distinct()];
        string[] terrains = [.. cells.Select(c => c.Terrain).Distinct().Order(StringComparer.Ordinal)];
        var pulls = new List<double> { 0 };
        var bandColumns = used.Length > 1 ? AddedFor(used, LevelSd) : [];
        var terrainColumns = terrains.Length > 1 ? AddedFor(terrains, LevelSd) : [];
        var cellColumns = used.Length > 1 && terrains.Length > 1 ? AddedFor(cells, CellSd) : [];
        var radii = told.Select(l => l.Drop.TargetRadius).ToList();
        var varies = useRadius && radii.Min() > 0 && !Landing.IsWithin(radii.Max(), radii.Min());
        var mean = varies ? radii.Sum(Math.Log) / radii.Count : 0;
        var radiusColumn = pulls.Count;
        if (varies) pulls.Add(1 / (RadiusSd * RadiusSd));

        var place = spotters.Select((s, i) => (s, i)).ToDictionary(p => p.s, p => p.i);
        var groups = told
            .GroupBy(l => (l.Drop.Spotter, l.Drop.Mission, Cell: Cell.Of(l.Drop, bands), l.Drop.TargetRadius))
            .OrderBy(g => g.Key.Spotter, StringComparer.Ordinal).ThenBy(g => g.Key.Mission, StringComparer.Ordinal)
            .ThenBy(g => Array.IndexOf(cells, g.Key.Cell)).ThenBy(g => g.Key.TargetRadius).ToList();
        var flights = groups.Select(g => (g.Key.Spotter, g.Key.Mission)).Distinct()
            .Select((f, i) => (f, i)).ToDictionary(p => p.f, p => p.i);
        return new FairComparisonCounts(spotters, [.. groups.Select(g => new FlightCount(
            flights[(g.Key.Spotter, g.Key.Mission)], place[g.Key.Spotter!],
            [
                (0, 1), .. At(bandColumns, g.Key.Cell.WindBand), .. At(terrainColumns, g.Key.Cell.Terrain), .. At(cellColumns, g.Key.Cell),
                .. varies ? [(radiusColumn, Math.Log(g.Key.TargetRadius) - mean)] : Array.Empty<(int, double)>(),
            ],
            g.Key.Cell, g.Count(l => l.Outcome == LandingOutcome.Hit), g.Count()))],
            flights.Count, [.. pulls]);

        Dictionary<T, int> AddedFor<T>(T[] levels, double sd) where T : notnull
        {
            var columns = new Dictionary<T, int>();
            foreach (var level in levels)
            {
                columns.Add(level, pulls.Count);
                pulls.Add(1 / (sd * sd));
            }
            return columns;
        }

        static (int, double)[] At<T>(Dictionary<T, int> columns, T level) where T : notnull =>
            columns.TryGetValue(level, out var column) ? [(column, 1)] : [];
    }
}
