namespace JumpAnalytics;

/// <summary>
/// A cell of the grid of wind bands by terrains, or a margin of it: a band over every terrain, a terrain over every band, or the whole. The
/// default value is the whole.
/// </summary>
[TypeFormatterSource]
public readonly record struct Cell
{
    /// <summary>The word for a side that is left open: every wind band, or every terrain.</summary>
    public const string Any = "all";

    private readonly string? _band;
    private readonly string? _terrain;

    /// <summary>Names a cell or a margin.</summary>
    /// <param name="windBand">Label of a band, or <see cref="Any"/>.</param>
    /// <param name="terrain">A terrain class, or <see cref="Any"/>.</param>
    public Cell(string windBand, string terrain) =>
        (_band, _terrain) = (windBand == Any ? null : windBand, terrain == Any ? null : terrain);

    /// <summary>Every wind band and every terrain together.</summary>
    public static Cell All => default;

    /// <summary>Label of the wind band, or <see cref="Any"/>.</summary>
    public string WindBand => _band ?? Any;

    /// <summary>Terrain class, or <see cref="Any"/>.</summary>
    public string Terrain => _terrain ?? Any;

    /// <summary>Whether a side is left open, so that this is a margin of the grid and no cell of its own.</summary>
    public bool IsMargin => _band is null || _terrain is null;

    /// <summary>Whether this is one wind band over every terrain.</summary>
    public bool IsOfBand => _band is not null && _terrain is null;

    /// <summary>Whether this is one terrain over every wind band.</summary>
    public bool IsOfTerrain => _band is null && _terrain is not null;

    /// <summary>Whether this is the whole grid.</summary>
    public bool IsWhole => _band is null && _terrain is null;

    /// <summary>The cell that a drop, and each landing of it, lies in.</summary>
    /// <param name="drop">The drop.</param>
    /// <param name="bands">The wind bands.</param>
    public static Cell Of(Drop drop, WindBands bands) => new(bands.LabelOf(drop.WindSpeed), drop.Terrain);

    /// <summary>Whether another cell lies in this one; each lies in itself.</summary>
    /// <param name="other">A cell or a margin.</param>
    public bool Holds(Cell other) => (_band is null || _band == other._band) && (_terrain is null || _terrain == other._terrain);

    /// <summary>Whether a drop, and so each landing of it, lies in the cell or margin.</summary>
    /// <param name="drop">The drop.</param>
    /// <param name="bands">The wind bands.</param>
    public bool Holds(Drop drop, WindBands bands) => Holds(Of(drop, bands));

    /// <summary>
    /// The cell with the unit of its band, for a reading: <c>5-10 mph, ridge lee</c>; a side that is left open is not named.
    /// </summary>
    /// <param name="bands">The wind bands, whose unit is named.</param>
    public string Words(WindBands bands) => (_band, _terrain) switch
    {
        (null, _) => Terrain,
        (_, null) => $"{_band} {bands.Unit.Suffix}",
        _ => $"{_band} {bands.Unit.Suffix}, {_terrain}",
    };

    /// <summary>Wind band and terrain: <c>5-10, ridge lee</c>.</summary>
    public override string ToString() => $"{WindBand}, {Terrain}";
}
