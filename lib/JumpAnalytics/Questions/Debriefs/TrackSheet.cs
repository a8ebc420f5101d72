namespace JumpAnalytics;

/// <summary>The descent tracks of a mission: what was found in each, what it could be used for, and what was wrong with it.</summary>
public sealed class TrackSheet : ShownResult
{
    private readonly IReadOnlyList<DebriefedPass> _passes;
    private readonly AccuracyOptions _options;

    private TrackSheet(IReadOnlyList<DebriefedPass> passes, AccuracyOptions options) => (_passes, _options) = (passes, options);

    internal static TrackSheet Of(IReadOnlyList<DebriefedPass> passes, AccuracyOptions options) => new(passes, options);

    private IEnumerable<(DebriefedPass Pass, DebriefedJumper Jumper)> Jumpers => _passes.SelectMany(p => p.Jumpers.Select(j => (p, j)));

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var (all, tracked, used) =
                (Jumpers.Count(), Jumpers.Count(j => j.Jumper.Track.Success), Jumpers.Count(j => j.Jumper.Flight.Success));
            return tracked == 0 ? $"No descent track for any of {Rounding.Count(all, "landing")}: {Reasons(j => j.Track.Reason)}."
                : $"{Rounding.Count(tracked, "descent track")} for {Rounding.Count(all, "landing")}; "
                    + $"{Rounding.Count(used)} told wind and steering "
                    + $"apart{(used < tracked ? $", the others not: {Reasons(j => j.Track.Success ? j.Flight.Reason : null)}" : "")}.";
        }
    }

    /// <summary>The reasons there are, each once with how often.</summary>
    private string Reasons(Func<DebriefedJumper, string?> why) =>
        string.Join("; ", Jumpers.Select(j => why(j.Jumper)).OfType<string>().CountBy(r => r).OrderByDescending(r => r.Value)
            .ThenBy(r => r.Key, StringComparer.Ordinal).Select(r => r.Value == 1 ? r.Key : $"{r.Key} ({Rounding.Count(r.Value)})"));

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var speed = _options.Units.Speed;
            return
            [
                new TableOf<(DebriefedPass Pass, DebriefedJumper Jumper)>("descent-tracks", "Descent tracks", Jumpers,
                    (Jumpers.Any(j => j.Jumper.Flight.Success) ? $"Intervals at {Rounding.Percent(_options.Confidence)}. " : "")
                        + "In brackets: how sure it is that the moment is the one named.")
                {
                    { Columns.PassNumber, j => DebriefWords.Who(j.Pass, j.Jumper) },
                    { Columns.TrackFileName, j => TrackOf(j)?.Name ?? j.Jumper.Landing.Track },
                    { Columns.TrackPointCount, j => TrackOf(j)?.Points.Count },
                    { Columns.SampledEvery, j => TrackOf(j) is { } track ? Every(track.Points) : null },
                    { Columns.ExitFound, j => Found(TrackOf(j), TrackOf(j)?.Exit) },
                    { Columns.OpeningFound, j => Found(TrackOf(j), TrackOf(j)?.Opening) },
                    { Columns.TouchdownFound, j => Found(TrackOf(j), TrackOf(j)?.Touchdown) },
                    {
                        Columns.SpeedRange("forward_speed", "forward speed", speed, "Speed through the air, mean over the descent."),
                        j => j.Jumper.Flight.Value?.ForwardSpeed.Select(speed.FromSi)
                    },
                    {
                        Columns.SpeedRange("descent_rate", "descent rate", _options.Units.Descent,
                            "Speed downward, mean over the descent under canopy."),
                        j => j.Jumper.Flight.Value?.DescentRate.Select(_options.Units.Descent.FromSi)
                    },
                    { Columns.FullTurn, j => j.Jumper.Flight.Value?.FullTurnSeconds },
                    { Columns.UsedFor, j => UsedFor(j.Jumper) },
                    { Columns.TrackRemarks, j => TrackOf(j) is { } track ? string.Join(" ", track.Notes.Select(n => n.Text)) : null },
                },
            ];
        }
    }

    private static DescentTrack? TrackOf((DebriefedPass Pass, DebriefedJumper Jumper) j) => j.Jumper.Track.Value;

    private static string UsedFor(DebriefedJumper jumper) =>
        jumper.Flight.Success ? "wind and steering"
        : jumper.Track.Success ? $"path only: {jumper.Flight.Reason}" : $"nothing: {jumper.Track.Reason}";

    private static string? Found(DescentTrack? track, TrackMoment? moment) => track is null ? null : moment is null ? "not in the track"
        : $"{Rounding.Fixed(moment.Seconds, 0)} s ({Rounding.Chance(moment.Confidence)})";

    private static double? Every(IReadOnlyList<TrackPoint> points)
    {
        if (points.Count < 2) return null;
        double[] gaps = [.. points.Zip(points.Skip(1), (a, b) => b.Seconds - a.Seconds).Order()];
        return gaps[gaps.Length / 2];
    }
}
