namespace JumpAnalytics;

/// <summary>What the descent tracks of a log tell: for each landing the track, and the wind and steering found in it.</summary>
public sealed class LogDescents : ShownResult
{
    private readonly Dictionary<Landing, Fit<FlownDescent>> _flights;

    private LogDescents(LogTracks tracks, Dictionary<Landing, Fit<FlownDescent>> flights) => (Tracks, _flights) = (tracks, flights);

    /// <summary>The tracks, and the files that belong to nobody.</summary>
    public LogTracks Tracks { get; }

    /// <summary>The records.</summary>
    public JumpLog Log => Tracks.Log;

    /// <inheritdoc/>
    public override string Reading => Inventory.Reading;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => Inventory.Points;

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => Inventory.Tables;

    private TrackInventory Inventory => TrackInventory.Of(this, Log.Landings);

    /// <summary>The track of a landing, or why there is none.</summary>
    /// <param name="landing">A landing of <see cref="Log"/>.</param>
    public Fit<DescentTrack> TrackOf(Landing landing) => Tracks.TrackOf(landing);

    /// <summary>Wind and steering found in the track of a landing, or why there are none.</summary>
    /// <param name="landing">A landing of <see cref="Log"/>.</param>
    public Fit<FlownDescent> FlightOf(Landing landing) =>
        _flights.TryGetValue(landing, out var flight) ? flight : Fit<FlownDescent>.Refused(TrackOf(landing).Reason ?? "no descent track");

    /// <summary>The parts of a miss, steering known where a track tells it, and the exit too where the record does not.</summary>
    /// <param name="landing">A landing of <see cref="Log"/> whose place is known.</param>
    /// <exception cref="ArgumentException">The landing's place is unknown.</exception>
    public MissBudget BudgetOf(Landing landing) =>
        MissBudget.Of(landing, FlightOf(landing).Value?.Steering, trackedExit: TrackOf(landing).Value?.ExitPlace);

    /// <summary>What the jumper of a landing flew, with its error; null where no track tells it.</summary>
    /// <param name="landing">A landing of <see cref="Log"/>.</param>
    public KnownSteering? SteeringOf(Landing landing) => FlightOf(landing).Value is { } flight
        ? new KnownSteering(flight.Steering, flight.SteeringError, TrackOf(landing).Value?.ExitPlace) : null;

    /// <summary>Reads and reduces the tracks that belong to a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">How a descent is reduced; the defaults when left out. The exit height is that of the landing's pass.</param>
    public static LogDescents Of(JumpLog log, FlownDescentOptions? options = null) => Of(LogTracks.Of(log), options);

    /// <summary>Reduces tracks that were read before.</summary>
    /// <param name="tracks">The tracks.</param>
    /// <param name="options">How a descent is reduced; the defaults when left out. The exit height is that of the landing's pass.</param>
    /// <exception cref="ArgumentOutOfRangeException">An option makes no sense.</exception>
    public static LogDescents Of(LogTracks tracks, FlownDescentOptions? options = null)
    {
        var how = options ?? new FlownDescentOptions();
        how.Check();
        var tracked = tracks.Tracked.ToList();
        var flown = tracked.AsParallel().AsOrdered()
            .Select(l => FlownDescent.Of(tracks.TrackOf(l).Value!, how with { ExitHeight = how.ExitHeight ?? l.Drop.ExitHeight })).ToList();
        var flights = new Dictionary<Landing, Fit<FlownDescent>>(ReferenceEqualityComparer.Instance);
        foreach (var (landing, flight) in tracked.Zip(flown)) flights[landing] = flight;
        return new LogDescents(tracks, flights);
    }
}
