using NodaTime;

namespace JumpAnalytics;

/// <summary>A place in time where charts start anew.</summary>
/// <param name="Mission">The first mission after it.</param>
/// <param name="Time">Its first drop.</param>
/// <param name="Reason">Why.</param>
[TypeFormatterSource]
public sealed record ChartRestart(string Mission, LocalDateTime Time, string Reason);

/// <summary>A mission in the order flown.</summary>
internal sealed record MissionInTime(string Mission, LocalDateTime Time, IReadOnlyList<Landing> Landings)
{
    private string Season => Landings[0].Drop.Season;

    private string? Base => Landings[0].Drop.Base;

    /// <summary>Canopy of most of its jumpers; null when it is not recorded, or for a tie.</summary>
    private string? Canopy =>
        Landings.Where(l => l.Canopy is not null).GroupBy(l => l.Canopy).OrderByDescending(g => g.Count()).ToList() switch
        {
            [] => null,
            [var only] => only.Key,
            [var first, var second, ..] => first.Count() > second.Count() ? first.Key : null,
        };

    /// <summary>Missions in order of their first drop, of its row where its time of day is not recorded, and then of their ids.</summary>
    public static IReadOnlyList<MissionInTime> Of(IEnumerable<Landing> landings) =>
    [
        .. landings.GroupBy(l => l.Drop.Mission).Select(g => new MissionInTime(g.Key, g.Min(l => l.Drop.Time), [.. g]))
            .OrderBy(m => m.Time).ThenBy(m => m.Landings.Min(l => DropOrder.RowInDay(l.Drop)))
            .ThenBy(m => m.Mission, StringComparer.Ordinal),
    ];

    /// <summary>Where charts of these missions start anew, by the place of the first mission after it.</summary>
    public static IReadOnlyDictionary<int, ChartRestart> Restarts(IReadOnlyList<MissionInTime> missions, ChartOptions charts)
    {
        var restarts = new Dictionary<int, ChartRestart>();
        var canopies = missions.Select(m => m.Canopy).ToList();
        for (var i = 1; i < missions.Count; i++)
        {
            var (before, here) = (missions[i - 1], missions[i]);
            var reasons = new List<string>();
            if (before.Base is { } from && here.Base is { } to && from != to) reasons.Add($"base {to} after {from}");
            if (Changeover(i) is { } changeover) reasons.Add(changeover);
            if (charts.RestartEachSeason && before.Season != here.Season) reasons.Add($"season {here.Season} after {before.Season}");
            if (reasons.Count > 0) restarts.Add(i, new ChartRestart(here.Mission, here.Time, string.Join("; ", reasons)));
        }
        return restarts;

        string? Changeover(int i)
        {
            var n = charts.ChangeoverMissions;
            if (i < n || i + n > missions.Count || canopies[i] is not { } after || canopies[i - 1] is not { } before || after == before)
                return null;
            return canopies.Skip(i - n).Take(n).All(c => c == before) && canopies.Skip(i).Take(n).All(c => c == after)
                ? $"canopy {after} after {before}" : null;
        }
    }
}
