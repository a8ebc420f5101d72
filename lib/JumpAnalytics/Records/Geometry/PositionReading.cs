namespace JumpAnalytics;

/// <summary>The way a position is written.</summary>
public enum PositionForm
{
    /// <summary>Degrees with decimals (DD): <c>44.50833</c>.</summary>
    DecimalDegrees,

    /// <summary>Degrees and minutes, the minutes with or without decimals (DDM): <c>44 30.500</c>; usual in fire aviation.</summary>
    DegreesMinutes,

    /// <summary>Degrees, minutes and seconds (DMS): <c>44 30 30.0</c>.</summary>
    DegreesMinutesSeconds,

    /// <summary>Zone, easting and northing in metres: <c>11T 500000 4649776</c>.</summary>
    Utm,

    /// <summary>A square of the military or US National Grid: <c>11T NM 53267 99845</c>.</summary>
    Mgrs,
}

/// <summary>A position read from a text, with how it was written and how finely.</summary>
/// <param name="Position">The place; for a grid square its centre.</param>
/// <param name="Form">The form that was recognised.</param>
/// <param name="Resolution">
/// Metres: the step of the last digit written, the larger of the two axes, or the side of the grid square. The place can't
/// be known better than about half of it, so a miss smaller than that is not measured. Degrees are turned into metres at
/// 1852 m per minute, longitude times the cosine of the latitude: within 1 %.
/// </param>
[TypeFormatterSource]
public sealed record PositionReading(GeoPosition Position, PositionForm Form, double Resolution);

/// <summary>One latitude or one longitude read from a text, with how it was written and how finely.</summary>
/// <param name="Degrees">Decimal degrees, positive north or east.</param>
/// <param name="Form">Degrees, degrees and minutes, or degrees, minutes and seconds.</param>
/// <param name="Step">Degrees: the step of the last digit written, 1/60 for whole minutes.</param>
[TypeFormatterSource]
public sealed record CoordinateReading(double Degrees, PositionForm Form, double Step);
