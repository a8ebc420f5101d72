using System.Globalization;

namespace JumpAnalytics;

/// <summary>Positions, in any form people write them, and their datum.</summary>
internal sealed partial class RowReader
{
    /// <summary>
    /// Metres; a landing written more coarsely than this says little of a miss. Decimal degrees get more room, for programs drop zeros at
    /// the end; whether a whole column is rounded is looked at by the record checks.
    /// </summary>
    private static double Coarse(PositionForm form) => form == PositionForm.DecimalDegrees ? 200 : 10;

    /// <summary>
    /// Metres; a place farther than this from its spot is a slip of the pen, whichever way it is written: 50 km, or twenty target radii
    /// where those are more, so that a record of things larger than jumps is read.
    /// </summary>
    public double FarthestPlace { get; private set; } = 50_000;

    /// <summary>Sets <see cref="FarthestPlace"/> by the target radius of the drop, metres; null where there is none.</summary>
    public void AimAt(double? targetRadius) => FarthestPlace = Math.Max(50_000, 20 * targetRadius ?? 0);

    /// <summary>Whether a place lies within <see cref="FarthestPlace"/> of the spot; one beyond it is refused or set aside.</summary>
    public bool IsNear(LogColumn column, double metres, bool required)
    {
        if (metres <= FarthestPlace) return true;
        Note(required, HeaderOf(column), ValueOf(column), ProblemKinds.OutOfRange,
            string.Create(CultureInfo.InvariantCulture, $"is {metres / 1000:0} km, and no place of a drop is farther than "
                + $"{FarthestPlace / 1000:0} km from the spot"), "check the number of digits and the unit");
        return false;
    }

    /// <summary>
    /// A position out of one column, or out of latitude and longitude, on WGS 84. A half-filled or unreadable one, or one on a datum that
    /// can't be used, is refused or set aside.
    /// </summary>
    public GeoPosition? Position(LogColumn latitude, LogColumn longitude, LogColumn whole, bool required = false)
    {
        var (position, form, resolution) = IsFilled(whole) ? Whole(whole, required) : Halves(latitude, longitude, required);
        if (position is null || !DatumIsUsable(required)) return null;
        if (resolution > Coarse(form))
        {
            Remark(IsFilled(whole) ? whole : latitude,
                "coarse position", string.Create(CultureInfo.InvariantCulture, $"is written to about {resolution:0} m only"),
                "write thousandths of a minute or five decimals of a degree, or the distance and bearing from the spot");
        }
        return position;
    }

    private (GeoPosition? Position, PositionForm Form, double Resolution) Whole(LogColumn column, bool required)
    {
        var reading = PositionText.Read(ValueOf(column));
        if (reading.Success) return (reading.Value.Position, reading.Value.Form, reading.Value.Resolution);
        Note(required, HeaderOf(column), ValueOf(column), ProblemKinds.NotAPosition, reading.Reason,
            "write it like 44.50833, -116.25417 or N 44 30.500 W 116 15.250");
        return default;
    }

    private (GeoPosition? Position, PositionForm Form, double Resolution) Halves(LogColumn latitude, LogColumn longitude, bool required)
    {
        if (!AreFilled(latitude, longitude, "half a position", required)
            || Coordinate(latitude, 90, PositionText.ReadLatitude, required) is not { } lat
            || Coordinate(longitude, 180, PositionText.ReadLongitude, required) is not { } lon) return default;
        return (new GeoPosition(lat.Degrees, lon.Degrees), lat.Form,
            60 * 1852 * Math.Max(lat.Step, lon.Step * Math.Cos(double.DegreesToRadians(lat.Degrees))));
    }

    private CoordinateReading? Coordinate(LogColumn column, double limit, Func<string?, Fit<CoordinateReading>> read, bool required)
    {
        var field = Field(column)!.Value;
        var reading = read(row.DecimalCommas.Contains(field.Column.Index) ? field.Text.Replace(',', '.') : field.Text);
        if (reading.Success) return reading.Value;
        // A number with an exponent, as programs write very small ones: the E is no hemisphere.
        if (Number(field.Text, field.Column.Index) is { } degrees && Math.Abs(degrees) <= limit)
            return new CoordinateReading(degrees, PositionForm.DecimalDegrees, 0);
        Note(required, HeaderOf(column), ValueOf(column), ProblemKinds.NotAPosition, reading.Reason,
            "write decimal degrees, degrees and minutes, or degrees minutes seconds");
        return null;
    }

    private bool DatumIsUsable(bool required)
    {
        if (!IsFilled(LogColumns.Datum)) return true;
        var datum = Datum.Read(ValueOf(LogColumns.Datum));
        if (datum is { Success: true, Value.Note: { } note })
            Remark(LogColumns.Datum, "datum " + datum.Value.Name, note, "nothing, if all positions of the season are on it");
        if (!datum.Success)
            Note(required, HeaderOf(LogColumns.Datum), ValueOf(LogColumns.Datum), "datum", datum.Reason, "convert the positions to WGS 84");
        return datum.Success;
    }
}
