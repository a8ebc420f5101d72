using System.Xml;

namespace JumpAnalytics;

/// <summary>
/// Waypoints of a GPX file as landings (WGS 84). A waypoint's name tells its drop: the <c>drop_id</c> alone, <c>drop_id/jumper</c>, or
/// <c>drop_id jumper</c>. Description and comment become remarks; tracks and routes are not landings.
/// </summary>
internal sealed class GpxFile : ILogTable
{
    private const long MostLetters = 256L << 20;
    private const int LongestText = 32_767;

    private static readonly XmlReaderSettings _settings = new()
    {
        DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, MaxCharactersInDocument = MostLetters, IgnoreComments = true,
        IgnoreProcessingInstructions = true,
    };

    private readonly string _path;

    private GpxFile(string path)
    {
        _path = path;
        foreach (var row in Rows()) return;
        throw new LogFormatException($"{Name} has no waypoints (wpt). Landings are read from waypoints; a track is not one.");
    }

    public string Name => Path.GetFileName(_path);

    public IReadOnlyList<string> Header { get; } = ["drop_id", "jumper", "landing_lat", "landing_lon", "time", "remarks"];

    public IReadOnlyList<string> Remarks { get; } =
        ["waypoints were read as landings, each name as drop_id, drop_id/jumper or drop_id jumper"];

    /// <exception cref="LogFormatException">The file can't be opened, is not GPX, or holds no waypoint.</exception>
    public static GpxFile Open(string path) => new(path);

    public IEnumerable<RawRow> Rows()
    {
        using var reader = Guarded(() => XmlReader.Create(_path, _settings));
        if (!Guarded(() => reader.MoveToContent() == XmlNodeType.Element && reader.LocalName == "gpx"))
            throw new LogFormatException($"{Name} is not GPX: its outermost element is not gpx.");
        while (Guarded(() => NextWaypoint(reader)) is { } row) yield return row;
    }

    private RawRow? NextWaypoint(XmlReader reader)
    {
        while (reader.Read())
        {
            if (reader.NodeType != XmlNodeType.Element || reader.LocalName != "wpt" || reader.Depth != 1) continue;
            var place = (IXmlLineInfo)reader;
            var line = place.LineNumber;
            var (lat, lon) = (reader.GetAttribute("lat") ?? "", reader.GetAttribute("lon") ?? "");
            var texts = reader.IsEmptyElement ? [] : ChildTexts(reader);
            var (drop, jumper) = SplitName(texts.GetValueOrDefault("name", ""));
            string[] remarks = [texts.GetValueOrDefault("desc", ""), texts.GetValueOrDefault("cmt", "")];
            return new RawRow(new RowSource(Name, line), place.LineNumber,
                [drop, jumper, lat, lon, texts.GetValueOrDefault("time", ""),
                    string.Join("; ", remarks.Where(r => r.Length > 0).Distinct())], null);
        }
        return null;
    }

    /// <summary>The texts of a waypoint's own elements by name, the reader left at its end.</summary>
    private static Dictionary<string, string> ChildTexts(XmlReader reader)
    {
        var texts = new Dictionary<string, string>();
        var (depth, name) = (reader.Depth, "");
        while (reader.Read() && reader.Depth > depth)
        {
            if (reader.NodeType == XmlNodeType.Element && reader.Depth == depth + 1) name = reader.LocalName;
            if (reader.Depth != depth + 2 || reader.NodeType is not (XmlNodeType.Text or XmlNodeType.CDATA)) continue;
            if (reader.Value.Length > LongestText) throw new XmlException(
                $"line {((IXmlLineInfo)reader).LineNumber}: a text of {reader.Value.Length} letters is too long for a waypoint.");
            texts[name] = texts.GetValueOrDefault(name, "") + reader.Value;
        }
        return texts.ToDictionary(t => t.Key, t => t.Value.Trim());
    }

    /// <summary>Parts a name at its last slash, or at its last blank when it has no slash.</summary>
    private static (string Drop, string Jumper) SplitName(string name)
    {
        var at = name.LastIndexOf('/');
        if (at < 0) at = name.LastIndexOf(' ');
        return at < 0 ? (name, "") : (name[..at].Trim(), name[(at + 1)..].Trim());
    }

    private T Guarded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is XmlException or IOException or UnauthorizedAccessException)
        {
            throw new LogFormatException($"{Name} can't be read as GPX: {e.Message}", e);
        }
    }
}
