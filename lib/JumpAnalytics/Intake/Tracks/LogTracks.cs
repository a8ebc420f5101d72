using NodaTime;

namespace JumpAnalytics;

/// <summary>
/// The descent tracks of a log: for each landing its track or why there is none, and the files that belong to nobody. A
/// landing's row may name its file (<c>track</c>, a path below the log's folder); files of the folder <c>tracks</c> that no row
/// names are matched by time and place.
/// </summary>
[TypeFormatterSource]
public sealed class LogTracks
{
    /// <summary>Folder of tracks beside the log.</summary>
    public const string FolderName = "tracks";

    /// <summary>Farther than this from the recorded landing a track ended elsewhere, metres.</summary>
    internal const double FarthestEnd = 400;

    /// <summary>Nearer to it by less than this, two landings can't be told apart by place, metres.</summary>
    internal const double TellApart = 6;

    /// <summary>Minutes by which a track's exit may differ from the pass's time, which is written to the minute or by hand.</summary>
    internal const double MinutesApart = 10;

    private readonly Dictionary<Landing, Fit<DescentTrack>> _tracks;

    private LogTracks(JumpLog log, Dictionary<Landing, Fit<DescentTrack>> tracks, IReadOnlyList<(string File, string Why)> unmatched,
        IReadOnlyDictionary<string, TrackMatch> matches) =>
        (Log, _tracks, Unmatched, Matches) = (log, tracks, unmatched, matches);

    /// <summary>The records.</summary>
    public JumpLog Log { get; }

    /// <summary>Files of the folder that belong to no landing, in order of their names, with the reason.</summary>
    public IReadOnlyList<(string File, string Why)> Unmatched { get; }

    /// <summary>How each track in use came to its landing, by its name.</summary>
    public IReadOnlyDictionary<string, TrackMatch> Matches { get; }

    /// <summary>Landings with a track, in the order of the log.</summary>
    public IEnumerable<Landing> Tracked => Log.Landings.Where(l => TrackOf(l).Success);

    /// <summary>The track of a landing, or why there is none.</summary>
    /// <param name="landing">A landing of <see cref="Log"/>.</param>
    public Fit<DescentTrack> TrackOf(Landing landing) =>
        _tracks.TryGetValue(landing, out var track) ? track : Fit<DescentTrack>.Refused("no descent track");

    /// <summary>Reads the tracks of a log. The files are read anew; nothing of them is kept in the log.</summary>
    /// <param name="log">The records. One that had people taken out of it leads to no tracks.</param>
    /// <param name="options">What is possible; the defaults when left out.</param>
    public static LogTracks Of(JumpLog log, TrackOptions? options = null)
    {
        var how = options ?? new TrackOptions();
        var tracks = new Dictionary<Landing, Fit<DescentTrack>>(ReferenceEqualityComparer.Instance);
        var matches = new Dictionary<string, TrackMatch>(StringComparer.Ordinal);
        if (log.Folder is not { } folder) return new LogTracks(log, tracks, [], matches);

        var rows = log.Whole.Landings.Where(l => l.Track is not null).ToList();
        var shared = rows.GroupBy(l => Path.GetFullPath(Path.Combine(folder, l.Track!)), StringComparer.Ordinal).Where(g => g.Count() > 1)
            .SelectMany(g => g).ToHashSet(ReferenceEqualityComparer.Instance);
        var inside = log.Landings.ToHashSet<Landing>(ReferenceEqualityComparer.Instance);
        var named = rows.Where(inside.Contains).ToList();
        var read = named.AsParallel().AsOrdered().Select(l =>
            shared.Contains(l) ? Fit<DescentTrack>.Refused($"{l.Track} is named by more than one row") : Named(folder, l, how)).ToList();
        foreach (var (landing, track) in named.Zip(read))
        {
            tracks[landing] = track;
            if (track.Value is { } found) matches[found.Name] = TrackMatch.Named;
        }

        var taken = rows.Select(l => Path.GetFullPath(Path.Combine(folder, l.Track!))).ToHashSet(StringComparer.Ordinal);
        var besides = Path.Combine(folder, FolderName);
        List<string> free = Directory.Exists(besides)
            ? [.. Directory.GetFiles(besides).Where(f => TrackFile.Endings.Contains(Path.GetExtension(f).ToLowerInvariant())
                && !taken.Contains(Path.GetFullPath(f))).Order(StringComparer.Ordinal)] : [];
        // A file is given to the landing it fits best among all that were read, also where the log is a part of them.
        var unmatched = TrackAssignment.Of(log.Whole, free, tracks, matches, how);
        foreach (var landing in tracks.Keys.Where(l => !inside.Contains(l)).ToList())
        {
            matches.Remove(tracks[landing].Value!.Name);
            tracks.Remove(landing);
        }
        return new LogTracks(log, tracks, unmatched, matches);
    }

