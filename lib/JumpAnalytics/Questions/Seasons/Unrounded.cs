namespace JumpAnalytics;

/// <summary>
/// Misses spread over what they were rounded to. Distances are paced and written to 5 or 10 units; a test of a smooth distribution would
/// find the steps and call the distribution wrong.
/// </summary>
internal static class Unrounded
{
    /// <summary>
    /// The sample with rounded distances laid evenly over their rounding, bearing kept; <paramref name="sample"/> where none was rounded.
    /// </summary>
    /// <param name="landings">Landings.</param>
    /// <param name="sample">The same as an error distribution sees them.</param>
    /// <param name="seed">Seed of the order of the distances.</param>
    public static PlaneSample Of(IReadOnlyList<Landing> landings, PlaneSample sample, int seed)
    {
        var steps = WrittenSteps.Of(landings);
        if (steps.Rounded == 0) return sample;
        var (distances, random) = (steps.Spread(landings, seed), SeedStream.For(seed, "directions of misses rounded to none"));
        return MissionSample.Of(landings.Select((l, i) => steps.StepOf(l) > 0 && l.Miss is { } miss
            ? l with
            {
                Miss = LocalVector.FromPolar(distances[i], miss.Direction ?? Bearing.FromDegrees(360 * random.NextDouble())),
                MissDistance = distances[i],
            }
            : l)).Misses();
    }
}
