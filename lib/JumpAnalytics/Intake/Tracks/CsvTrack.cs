using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace JumpAnalytics;

/// <summary>Fixes of a table of separated values.</summary>
internal static class CsvTrack
{
    private static readonly OffsetDateTimePattern _withOffset = OffsetDateTimePattern.ExtendedIso;

    public static Fit<RecordedTrack> Read(string path)
    {
        var table = CsvFile.Open(path);
        var header = table.Header.Select(h => h.Trim().ToLowerInvariant()).ToList();
        var (time, elapsed, lat, lon) = (header.IndexOf("time"), header.IndexOf("elapsed_s"), header.IndexOf("lat"), header.IndexOf("lon"));
        var (gps, barometer) = (Height("gps_height"), Height("baro_height"));
        if (lat < 0 || lon < 0 || (time < 0 && elapsed < 0))
            return Fit<RecordedTrack>.Refused($"{table.Name} is no track: expected columns time or elapsed_s, lat, lon, and gps_height_m "
                + $"or baro_height_m; found {string.Join(", ", table.Header.Take(8).Select(PositionText.Shown))}");
        var (notes, fixes, bad, first) =
            (new List<TrackNote>(), new List<(Instant?, double?, GeoPosition, double?, double?)>(), 0, (RowSource?)null);
        foreach (var row in table.Rows())
        {
            string Text(int column) => column >= 0 && column < row.Fields.Length ? row.Fields[column].Trim() : "";
            var at = time >= 0 && _withOffset.Parse(Text(time)) is { Success: true } parsed ? parsed.Value.ToInstant() : (Instant?)null;
            var since = elapsed >= 0 ? Number(Text(elapsed)) : null;
            if (PositionText.ReadLatitude(Text(lat)).Value is { } y && PositionText.ReadLongitude(Text(lon)).Value is { } x
                && (time >= 0 ? at is not null : since is not null))
            {
                fixes.Add((at, since, new GeoPosition(y.Degrees, x.Degrees), In(gps, Text), In(barometer, Text)));
            }
            else
            {
                bad++;
                first ??= row.Source;
            }
        }
        if (bad > 0) notes.Add(new TrackNote("rows not readable", bad, $"{Rounding.Count(bad, "row")} had no readable time or place and "
            + $"{(bad == 1 ? "was" : "were")} left out; the first is {first}."));
        return TrackFile.Made(table.Name, "CSV", fixes, notes);

        (int Column, double Si)? Height(string quantity)
        {
            foreach (var unit in new[] { "m", "ft" })
            {
                if (header.IndexOf($"{quantity}_{unit}") is >= 0 and var column) return (column, MeasureUnit.Distance(unit).Si);
            }
            return null;
        }

        static double? In((int Column, double Si)? height, Func<int, string> text) =>
            height is { } h && Number(text(h.Column)) is { } value ? value * h.Si : null;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
}
