namespace JumpAnalytics;

/// <summary>How far moving the exit would have centred the misses of one cell, or of a margin of the table.</summary>
[TypeFormatterSource]
public sealed record ExitShift
{
    /// <summary>The cell or margin.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Label of the wind band, or <see cref="Cell.Any"/>.</summary>
    public string WindBand => Cell.WindBand;

    /// <summary>Terrain class, or <see cref="Cell.Any"/>.</summary>
    public string Terrain => Cell.Terrain;

    /// <summary>Missions with a landing whose miss along and across the drift is known.</summary>
    public required int Missions { get; init; }

    /// <summary>Such landings.</summary>
    public required int Landings { get; init; }

    /// <summary>Mean miss as recorded, metres.</summary>
    public required PlaneVector Mean { get; init; }

    /// <summary>
    /// The shift along the forecast drift, metres, + downwind: minus the mean miss drawn towards none, with its interval.
    /// </summary>
    public required Estimate Downwind { get; init; }

    /// <summary>The shift across it, metres, + right, with its interval.</summary>
    public required Estimate Right { get; init; }

    /// <summary>Length of the mean miss that is kept, 0 to 1: what the evidence leaves of it.</summary>
    public required double Kept { get; init; }

    /// <summary>Chance of a mean miss this far from none or farther were there no bias, both axes at once, 0 to 1.</summary>
    public required double PValue { get; init; }

    /// <summary>
    /// Whether the mean miss is farther from none than chance explains, after allowing for all cells and margins that are tested.
    /// </summary>
    public required bool IsSupported { get; init; }

    /// <summary>Landing rate as it was; for all landings alone.</summary>
    public required Fit<ClusteredProportion> Before { get; init; }

    /// <summary>
    /// Landing rate if each mission's exits had been moved by the shift that the other missions give; for all landings alone, with the
    /// reason elsewhere.
    /// </summary>
    public required Fit<ClusteredProportion> After { get; init; }

    /// <summary>The one less the other, over the same missions.</summary>
    public required Fit<Estimate> Change { get; init; }

    /// <summary>The shift as a vector in the downwind frame, metres.</summary>
    public PlaneVector Vector => new(Downwind.Value, Right.Value);
}
