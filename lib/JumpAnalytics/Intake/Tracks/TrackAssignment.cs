namespace JumpAnalytics;

/// <summary>
/// Gives files that no row names to landings without a track, one to one, by time and place; what is not clear is left out with its reason.
/// </summary>
internal static class TrackAssignment
{
    private sealed record Pair(string File, Landing Landing, DescentTrack Track, double Cost);

    public static IReadOnlyList<(string File, string Why)> Of(JumpLog log, IReadOnlyList<string> files,
        Dictionary<Landing, Fit<DescentTrack>> tracks, Dictionary<string, TrackMatch> matches, TrackOptions options)
    {
        var open = log.Landings.Where(l => l.Track is null && l.Drop.Spot is not null && l.Miss is not null).ToLookup(l => l.Drop.Id);
        var drops = log.Drops.Where(d => open.Contains(d.Id)).ToList();
        var found = files.AsParallel().AsOrdered().Select(f => (File: f, Read: Pairs(f, drops, open, options))).ToList();
        var (unmatched, pairs) = (new List<(string, string)>(), new List<Pair>());
        foreach (var (file, read) in found)
        {
            if (read.Why is { } why) unmatched.Add((Path.GetFileName(file), why));
            else pairs.AddRange(read.Pairs);
        }
        var (usedFiles, usedLandings) =
            (new HashSet<string>(StringComparer.Ordinal), new HashSet<Landing>(ReferenceEqualityComparer.Instance));
        foreach (var pair in pairs.OrderBy(p => p.Cost).ThenBy(p => p.File, StringComparer.Ordinal).ThenBy(p => p.Landing.Source.Line))
        {
            if (usedFiles.Contains(pair.File) || usedLandings.Contains(pair.Landing)) continue;
            usedFiles.Add(pair.File);
            if (pairs.FirstOrDefault(p => p.File == pair.File && p != pair && !usedLandings.Contains(p.Landing)
                && p.Cost - pair.Cost < LogTracks.TellApart) is { } other)
            {
                unmatched.Add((Path.GetFileName(pair.File),
                    $"it fits {Where(pair.Landing)} and {Where(other.Landing)} alike; name it in the track column"));
                continue;
            }
            usedLandings.Add(pair.Landing);
            tracks[pair.Landing] = Fit<DescentTrack>.Made(
                pair.Track with { Notes = [.. pair.Track.Notes, new TrackNote("matched", 1, "No row names this file; it was given to this "
                    + $"landing by time and place, ending {Rounding.Fixed(pair.Cost, 0)} m from it.")] });
            matches[pair.Track.Name] = TrackMatch.TimeAndPlace;
        }
        unmatched.AddRange(pairs.Select(p => p.File).Distinct().Where(f => !usedFiles.Contains(f))
            .Select(f => (Path.GetFileName(f), "the landings it fits have better fitting tracks")));
        return [.. unmatched.OrderBy(u => u.Item1, StringComparer.Ordinal)];
    }

    private static string Where(Landing landing) => $"{landing.Drop.Id}{(landing.ExitOrder is { } order ? $", jumper {order}" : "")}";

    /// <summary>The landings a file may belong to, or why to none.</summary>
    private static (IReadOnlyList<Pair> Pairs, string? Why) Pairs(string file, List<Drop> drops,
        ILookup<string, Landing> open, TrackOptions options)
    {
        var recorded = TrackFile.Read(file);
        if (!recorded.Success) return ([], recorded.Reason);
        var pairs = new List<Pair>();
        string? refused = null;
        var last = recorded.Value.Fixes[^1].Place;
        foreach (var drop in drops)
        {
            if (LogTracks.PassTime(drop) is { } pass && recorded.Value.Start is { } start && Math.Abs((start - pass).TotalHours) > 15)
                continue;
            if (new LocalFrame(drop.Spot!.Value).ToLocal(last).Length > 5000) continue;
            var track = DescentTrack.From(recorded.Value with { Name = $"{LogTracks.FolderName}/{recorded.Value.Name}" },
                drop.Spot.Value, drop.SpotElevation, options);
            if (!track.Success)
            {
                refused = track.Reason;
                continue;
            }
            if (track.Value.Touchdown is null)
            {
                refused = "it ends in the air, so that no landing can be told by its place; name it in the track column";
                continue;
            }
            foreach (var landing in open[drop.Id])
            {
                if (LogTracks.Fits(track.Value, landing) is { Success: true } fits)
                    pairs.Add(new Pair(file, landing, fits.Value, (track.Value.End - landing.Miss!.Value).Length));
            }
        }
        return pairs.Count > 0 ? (pairs, null) : ([], refused ?? "no landing without a track lies near its end at its time");
    }
}
