using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// Finds a row again in the file it was read from and says what became of its values. Nothing is kept for this while reading, so that a
/// large log costs no more memory; the file must still be as it was.
/// </summary>
internal sealed class Origins(IReadOnlyList<(ILogTable Table, HeaderMap Map)> tables)
{
    /// <exception cref="LogFormatException">The file no longer has the row.</exception>
    public RowOrigin Of(RowSource source, Drop drop)
    {
        foreach (var (table, map) in tables)
        {
            if (table.Rows().FirstOrDefault(r => r.Source == source) is { } row)
                return new RowOrigin(source, table.Remarks,
                    [.. map.Bound.Where(b => b.Written(row).Length > 0).Select(b => Origin(b, row, drop))]);
        }
        throw new LogFormatException($"{source} can't be found again; the file was changed or moved since it was read.");
    }

    private static ValueOrigin Origin(BoundColumn bound, RawRow row, Drop drop)
    {
        var (written, text) = (bound.Written(row), bound.TextIn(row));
        var steps = new List<string>();
        if (!bound.Column.Headers().Any(h => h.Text.Equals(bound.Header, StringComparison.OrdinalIgnoreCase)))
            steps.Add("header read through the column map");
        if (written != text) steps.Add($"code '{written}' is '{text}' in the column map");
        if (bound.Unit is { } unit && unit.Si != 1)
            steps.Add(string.Create(CultureInfo.InvariantCulture, $"1 {unit.Suffix} = {unit.Si:G10} {Si(bound.Column.Kind)}"));
        if (bound.IsMagnetic) steps.Add(North(drop));
        if (Form(bound.Column, text) is { } form) steps.Add(form);
        if (bound.Column == LogColumns.Time && drop.UtcOffset is { } offset) steps.Add($"{offset} from UTC");
        return new ValueOrigin(bound.Header, bound.Column.Name, row.Fields[bound.Index], steps);
    }

    private static string Si(ColumnKind kind) => kind switch
    {
        ColumnKind.Distance => "m",
        ColumnKind.Speed => "m/s",
        _ => "s",
    };

    private static string North(Drop drop)
    {
        var declination = MagneticNorth.DeclinationOf(drop) ?? 0;
        return string.Create(CultureInfo.InvariantCulture,
            $"{(declination < 0 ? "−" : "+")} {Math.Abs(declination):0.0}° declination to true north, "
                + $"{(drop.Declination is null ? "from the magnetic model for spot and date" : "as the log gives it")}");
    }

    private static string? Form(LogColumn column, string text)
    {
        (PositionForm? form, double? resolution) = column.Name switch
        {
            "spot_lat" or "exit_lat" or "landing_lat" => (PositionText.ReadLatitude(text).Value?.Form, null),
            "spot_lon" or "exit_lon" or "landing_lon" => (PositionText.ReadLongitude(text).Value?.Form, null),
            "spot_position" or "exit_position" or "landing_position" when PositionText.Read(text).Value is { } whole =>
                (whole.Form, whole.Resolution),
            _ => ((PositionForm?)null, (double?)null),
        };
        if (form is not { } written) return null;
        var words = written switch
        {
            PositionForm.DecimalDegrees => "decimal degrees",
            PositionForm.DegreesMinutes => "degrees and minutes",
            PositionForm.DegreesMinutesSeconds => "degrees, minutes and seconds",
            PositionForm.Utm => "UTM",
            _ => "MGRS, the centre of the square",
        };
        return words + (resolution is { } metres ? string.Create(CultureInfo.InvariantCulture, $", to about {metres:G2} m") : "")
            + (column.Name.StartsWith("spot", StringComparison.Ordinal) ? "" : ", then east and north of the spot in its tangent plane");
    }
}
