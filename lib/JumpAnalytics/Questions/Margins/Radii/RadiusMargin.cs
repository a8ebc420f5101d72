namespace JumpAnalytics;

/// <summary>How far the landings of one cell, or of a margin of the table, come down from the spot.</summary>
[TypeFormatterSource]
public sealed record RadiusMargin
{
    /// <summary>Missions below which a radius is not called the cell's own, however it was computed.</summary>
    public const int FewestMissions = 5;

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

    /// <summary>
    /// Share of what band and terrain say in the scale, 0 to 1, in a margin that of its widest cell; null where the radii are the
    /// cell's own.
    /// </summary>
    public double? Borrowed { get; init; }

    /// <summary>Whether every radius rests on the cell's own landings alone.</summary>
    public bool IsOwn => Borrowed is null;

    /// <summary>Whether it has radii, but fewer than <see cref="FewestMissions"/> missions: they are from other conditions.</summary>
    public bool IsFromOtherConditions => !IsOwn && Missions < FewestMissions;

    /// <summary>The widest cell of a band or terrain that has the greatest radii of its cells; null elsewhere.</summary>
    internal Cell? Widest { get; init; }

    /// <summary>The calmer band on the same ground whose radius is not gone below; null where none is greater.</summary>
    internal string? NotBelow { get; init; }

    /// <summary>A calmer band on the same ground with a greater radius, which the records bear out; null where there is none.</summary>
    internal string? SmallerThan { get; init; }

    /// <summary>What the radii rest on: <c>own landings</c>, <c>borrowed</c>, <c>from other conditions</c> or <c>none</c>.</summary>
    public string RestsOn => Radii.All(f => !f.Success) ? "none"
        : IsOwn ? "own landings" : IsFromOtherConditions ? "from other conditions" : "borrowed";

    /// <summary>Why the radii are what they are, where that is not plain; null where they are the cell's own and nothing is odd.</summary>
    /// <param name="bands">The wind bands, whose unit is named.</param>
    public string? Note(WindBands bands)
    {
        var notes = new List<string>();
        if (Radii.FirstOrDefault(f => !f.Success) is { } refused) notes.Add(refused.Reason!);
        else if (Radii.FirstOrDefault(f => f.Value!.Warning is not null)?.Value!.Warning is { } warning) notes.Add(warning);
        if (!IsOwn && Radii.Any(f => f.Success))
            notes.Add($"{Rounding.Count(Missions, "mission")} of its own {(Missions == 1 ? "gives" : "give")} no limit for every share: "
                + (Widest is { } widest ? $"the greatest of its cells, widest {widest.Words(bands)}"
                    : $"{Rounding.Percent(Borrowed!.Value)} of its scale is from other cells"));
        if (NotBelow is { } calmer) notes.Add($"not taken below {calmer} {bands.Unit.Suffix} on the same ground");
        if (SmallerThan is { } other)
            notes.Add($"smaller than at {other} {bands.Unit.Suffix} on the same ground: its own {Rounding.Count(Missions, "mission")} "
                + $"({Rounding.Count(Landings, "landing")}) say so");
        return notes.Count == 0 ? null : string.Join("; ", notes);
    }
}
