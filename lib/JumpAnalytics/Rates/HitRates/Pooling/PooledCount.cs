namespace JumpAnalytics;

/// <summary>Landings of one mission in one cell of wind band and terrain. A mission whose passes fall in two cells has two.</summary>
/// <param name="Mission">Which mission.</param>
/// <param name="WindBand">Label of the wind band.</param>
/// <param name="Terrain">Terrain class.</param>
/// <param name="Hits">Hits among the landings.</param>
/// <param name="Landings">Landings told a hit or a miss; a count without any is passed over.</param>
[TypeFormatterSource]
public sealed record PooledCount(string Mission, string WindBand, string Terrain, int Hits, int Landings)
{
    /// <summary>Wind band and terrain.</summary>
    public Cell Cell => new(WindBand, Terrain);

    /// <summary>Counts decided landings by mission and cell, bands in their order and terrains in alphabetical order.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="bands">The wind bands.</param>
    public static IReadOnlyList<PooledCount> Of(IEnumerable<Landing> landings, WindBands bands) =>
    [
        .. landings.Where(l => l.Outcome != LandingOutcome.Undecided)
            .GroupBy(l => (Band: bands.IndexOf(l.Drop.WindSpeed), l.Drop.Terrain, l.Drop.Mission))
            .OrderBy(g => g.Key.Band).ThenBy(g => g.Key.Terrain, StringComparer.Ordinal).ThenBy(g => g.Key.Mission, StringComparer.Ordinal)
            .Select(g => new PooledCount(g.Key.Mission, bands.Labels[g.Key.Band], g.Key.Terrain,
                g.Count(l => l.Outcome == LandingOutcome.Hit), g.Count())),
    ];
}
