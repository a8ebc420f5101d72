using NodaTime;

namespace JumpAnalytics;

/// <summary>One mission of the frame of missions.</summary>
internal sealed record MissionRow(string Mission, IReadOnlyList<Landing> Landings)
{
    private LocalDateTime Start => Landings.Min(l => l.Drop.Time);

    public static IReadOnlyList<MissionRow> Of(JumpLog log) => [.. log.Landings.GroupBy(l => l.Drop.Mission, StringComparer.Ordinal)
        .Select(g => new MissionRow(g.Key, [.. g])).OrderBy(m => m.Start)
        .ThenBy(m => m.Landings.Min(l => DropOrder.RowInDay(l.Drop))).ThenBy(m => m.Mission, StringComparer.Ordinal)];

    public static IEnumerable<FrameColumn> Columns(IReadOnlyList<MissionRow> missions)
    {
        return
        [
            Column("day", FrameColumnKind.Day, m => m.Start.ToDateTimeUnspecified()),
            Text("season", d => d.Season), Text("base", d => d.Base), Text("spotter", d => d.Spotter), Text("terrain", d => d.Terrain),
            Column("passes", FrameColumnKind.Count, m => m.Landings.Select(l => l.Drop.Id).Distinct().Count()),
            Column("landings", FrameColumnKind.Count, m => m.Landings.Count(l => LogFrames.HitOf(l) is not null)),
            Column("hits", FrameColumnKind.Count, m => m.Landings.Count(l => l.Outcome == LandingOutcome.Hit)),
            Mean("mean_miss_m", l => l.MissDistance), Mean("mean_downwind_m", l => l.MissDownwind?.Along),
            Mean("mean_right_m", l => l.MissDownwind?.Across),
            Mean("wind_speed_mps", l => l.Drop.WindSpeed), Mean("streamer_minutes", l => l.Drop.StreamerAge / 60),
            Mean("target_radius_m", l => l.Drop.TargetRadius),
        ];

        FrameColumn Column(string name, FrameColumnKind kind, Func<MissionRow, object?> value) =>
            new(name, kind, [.. missions.Select(value)]);
        FrameColumn Text(string name, Func<Drop, string?> value) => Column(name, FrameColumnKind.Text, m => value(m.Landings[0].Drop));
        FrameColumn Mean(string name, Func<Landing, double?> value) =>
            Column(name, FrameColumnKind.Quantity, m => m.Landings.Select(value).Average());
    }
}
