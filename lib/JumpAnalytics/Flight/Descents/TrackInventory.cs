namespace JumpAnalytics;

/// <summary>The descent tracks of a log: how many there are, what they could be used for, and what is wrong with the others.</summary>
public sealed class TrackInventory : ShownResult
{
    private readonly LogDescents _descents;

    private TrackInventory(LogDescents descents, IReadOnlyList<Landing> landings)
    {
        _descents = descents;
        Landings = landings.Count;
        var (rows, odd) = (new List<(string Outcome, string Example)>(), new List<(string Kind, string Text)>());
        foreach (var landing in landings)
        {
            var (track, flight) = (descents.TrackOf(landing), descents.FlightOf(landing));
            if (!track.Success && landing.Track is null) continue;
            var file = track.Value?.Name ?? landing.Track!;
            rows.Add(flight.Success ? ("told wind and steering apart", file) : track.Success ? ($"path only: {Kind(flight.Reason)}", file)
                : ($"not used: {Kind(track.Reason!)}", file));
            if (track.Value is { } found)
                odd.AddRange(found.Notes.Where(n => n.Kind is not ("ground" or "two heights" or "after touchdown"))
                    .Select(n => (n.Kind, $"{file}: {n.Text}")));
        }
        rows.AddRange(descents.Tracks.Unmatched.Select(u => ($"belongs to no landing: {Kind(u.Why)}", $"{LogTracks.FolderName}/{u.File}")));
        Outcomes = [.. rows.GroupBy(r => r.Outcome).Select(g => (g.Key, g.Count(), g.First().Example)).OrderByDescending(g => g.Item2)
            .ThenBy(g => g.Key, StringComparer.Ordinal)];
        Oddities = [.. odd.GroupBy(o => o.Kind).Select(g => (g.Key, g.Count(), g.First().Text)).OrderByDescending(g => g.Item2)
            .ThenBy(g => g.Key, StringComparer.Ordinal)];
    }

    /// <summary>Landings looked at.</summary>
    public int Landings { get; }

    /// <summary>What became of the tracks: outcome, how many, for instance which.</summary>
    public IReadOnlyList<(string Outcome, int Tracks, string Example)> Outcomes { get; }

    /// <summary>What was odd in those that were read: kind, in how many, for instance.</summary>
    public IReadOnlyList<(string Kind, int Tracks, string Example)> Oddities { get; }

    /// <summary>Takes stock of tracks.</summary>
    /// <param name="descents">The tracks of a log, reduced.</param>
    /// <param name="landings">The landings looked at.</param>
    public static TrackInventory Of(LogDescents descents, IReadOnlyList<Landing> landings) => new(descents, landings);

    /// <summary>A reason without the numbers and names of the one file.</summary>
    private static string Kind(string reason) =>
        string.Join(' ', reason.Split(' ').Where(w => !w.Contains('/', StringComparison.Ordinal))
            .Select(w => w.Any(char.IsAsciiDigit) ? "…" : w)).Trim();

    /// <inheritdoc/>
    public override string Reading => Outcomes.Count == 0 ? $"No descent track belongs to any of {Rounding.Count(Landings, "landing")}. "
        + $"Put files into a folder '{LogTracks.FolderName}' beside the log, or name them in its column track."
        : $"{Rounding.Count(Outcomes.Sum(o => o.Tracks), "descent track")} for {Rounding.Count(Landings, "landing")}; "
            + $"{Rounding.Count(Outcomes.Where(o => o.Outcome == "told wind and steering apart").Sum(o => o.Tracks))} told wind "
            + $"and steering apart, {Rounding.Count(_descents.Tracks.Matches.Values.Count(m => m == TrackMatch.TimeAndPlace))} of all were "
            + "named by no row and found by time and place.";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<(string Outcome, int Tracks, string Example)>("track-inventory", "What became of the tracks", Outcomes)
        {
            { Columns.TrackOutcome, o => o.Outcome },
            { Columns.TracksBehind, o => o.Tracks },
            { Columns.Example, o => o.Example },
        },
        new TableOf<(string Kind, int Tracks, string Example)>("track-oddities", "What was odd in those that were read", Oddities)
        {
            { Columns.Kind, o => o.Kind },
            { Columns.TracksBehind, o => o.Tracks },
            { Columns.Example, o => o.Example },
        },
    ];
}
