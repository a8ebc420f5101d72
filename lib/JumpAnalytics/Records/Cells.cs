using System.Collections;

namespace JumpAnalytics;

/// <summary>
/// The grid of a record: its wind bands by its terrains, with the margins. As a list it is the order of rows of every table by cell:
/// cells band by band, then the bands, then the terrains, then the whole.
/// </summary>
[TypeFormatterSource]
public sealed class Cells : IReadOnlyList<Cell>
{
    private readonly IReadOnlyList<Cell> _rows;

    /// <summary>Makes the grid of some landings.</summary>
    /// <param name="bands">The wind bands, each of them a row of the grid, flown or not.</param>
    /// <param name="landings">The landings, whose terrains become columns.</param>
    public Cells(WindBands bands, IEnumerable<Landing> landings)
        : this(bands, landings.Select(l => l.Drop))
    {
    }

    /// <summary>Makes the grid of some drops.</summary>
    /// <param name="bands">The wind bands, each of them a row of the grid, flown or not.</param>
    /// <param name="drops">The drops, whose terrains become columns.</param>
    public Cells(WindBands bands, IEnumerable<Drop> drops)
    {
        (Bands, Terrains) = (bands, [.. drops.Select(d => d.Terrain).Distinct().Order(StringComparer.Ordinal)]);
        Inner = [.. from band in bands.Labels from terrain in Terrains select new Cell(band, terrain)];
        OfBands = [.. bands.Labels.Select(band => new Cell(band, Cell.Any))];
        OfTerrains = [.. Terrains.Select(terrain => new Cell(Cell.Any, terrain))];
        _rows = [.. Inner, .. OfBands, .. OfTerrains, Cell.All];
    }

    /// <summary>The wind bands.</summary>
    public WindBands Bands { get; }

    /// <summary>The terrain classes, in alphabetical order.</summary>
    public IReadOnlyList<string> Terrains { get; }

    /// <summary>The cells without the margins, band by band.</summary>
    public IReadOnlyList<Cell> Inner { get; }

    /// <summary>Each wind band over every terrain.</summary>
    public IReadOnlyList<Cell> OfBands { get; }

    /// <summary>Each terrain over every wind band.</summary>
    public IReadOnlyList<Cell> OfTerrains { get; }

    /// <inheritdoc/>
    public int Count => _rows.Count;

    /// <inheritdoc/>
    public Cell this[int index] => _rows[index];

    /// <summary>
    /// Landings by cell and by margin, in the order given; a landing stands in its cell and in every margin that holds it.
    /// </summary>
    /// <param name="landings">The landings.</param>
    public ILookup<Cell, Landing> Group(IEnumerable<Landing> landings) => Group(landings, l => l.Drop);

    /// <summary>Drops by cell and by margin, in the order given; a drop stands in its cell and in every margin that holds it.</summary>
    /// <param name="drops">The drops.</param>
    public ILookup<Cell, Drop> Group(IEnumerable<Drop> drops) => Group(drops, d => d);

    /// <summary>What belongs to drops, by cell and by margin.</summary>
    internal ILookup<Cell, T> Group<T>(IEnumerable<T> items, Func<T, Drop> dropOf) =>
        items.SelectMany(item => WithMargins(Cell.Of(dropOf(item), Bands)).Select(cell => (cell, item))).ToLookup(p => p.cell, p => p.item);

    private static Cell[] WithMargins(Cell cell) => [cell, new(cell.WindBand, Cell.Any), new(Cell.Any, cell.Terrain), Cell.All];

    /// <inheritdoc/>
    public IEnumerator<Cell> GetEnumerator() => _rows.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
