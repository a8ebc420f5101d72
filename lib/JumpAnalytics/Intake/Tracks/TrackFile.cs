using NodaTime;

namespace JumpAnalytics;

/// <summary>Reads descent tracks: GPX 1.0 and 1.1, IGC (the flight recorder format of the FAI), and CSV.</summary>
/// <remarks>
/// GPX: points of all tracks and segments, with time and elevation. IGC: B records, dates from HFDTE, hundredths from a TDS extension
/// of the I record, fixes without a position (validity V with zeros) left out. CSV: a column <c>time</c> (ISO 8601, UTC or with its
/// offset) or <c>elapsed_s</c>, <c>lat</c> and <c>lon</c> in any form that the log accepts, <c>gps_height_*</c> or
/// <c>baro_height_*</c> in m or ft above sea level.
/// </remarks>
public static class TrackFile
{
    /// <summary>Endings of the files that are read.</summary>
    public static IReadOnlyList<string> Endings { get; } = [".gpx", ".igc", ".csv"];

    /// <summary>Bytes; a day at 10 Hz with every tag takes less.</summary>
    private const long LargestFile = 128L << 20;

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The track, or what was found instead and what to try. No content of a file makes it throw.</returns>
    public static Fit<RecordedTrack> Read(string path)
    {
        var name = Path.GetFileName(path);
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists) return Refused($"there is no file {name}");
            if (file.Length > LargestFile)
                return Refused($"{name} has {file.Length >> 20} MB; a descent takes a few at most. Cut out the descent");
            return Path.GetExtension(path).ToLowerInvariant() switch
            {
                ".gpx" => GpxTrack.Read(path),
                ".igc" => IgcTrack.Read(path),
                ".csv" => CsvTrack.Read(path),
                var other => Refused($"{name} ends in '{other}'; tracks are read from {string.Join(", ", Endings)}"),
            };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or LogFormatException)
        {
            return Refused($"{name} can't be read: {e.Message}");
        }
    }

    private static Fit<RecordedTrack> Refused(string why) => Fit<RecordedTrack>.Refused(why);

    /// <summary>Makes a track of fixes with times of day or since the start; refuses what is too short.</summary>
    internal static Fit<RecordedTrack> Made(string name, string format,
        List<(Instant? Time, double? Elapsed, GeoPosition Place, double? Gps, double? Barometer)> fixes, List<TrackNote> notes)
    {
        if (fixes.Count < 2)
            return Refused(($"{name} holds {Rounding.Count(fixes.Count)} fix{(fixes.Count == 1 ? "" : "es")} with a time and a place; "
                + $"a descent has many. {string.Join(" ", notes.Select(n => n.Text))}").TrimEnd());
        var start = fixes[0].Time;
        return Fit<RecordedTrack>.Made(new RecordedTrack(name, format, start,
            [.. fixes.Select(f => new RecordedFix(f.Time is { } t && start is { } s
                ? (t - s).TotalSeconds : f.Elapsed!.Value - (fixes[0].Elapsed ?? 0), f.Place, f.Gps, f.Barometer))], notes));
    }
}
