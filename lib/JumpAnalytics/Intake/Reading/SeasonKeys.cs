namespace JumpAnalytics;

/// <summary>
/// Mission numbers that come in several seasons. A mission is one flight, so the same number in two seasons is two missions, named by
/// season and number; numbers that come in one season alone stay as they are.
/// </summary>
internal static class SeasonKeys
{
    /// <summary>The records with the missions named, and what a report says of it; nothing when no number came twice.</summary>
    public static (IReadOnlyList<Drop> Drops, IReadOnlyList<Landing> Landings, IReadOnlyList<string> Notes) Of(IReadOnlyList<Drop> drops,
        IReadOnlyList<Landing> landings)
    {
        var again = drops.GroupBy(d => d.Mission, StringComparer.Ordinal).Where(g => g.Any(d => d.Season != g.First().Season))
            .Select(g => g.Key).ToHashSet(StringComparer.Ordinal);
        if (again.Count == 0) return (drops, landings, []);
        var named = drops.Where(d => again.Contains(d.Mission)).ToDictionary(d => d, d => d with { Mission = $"{d.Season} {d.Mission}" },
            (IEqualityComparer<Drop>)ReferenceEqualityComparer.Instance);
        var missions = named.Values.Select(d => d.Mission).Distinct(StringComparer.Ordinal).Count();
        var example = named.Values.First().Mission;
        return ([.. drops.Select(d => named.GetValueOrDefault(d, d))],
            [.. landings.Select(l => named.TryGetValue(l.Drop, out var drop) ? l with { Drop = drop } : l)],
            [$"{Rounding.Count(again.Count, "mission number")} came in more than one season. A mission is one flight, so they were read as "
                + $"{Rounding.Count(missions)} missions, named by season and number ('{example}')."]);
    }
}
