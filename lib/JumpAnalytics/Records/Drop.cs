using NodaTime;

namespace JumpAnalytics;

/// <summary>
/// One pass over the spot with its drift forecast and its stick: the row that carries forecast, winds, terrain and target
/// radius. SI units; every direction true. An optional value that was not recorded is null.
/// </summary>
[TypeFormatterSource]
public sealed record Drop
{
    /// <summary>The key that landings refer to.</summary>
    public required string Id { get; init; }

    /// <summary>The flight this pass belongs to: one spotter, one fire or training spot. The unit of independence.</summary>
    public required string Mission { get; init; }

    /// <summary>Wall-clock time of the pass as recorded; the beginning of its day where only the day is recorded.</summary>
    public required LocalDateTime Time { get; init; }

    /// <summary>
    /// Whether the time of day is recorded. Where it is not, only the date of <see cref="Time"/> means anything: passes of a day keep the
    /// order of their rows, and nothing that needs a clock uses it.
    /// </summary>
    public bool TimeRecorded { get; init; } = true;

    /// <summary>Offset of <see cref="Time"/> from UTC where the record gives one.</summary>
    public Offset? UtcOffset { get; init; }

    /// <summary>The season the drop counts for; the year of <see cref="Time"/> unless the log says otherwise.</summary>
    public required string Season { get; init; }

    /// <summary>Class of the ground round the spot; the list is the user's.</summary>
    public required string Terrain { get; init; }

    /// <summary>Metres; a landing at this distance from the spot or nearer is a hit.</summary>
    public required double TargetRadius { get; init; }

    /// <summary>Metres per second; the speed of the drift wind.</summary>
    public required double WindSpeed { get; init; }

    /// <summary>Metres east and north from exit to landing of an unsteered canopy, as forecast.</summary>
    public required LocalVector ForecastDrift { get; init; }

    /// <summary>Where the row stands in the log.</summary>
    public required RowSource Source { get; init; }

    /// <summary>Base that flew the mission.</summary>
    public string? Base { get; init; }

    /// <summary>Code of the spotter.</summary>
    public string? Spotter { get; init; }

    /// <summary>Code or type of the aircraft.</summary>
    public string? Aircraft { get; init; }

    /// <summary>Position of the spot.</summary>
    public GeoPosition? Spot { get; init; }

    /// <summary>Metres; elevation of the spot.</summary>
    public double? SpotElevation { get; init; }

    /// <summary>Where the drift wind comes from.</summary>
    public Bearing? WindFrom { get; init; }

    /// <summary>Metres per second; wind near the ground.</summary>
    public double? SurfaceWindSpeed { get; init; }

    /// <summary>Metres above ground at exit.</summary>
    public double? ExitHeight { get; init; }

    /// <summary>Seconds from the streamers to the exit: the age of the forecast.</summary>
    public double? StreamerAge { get; init; }

    /// <summary>Direction the aircraft flies on the run.</summary>
    public Bearing? RunHeading { get; init; }

    /// <summary>Metres per second over the ground on the run.</summary>
    public double? GroundSpeed { get; init; }

    /// <summary>Seconds between two exits of the stick.</summary>
    public double? ExitSpacing { get; init; }

    /// <summary>Recorded exit point relative to the spot, metres.</summary>
    public LocalVector? ActualExit { get; init; }

    /// <summary>
    /// Degrees, east positive, as recorded: a true bearing is the magnetic one plus this. Where it is null, magnetic bearings were turned
    /// with the World Magnetic Model 2025 for the spot and the date.
    /// </summary>
    public double? Declination { get; init; }

    /// <summary>Free text.</summary>
    public string? Remarks { get; init; }

    /// <summary>Planned exit point relative to the spot, metres: the spot less the forecast drift.</summary>
    public LocalVector PlannedExit => -ForecastDrift;

    /// <summary>Axes along and across the forecast drift; null when the forecast drift has no length.</summary>
    public DownwindFrame? Frame => DownwindFrame.Along(ForecastDrift);

    /// <summary>Whether this was flown before another for certain: on an earlier day where one of them has no time of day.</summary>
    internal bool IsBefore(Drop other) =>
        TimeRecorded && other.TimeRecorded ? Time < other.Time : Time.Date < other.Time.Date;
}

/// <summary>Drops in the order they were flown.</summary>
internal static class DropOrder
{
    /// <summary>By time; those of a day without a time of day come first in it, in the order of their rows.</summary>
    public static IOrderedEnumerable<Drop> InTime(this IEnumerable<Drop> drops) => drops.OrderBy(d => d.Time).ThenBy(RowInDay);

    /// <summary>The row of a drop whose time of day is not recorded; 0 for any other, which its time orders.</summary>
    public static int RowInDay(Drop drop) => drop.TimeRecorded ? 0 : drop.Source.Line;
}
