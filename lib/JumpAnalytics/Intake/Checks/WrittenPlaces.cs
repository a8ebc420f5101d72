namespace JumpAnalytics;

/// <summary>In which of its forms a landing was written, as far as its numbers tell.</summary>
internal static class WrittenPlaces
{
    private const double MetresPerDegree = 111_132;

    /// <summary>Enough for 1e-12 degrees: a step leaves less than a hundredth of the error.</summary>
    private const int Steps = 8;

    /// <summary>The distance as a whole number of its file's unit; null for positions and for finer numbers.</summary>
    public static (int Number, MeasureUnit Unit)? WholeDistance(CheckedLog log, Landing landing) =>
        log.UnitOf(landing.Source.File, LogColumns.LandingDistance) is { } unit && landing.MissDistance is { } miss
        && WrittenNumber.IsMultiple(unit.FromSi(miss), 1)
            ? ((int)Math.Round(unit.FromSi(miss)), unit) : null;

    /// <summary>Whether the landing may have been written as latitude and longitude.</summary>
    public static bool IsPosition(CheckedLog log, Landing landing) =>
        landing is { Miss: not null, Drop.Spot: not null } && log.Has(landing.Source.File, LogColumns.LandingLat)
        && WholeDistance(log, landing) is null;

    /// <summary>Latitude and longitude of a landing: the tangent plane at its spot turned round by iteration.</summary>
    public static GeoPosition PositionOf(Landing landing)
    {
        var spot = landing.Drop.Spot!.Value;
        var plane = new LocalFrame(spot, landing.Drop.SpotElevation ?? 0);
        var shrink = Math.Max(Math.Cos(double.DegreesToRadians(spot.Latitude)), 1e-3);
        var position = spot;
        for (var i = 0; i < Steps; i++)
        {
            var left = landing.Miss!.Value - plane.ToLocal(position);
            position = new GeoPosition(Math.Clamp(position.Latitude + left.North / MetresPerDegree, -90, 90),
                Math.Clamp(position.Longitude + left.East / MetresPerDegree / shrink, -180, 180));
        }
        return position;
    }
}
