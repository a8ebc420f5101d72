namespace JumpAnalytics;

/// <summary>
/// Distances spread over what they were written to (<see cref="WrittenSteps"/>). A radius read from distances in steps of ten is itself
/// such a step, and its limit lies on the same step or on the next: simulated 90 % limits of logs written to 10 yd held the true radius
/// in 80 %.
/// </summary>
/// <param name="Landings">The landings, with distances spread.</param>
/// <param name="Spread">How many were moved.</param>
/// <param name="Step">Metres; the largest step among them, 0 when none was.</param>
internal sealed record WrittenDistances(IReadOnlyList<Landing> Landings, int Spread, double Step)
{
    /// <summary>Spreads the distances of landings; those of a log that shows no steps stay as they are.</summary>
    /// <param name="landings">Landings.</param>
    /// <param name="options">Its seed orders the distances that were written alike.</param>
    public static WrittenDistances Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var steps = WrittenSteps.Of(landings);
        var spread = steps.Spread(landings, options.Seed);
        return new WrittenDistances([.. landings.Select((l, i) => steps.StepOf(l) > 0 ? l with { MissDistance = spread[i] } : l)],
            steps.Rounded, landings.Select(steps.StepOf).DefaultIfEmpty(0).Max());
    }
}
