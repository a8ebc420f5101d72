namespace JumpAnalytics;

/// <summary>What a scenario would have done to the landings of a log.</summary>
[TypeFormatterSource]
public sealed record WhatIfResult
{
    /// <summary>What was asked.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>Landings that can be judged: what the scenario asks for is on record.</summary>
    public required int Judged { get; init; }

    /// <summary>Their missions.</summary>
    public required int JudgedMissions { get; init; }

    /// <summary>Landing rate of these as they were flown.</summary>
    public required Fit<ClusteredProportion> AsFlown { get; init; }

    /// <summary>Landing rate of those still flown, under the scenario.</summary>
    public required Fit<ClusteredProportion> Rate { get; init; }

    /// <summary>Rate under the scenario less rate as flown, over the same missions.</summary>
    public required Fit<Estimate> Change { get; init; }

    /// <summary>Share of the judged missions that still have a landing.</summary>
    public required Estimate MissionsFlown { get; init; }

    /// <summary>Share of the judged landings that are still made.</summary>
    public required Estimate LandingsFlown { get; init; }

    /// <summary>Whether the rate is counted from landings that were made, or modelled.</summary>
    public bool IsModelled => Scenario.IsModelled;

    /// <summary>What to know beside the numbers; null when there is nothing.</summary>
    public string? Note { get; init; }
}