    private static Fit<DescentTrack> Named(string folder, Landing landing, TrackOptions options)
    {
        if (landing.Drop.Spot is not { } spot) return Fit<DescentTrack>.Refused(
            $"{landing.Track}: the spot's position was not recorded, so the track can't be laid on the ground");
        var recorded = TrackFile.Read(Path.Combine(folder, landing.Track!));
        if (!recorded.Success) return Fit<DescentTrack>.Refused(recorded.Reason);
        var track = DescentTrack.From(recorded.Value with { Name = landing.Track! }, spot, landing.Drop.SpotElevation, options);
        return track.Success ? Fits(track.Value, landing) : track;
    }

    /// <summary>
    /// Whether a track can be that of a landing: ended near it and was flown at the time of the pass, whole hours apart at the most.
    /// </summary>
    internal static Fit<DescentTrack> Fits(DescentTrack track, Landing landing)
    {
        var notes = new List<TrackNote>(track.Notes);
        var end = track.End;
        if (landing.Miss is { } miss && track.Touchdown is not null && (end - miss).Length is var off)
        {
            if (off > FarthestEnd) return Fit<DescentTrack>.Refused($"{track.Name} ends {Rounding.Fixed(off, 0)} m from where the landing "
                + "was recorded: it is another descent, or the wrong file");
            if (off > 60) notes.Add(
                new TrackNote("end differs", 1, $"The track ends {Rounding.Fixed(off, 0)} m from where the landing was recorded."));
        }
        else if (end.Length > 20_000)
        {
            return Fit<DescentTrack>.Refused($"{track.Name} ends {Rounding.Fixed(end.Length / 1000, 0)} km from the spot: "
                + "it is another descent, or the wrong file");
        }
        if (track.ExitTime is { } exit && PassTime(landing.Drop) is { } pass)
        {
            var minutes = (exit - pass).TotalMinutes;
            var halfHours = Math.Round(minutes / 30);
            if (Math.Abs(minutes) > MinutesApart)
            {
                if (Math.Abs(halfHours) > 28 || Math.Abs(minutes - 30 * halfHours) > MinutesApart)
                    return Fit<DescentTrack>.Refused($"{track.Name} was flown {Apart(minutes)} {(minutes > 0 ? "after" : "before")} the "
                        + "pass: it is another descent, or its clock is wrong");
                notes.Add(new TrackNote("clock", 1, $"The recorder's clock is {Rounding.Short(Math.Abs(halfHours) / 2)} h "
                    + $"{(minutes > 0 ? "ahead" : "behind")}; taken for a wrong time zone."));
            }
        }
        return Fit<DescentTrack>.Made(track with { Notes = notes });
    }

    /// <summary>The pass in UTC; null when the log does not tell its offset.</summary>
    internal static Instant? PassTime(Drop drop) => drop.UtcOffset is { } offset ? drop.Time.WithOffset(offset).ToInstant() : null;

    private static string Apart(double minutes) =>
        Math.Abs(minutes) < 2880 ? $"{Rounding.Fixed(Math.Abs(minutes), 0)} min" : $"{Rounding.Fixed(Math.Abs(minutes) / 1440, 0)} days";
}
