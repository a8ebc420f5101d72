using System.Text.Json;

namespace JumpAnalytics;

/// <summary>
/// Points of a GeoJSON file (RFC 7946, WGS 84): each property is a column, and the point is the landing's position, or the spot's in a file
/// of drops.
/// </summary>
internal sealed class GeoJsonFile : ILogTable
{
    private const int DeepestNesting = 16;
    private const long LargestFile = 256L << 20;

    private readonly List<Point> _points;
    private readonly List<string> _properties;

    private GeoJsonFile(string path, string latitude, string longitude)
    {
        Name = Path.GetFileName(path);
        _points = PointsIn(ReadBytes(path));
        _properties = [.. _points.SelectMany(p => p.Properties.Keys).Distinct()];
        Header = [.. _properties.Select(p => p.Trim()), latitude, longitude];
        var doubled = Header.SkipLast(2).Intersect([latitude, longitude], StringComparer.OrdinalIgnoreCase).ToList();
        if (doubled.Count > 0)
            throw new LogFormatException($"{Name} gives {string.Join(" and ", doubled)} as a property although the point itself is that "
                + "position. Take the property out.");
        Remarks = [$"points were read as {latitude} and {longitude}"];
    }

    private sealed record Point(int Line, Dictionary<string, string> Properties, string Latitude, string Longitude);

    public string Name { get; }

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<string> Remarks { get; }

    /// <summary>A file of landings.</summary>
    /// <exception cref="LogFormatException">The file can't be opened or is no FeatureCollection.</exception>
    public static GeoJsonFile OfLandings(string path) => new(path, "landing_lat", "landing_lon");

    /// <summary>A file of drops, whose points are their spots.</summary>
    /// <exception cref="LogFormatException">The file can't be opened or is no FeatureCollection.</exception>
    public static GeoJsonFile OfDrops(string path) => new(path, "spot_lat", "spot_lon");

    public IEnumerable<RawRow> Rows() => _points.Select(p => new RawRow(new RowSource(Name, p.Line), p.Line,
        [.. _properties.Select(n => p.Properties.GetValueOrDefault(n, "")), p.Latitude, p.Longitude], null));

    private List<Point> PointsIn(byte[] json)
    {
        try
        {
            var reader = new Utf8JsonReader(json, new JsonReaderOptions { MaxDepth = DeepestNesting });
            reader.Read();
            if (reader.TokenType != JsonTokenType.StartObject) throw NoCollection();
            List<Point>? points = null;
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var isFeatures = reader.ValueTextEquals("features"u8);
                reader.Read();
                if (isFeatures && reader.TokenType == JsonTokenType.StartArray) points = Features(ref reader, json);
                else reader.Skip();
            }
            return points ?? throw NoCollection();
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException) // the latter for letters that are not UTF-8
        {
            throw new LogFormatException($"{Name} can't be read as GeoJSON: {e.Message}", e);
        }
    }

    private static List<Point> Features(ref Utf8JsonReader reader, byte[] json)
    {
        var points = new List<Point>();
        var (line, counted) = (1, 0);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            var start = (int)reader.TokenStartIndex;
            line += json.AsSpan(counted, start - counted).Count((byte)'\n');
            counted = start;
            var feature = JsonElement.ParseValue(ref reader);
            var properties = new Dictionary<string, string>();
            foreach (var property in PropertiesOf(feature)) properties[property.Name] = TextOf(property.Value);
            var (latitude, longitude) = PointOf(feature);
            points.Add(new Point(line, properties, latitude, longitude));
        }
        return points;
    }

    private LogFormatException NoCollection() => new($"{Name} is not GeoJSON: a FeatureCollection with an array of features is read.");

    private static IEnumerable<JsonProperty> PropertiesOf(JsonElement feature) =>
        Member(feature, "properties") is { ValueKind: JsonValueKind.Object } properties ? properties.EnumerateObject() : [];

    /// <summary>Latitude and longitude as written; what is no point is given as it stands, to be refused by its row.</summary>
    private static (string Latitude, string Longitude) PointOf(JsonElement feature)
    {
        if (Member(feature, "geometry") is not { ValueKind: JsonValueKind.Object } geometry) return ("", "");
        if (Member(geometry, "type") is { ValueKind: JsonValueKind.String } type && type.ValueEquals("Point")
            && Member(geometry, "coordinates") is { ValueKind: JsonValueKind.Array } place && place.GetArrayLength() >= 2)
            return (TextOf(place[1]), TextOf(place[0]));
        return (TextOf(geometry), TextOf(geometry));
    }

    private static JsonElement? Member(JsonElement of, string name) =>
        of.ValueKind == JsonValueKind.Object && of.TryGetProperty(name, out var value) ? value : null;

    private static string TextOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Null => "",
        JsonValueKind.True => CellText.Of(true),
        JsonValueKind.False => CellText.Of(false),
        JsonValueKind.String => value.GetString()!,
        _ => value.GetRawText(),
    };

    private byte[] ReadBytes(string path)
    {
        try
        {
            if (new FileInfo(path).Length > LargestFile) throw new LogFormatException($"{Name} is larger than any log.");
            var bytes = File.ReadAllBytes(path);
            return bytes.AsSpan().StartsWith("\uFEFF"u8) ? bytes[3..] : bytes;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"{Name} can't be opened: {e.Message}", e);
        }
    }
}
