using System.Globalization;
using System.Xml;
using NodaTime;
using NodaTime.Text;

namespace JumpAnalytics;

/// <summary>Track points of a GPX file. A file that breaks off keeps what stands before the break.</summary>
internal static class GpxTrack
{
    private static readonly XmlReaderSettings _settings = new()
    {
        DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = 256L << 20, IgnoreComments = true,
        IgnoreProcessingInstructions = true,
    };

    private static readonly OffsetDateTimePattern _withOffset = OffsetDateTimePattern.ExtendedIso;

    public static Fit<RecordedTrack> Read(string path)
    {
        var (name, notes, fixes) =
            (Path.GetFileName(path), new List<TrackNote>(), new List<(Instant?, double?, GeoPosition, double?, double?)>());
        var (points, without) = (0, 0);
        try
        {
            using var reader = XmlReader.Create(path, _settings);
            if (reader.MoveToContent() != XmlNodeType.Element || reader.LocalName != "gpx")
                return Fit<RecordedTrack>.Refused($"{name} is not GPX: its outermost element is '{reader.LocalName}', not gpx");
            while (reader.Read())
            {
                if (reader.NodeType != XmlNodeType.Element || reader.LocalName != "trkpt") continue;
                points++;
                if (Point(reader) is { } fix) fixes.Add((fix.Time, null, fix.Place, fix.Height, null));
                else without++;
            }
        }
        catch (XmlException e)
        {
            if (fixes.Count == 0) return Fit<RecordedTrack>.Refused($"{name} can't be read as GPX: {e.Message}");
            notes.Add(new TrackNote("broken off", 1, $"The file breaks off at line {e.LineNumber}; what stands before it was used."));
        }
        if (without > 0) notes.Add(new TrackNote("points without time or place", without,
            $"{Rounding.Count(without)} of {Rounding.Count(points, "point")} had no readable time or place and were left out."));
        return TrackFile.Made(name, "GPX", fixes, notes);
    }

    private static (Instant Time, GeoPosition Place, double? Height)? Point(XmlReader reader)
    {
        var (lat, lon, depth) = (Number(reader.GetAttribute("lat")), Number(reader.GetAttribute("lon")), reader.Depth);
        Instant? time = null;
        double? height = null;
        if (!reader.IsEmptyElement)
        {
            var name = "";
            while (reader.Read() && reader.Depth > depth)
            {
                if (reader.NodeType == XmlNodeType.Element) name = reader.Depth == depth + 1 ? reader.LocalName : "";
                if (reader.Depth != depth + 2 || reader.NodeType is not (XmlNodeType.Text or XmlNodeType.CDATA) || reader.Value.Length > 64)
                    continue;
                if (name == "time" && _withOffset.Parse(reader.Value.Trim()) is { Success: true } at) time = at.Value.ToInstant();
                if (name == "ele") height = Number(reader.Value);
            }
        }
        return time is { } t && lat is >= -90 and <= 90 && lon is >= -180 and <= 180
            ? (t, new GeoPosition(lat.Value, lon.Value), height) : null;
    }

    private static double? Number(string? text) =>
        double.TryParse(text?.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value : null;
}
