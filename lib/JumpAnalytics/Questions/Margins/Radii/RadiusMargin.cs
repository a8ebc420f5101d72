namespace JumpAnalytics;

/// <summary>How far the landings of one cell, or of a margin of the table, come down from the spot.</summary>
[TypeFormatterSource]
public sealed record RadiusMargin
{
    /// <summary>The cell or margin.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Label of the wind band, or <see cref="Cell.Any"/>.</summary>
    public string WindBand => Cell.WindBand;

    /// <summary>Terrain class, or <see cref="Cell.Any"/>.</summary>
    public string Terrain => Cell.Terrain;

    /// <summary>Missions with a landing whose distance, or a distance it lies beyond, is known.</summary>
    public required int Missions { get; init; }

    /// <summary>Such landings.</summary>
    public required int Landings { get; init; }

    /// <summary>For each share asked for, in rising order: the radius and its upper limit, or why there is none.</summary>
    public required IReadOnlyList<Fit<RadiusLimit>> Radii { get; init; }

    /// <summary>Share of what band and terrain say in the cell's scale, 0 to 1; null where the radii are the cell's own.</summary>
    public double? Borrowed { get; init; }

    /// <summary>Whether every radius rests on the cell's own landings alone.</summary>
    public bool IsOwn => Borrowed is null;
}
