namespace JumpAnalytics;

/// <summary>
/// Which cells and margins of a table of bands by terrains are withheld, so that nothing shown, and no sum that can be computed from what
/// is shown, rests on fewer people than a minimum.
/// </summary>
/// <remarks>
/// <para>Margins: those of few people are withheld, and then the next smallest of their side until the withheld ones together hold enough
/// people, since their sum is what the margins shown leave of the total. A withheld margin takes all its cells along.</para>
/// <para>Cells: the withheld ones form a block, some bands by some terrains. It begins with the bands and the terrains of every cell of few
/// people and grows until each line of it (a band's cells in the block, a terrain's cells in the block) is empty or holds enough people,
/// since a line is what the cells shown leave of a margin.</para>
/// <para>Why that is enough: in a block whose line sums are known, the most a reader can say of a cell is that it is no more than its two
/// line sums and no less than they leave over (Fréchet's bounds, which are sharp). A cell of few people is smaller than either of its line
/// sums, for those hold more people: it is never known exactly.</para>
/// </remarks>
internal sealed class Withholding
{
    private readonly ILookup<Cell, Landing> _landings;
    private readonly IReadOnlyList<string> _bands;
    private readonly IReadOnlyList<string> _terrains;
    private readonly int _minimum;
    private readonly HashSet<string> _bandMargins = [];
    private readonly HashSet<string> _terrainMargins = [];
    private readonly HashSet<string> _blockBands = [];
    private readonly HashSet<string> _blockTerrains = [];
    private readonly bool _all;

    public Withholding(Cells grid, ILookup<Cell, Landing> byCell, int minimumPeople)
    {
        (_bands, _terrains, _minimum, _landings) = (grid.Bands.Labels, grid.Terrains, minimumPeople, byCell);
        _all = !IsEnough(_bands, _terrains);
        if (_all) return;
        CloseMargins(_bandMargins, _bands, b => Rows([b], _terrains));
        CloseMargins(_terrainMargins, _terrains, t => Rows(_bands, [t]));
        CloseBlock();
    }

    /// <summary>Whether a cell or margin is withheld.</summary>
    public bool Hides(Cell cell) => _all
        || (cell.IsOfBand && _bandMargins.Contains(cell.WindBand))
        || (cell.IsOfTerrain && _terrainMargins.Contains(cell.Terrain))
        || (!cell.IsMargin && _blockBands.Contains(cell.WindBand) && _blockTerrains.Contains(cell.Terrain));

    /// <summary>Fewest people that some landings can come from, spellings of one code being one.</summary>
    public static int LeastPeople(IReadOnlyCollection<Landing> landings) => LogSharing.LeastPeople(landings, PersonName.TryNormal);

    /// <summary>
    /// Adds margins of few people, then the next smallest until those withheld are none, or two or more that together hold enough.
    /// </summary>
    private void CloseMargins(HashSet<string> margins, IReadOnlyList<string> names, Func<string, List<Landing>> rows)
    {
        margins.UnionWith(names.Where(n => !IsEnough(rows(n))));
        while (margins.Count > 0 && !IsEnough([.. margins.SelectMany(rows)]) && Smallest(names.Except(margins), rows) is { } next)
            margins.Add(next);
    }

    /// <summary>Makes the block and lets it grow until every line of it is empty or holds enough people.</summary>
    private void CloseBlock()
    {
        foreach (var (band, terrain) in from b in _bands from t in _terrains where !IsEnough([b], [t]) select (b, t))
        {
            _blockBands.Add(band);
            _blockTerrains.Add(terrain);
        }
        if (_bandMargins.Count > 0) _blockTerrains.UnionWith(_terrains);
        if (_terrainMargins.Count > 0) _blockBands.UnionWith(_bands);
        _blockBands.UnionWith(_bandMargins);
        _blockTerrains.UnionWith(_terrainMargins);
        while (Grows())
        {
        }
    }

    private bool Grows()
    {
        foreach (var line in Lines(_blockBands, _bandMargins).Where(line => !IsEnough(line, _blockTerrains)))
        {
            if (Smallest(_terrains.Except(_blockTerrains), t => Rows(line, [t])) is { } next) return _blockTerrains.Add(next);
        }
        foreach (var line in Lines(_blockTerrains, _terrainMargins).Where(line => !IsEnough(_blockBands, line)))
        {
            if (Smallest(_bands.Except(_blockBands), b => Rows([b], line)) is { } next) return _blockBands.Add(next);
        }
        return false;
    }

    /// <summary>What of a side has sums that can be computed: each line with a margin, and those without one only together.</summary>
    private static List<string[]> Lines(IEnumerable<string> block, HashSet<string> withoutMargin) =>
        [.. block.Except(withoutMargin).Select(n => new[] { n }),
            .. withoutMargin.Count > 0 ? [[.. withoutMargin]] : Array.Empty<string[]>()];

    private static string? Smallest(IEnumerable<string> names, Func<string, List<Landing>> rows) =>
        names.Select(n => (Name: n, Rows: rows(n).Count)).Where(n => n.Rows > 0).OrderBy(n => n.Rows)
            .ThenBy(n => n.Name, StringComparer.Ordinal).FirstOrDefault().Name;

    private List<Landing> Rows(IEnumerable<string> bands, IEnumerable<string> terrains) =>
        [.. from b in bands from t in terrains from l in _landings[new Cell(b, t)] select l];

    private bool IsEnough(IEnumerable<string> bands, IEnumerable<string> terrains) => IsEnough(Rows(bands, terrains));

    /// <summary>Nobody at all, or enough people both of those who can be told a hit or a miss and of those who can't.</summary>
    private bool IsEnough(List<Landing> rows)
    {
        var told = rows.Where(l => l.Outcome != LandingOutcome.Undecided).ToList();
        return rows.Count == 0 || LeastPeople(told.Count > 0 ? told : rows) >= _minimum;
    }
}
