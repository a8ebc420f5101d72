namespace JumpAnalytics;

/// <summary>One jumper of a mission that is debriefed. Named by pass and place in the stick; the code stays out.</summary>
[TypeFormatterSource]
public sealed record DebriefedJumper
{
    /// <summary>The landing.</summary>
    public required Landing Landing { get; init; }

    /// <summary>What the tape measure and the track say: the parts of the miss, or why it can't be split.</summary>
    public required Fit<MissBudget> Budget { get; init; }

    /// <summary>The track of the descent, or why there is none.</summary>
    public required Fit<DescentTrack> Track { get; init; }

    /// <summary>Wind and steering found in the track, or why there are none.</summary>
    public required Fit<FlownDescent> Flight { get; init; }

    /// <summary>Whether the track parted what was flown from what the wind did, so that the forecast error is known.</summary>
    public bool IsParted => Budget.Value?.ForecastError.Vector is not null;

    internal static DebriefedJumper Of(Landing landing, LogDescents descents) => new()
    {
        Landing = landing,
        Budget = landing.Miss is null
            ? Fit<MissBudget>.Refused("the landing is known only as beyond a distance") : Fit<MissBudget>.Made(descents.BudgetOf(landing)),
        Track = descents.TrackOf(landing),
        Flight = descents.FlightOf(landing),
    };
}
