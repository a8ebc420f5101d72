using NodaTime;

namespace JumpAnalytics;

/// <summary>One fix of a recorder, as its file has it.</summary>
/// <param name="Seconds">Seconds since the first fix of the file.</param>
/// <param name="Place">WGS 84.</param>
/// <param name="GpsHeight">Metres by satellite, above sea level or the ellipsoid; null when not recorded.</param>
/// <param name="BarometerHeight">Metres by air pressure; null when not recorded.</param>
[TypeFormatterSource]
public readonly record struct RecordedFix(double Seconds, GeoPosition Place, double? GpsHeight, double? BarometerHeight);

/// <summary>A track as its file has it, nothing mended.</summary>
/// <param name="Name">Name of the file.</param>
/// <param name="Format">GPX, IGC or CSV.</param>
/// <param name="Start">UTC of the first fix; null when the file tells only how much time passed.</param>
/// <param name="Fixes">The fixes in the order of the file.</param>
/// <param name="Notes">What could not be read, and what was done about it.</param>
[TypeFormatterSource]
public sealed record RecordedTrack(string Name, string Format, Instant? Start, IReadOnlyList<RecordedFix> Fixes,
    IReadOnlyList<TrackNote> Notes);
