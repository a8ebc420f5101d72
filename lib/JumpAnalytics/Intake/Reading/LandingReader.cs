using System.Globalization;

namespace JumpAnalytics;

/// <summary>Makes a landing from a row of the log and the drop it belongs to.</summary>
internal static class LandingReader
{
    private static readonly LogColumn[] _placeColumns =
    [
        LogColumns.LandingDistance, LogColumns.LandingBearing, LogColumns.LandingEast, LogColumns.LandingNorth,
        LogColumns.LandingLat, LogColumns.LandingLon, LogColumns.LandingPosition, LogColumns.LandingBeyond,
    ];

    /// <summary>Whether the row says anything of a landing (a flat table may hold a drop alone).</summary>
    public static bool SaysAnything(RowReader row) =>
        LogColumns.Landings.Except([LogColumns.DropId, LogColumns.Declination, LogColumns.Datum, LogColumns.Remarks]).Any(row.IsFilled);

    /// <summary>The landing, or null with the reader's refusals saying why.</summary>
    public static Landing? Read(RowReader row, Drop drop)
    {
        row.AimAt(drop.TargetRadius);
        var declination = row.Degrees(LogColumns.Declination, 180)
            ?? (row.IsMagnetic(LogColumns.LandingBearing) ? MagneticNorth.DeclinationOf(drop) : null);
        var beyond = row.Measure(LogColumns.LandingBeyond, required: row.IsFilled(LogColumns.LandingBeyond), least: 0);
        var place = Place(row, drop, declination);
        var hungUp = row.YesNo(LogColumns.HungUp);
        if (!row.IsRefused && place is null && beyond is null) RefuseNoPlace(row, hungUp);
        if (beyond is { } least && !row.IsNear(LogColumns.LandingBeyond, least, required: true)) beyond = null;
        if (place is { } p && beyond is { } b)
        {
            if (!Landing.IsWithin(b, p.Distance))
            {
                row.Refuse(row.HeaderOf(LogColumns.LandingBeyond), row.ValueOf(LogColumns.LandingBeyond), "columns disagree",
                    $"says farther than the place recorded beside it ({p.Columns})", "keep the one that is right");
            }
            beyond = null;
        }
        if (row.IsRefused) return null;
        return new Landing
        {
            Drop = drop,
            Source = row.Source,
            Miss = place?.Miss,
            MissDistance = place?.Distance,
            Beyond = beyond,
            Jumper = row.Text(LogColumns.Jumper),
            ExitOrder = row.Whole(LogColumns.ExitOrder, least: 1),
            Canopy = row.Text(LogColumns.Canopy),
            HungUp = hungUp,
            MeasuredBy = row.Text(LogColumns.MeasuredBy),
            MeasuredSd = row.Measure(LogColumns.MeasuredSd, least: 0),
            Track = TrackReference.Read(row),
            Injured = row.YesNo(LogColumns.Injured),
            Remarks = row.Text(LogColumns.Remarks),
        };
    }

    private readonly record struct PlaceFound(LocalVector Miss, double Distance, string Columns);

    /// <summary>The recorded place. When it is written in two ways the first is taken and the others must agree with it.</summary>
    private static PlaceFound? Place(RowReader row, Drop drop, double? declination)
    {
        var (polar, plane, position) = (Polar(row, declination), EastNorth(row), Position(row, drop));
        var first = polar ?? plane ?? position;
        return first is null || (Agrees(row, first.Value, plane) && Agrees(row, first.Value, position)) ? first : null;
    }

    private static bool Agrees(RowReader row, PlaceFound first, PlaceFound? other)
    {
        var apart = other is { } o ? (o.Miss - first.Miss).Length : 0;
        if (apart <= 5 + 0.1 * first.Distance) return true;
        row.Refuse($"{first.Columns} / {other!.Value.Columns}", "", "columns disagree",
            string.Create(CultureInfo.InvariantCulture, $"two places are recorded that lie {apart:0} m apart"),
            "keep the one that is right");
        return false;
    }

    private static PlaceFound? Polar(RowReader row, double? declination)
    {
        if (!row.IsFilled(LogColumns.LandingDistance) && !row.IsFilled(LogColumns.LandingBearing)) return null;
        if (!row.IsFilled(LogColumns.LandingDistance))
        {
            row.Refuse(row.HeaderOf(LogColumns.LandingBearing), row.ValueOf(LogColumns.LandingBearing), "bearing without distance",
                "has no distance beside it", "add the distance, or landing_beyond_* if it is only known to be farther than something");
            return null;
        }
        if (row.Measure(LogColumns.LandingDistance, required: true, least: 0) is not { } distance) return null;
        var columns = row.HeaderOf(LogColumns.LandingDistance);
        if (distance == 0) return new PlaceFound(default, 0, columns);
        if (!row.IsFilled(LogColumns.LandingBearing))
        {
            row.Refuse(columns, row.ValueOf(LogColumns.LandingDistance), "distance without bearing",
                "has no bearing beside it", "add landing_bearing_deg");
            return null;
        }
        return row.IsNear(LogColumns.LandingDistance, distance, required: true)
            && row.Bearing(LogColumns.LandingBearing, declination, required: true) is { } bearing
            ? new PlaceFound(LocalVector.FromPolar(distance, bearing), distance, columns) : null;
    }

    private static PlaceFound? EastNorth(RowReader row)
    {
        if (!row.IsFilled(LogColumns.LandingEast) && !row.IsFilled(LogColumns.LandingNorth)) return null;
        if (row.Measure(LogColumns.LandingEast, required: true) is not { } east
            || row.Measure(LogColumns.LandingNorth, required: true) is not { } north) return null;
        var miss = new LocalVector(east, north);
        return row.IsNear(LogColumns.LandingEast, miss.Length, required: true)
            ? new PlaceFound(miss, miss.Length, row.HeaderOf(LogColumns.LandingEast)) : null;
    }

    private static PlaceFound? Position(RowReader row, Drop drop)
    {
        if (row.Position(LogColumns.LandingLat, LogColumns.LandingLon, LogColumns.LandingPosition, required: true) is not { } position)
            return null;
        var columns = row.HeaderOf(row.IsFilled(LogColumns.LandingPosition) ? LogColumns.LandingPosition : LogColumns.LandingLat);
        if (drop.Spot is not { } spot)
        {
            row.Refuse(columns, position.ToString(),
                "spot without position", $"is a position, and drop {drop.Id} has none for its spot to measure from",
                "add spot_lat and spot_lon to the drop, or give distance and bearing from the spot");
            return null;
        }
        var miss = new LocalFrame(spot, drop.SpotElevation ?? 0).ToLocal(position);
        if (miss.Length <= row.FarthestPlace) return new PlaceFound(miss, miss.Length, columns);
        row.Refuse(columns, position.ToString(), ProblemKinds.OutOfRange,
            string.Create(CultureInfo.InvariantCulture, $"lies {miss.Length / 1000:0} km from the spot of drop {drop.Id}"),
            "check the sign and the order of latitude and longitude");
        return null;
    }

    private static void RefuseNoPlace(RowReader row, bool? hungUp)
    {
        var columns = string.Join(" / ", _placeColumns.SelectMany(row.HeadersOf));
        var (kind, reason) = hungUp == true
            ? (ProblemKinds.HangUpWithoutDistance, "the jumper hung up and neither a place nor a distance is recorded")
            : ("no landing place", "neither a place nor a distance is recorded");
        row.Refuse(columns, "", kind, reason, "give the place, or landing_beyond_* when it is only known to be farther than something");
    }
}
