namespace JumpAnalytics;

/// <summary>
/// The way missions miss: one direction for each mission, that of its mean miss, because landings of one mission share a forecast. A
/// constant direction relative to the forecast drift points to the length of the drift (long, short) or its line (left, right); a constant
/// compass direction to a place or a wind set that does not turn with the drift.
/// </summary>
[TypeFormatterSource]
public sealed record MissionDirections
{
    /// <summary>
    /// The direction of each mission's mean miss, radians: clockwise from downwind (0 = long, π/2 = right), or from north.
    /// </summary>
    public required Fit<DirectionSummary> Summary { get; init; }

    /// <summary>Test that the missions prefer no direction, each counting alike.</summary>
    public required Fit<DirectionTestResult> Rayleigh { get; init; }

    /// <summary>The same with missions weighted by the rank of their mean miss: a far miss says more of a direction.</summary>
    public required Fit<DirectionTestResult> Moore { get; init; }

    /// <summary>Missions whose mean miss is too short to have a direction; left out.</summary>
    public required int WithoutDirection { get; init; }

    /// <param name="means">Mean miss of each mission, first axis and clockwise second.</param>
    /// <param name="nothingWithin">Metres below which there is no direction.</param>
    /// <param name="confidence">Coverage.</param>
    internal static MissionDirections Of(IReadOnlyList<(double First, double Second)> means, double nothingWithin, double confidence)
    {
        var used = means.Where(m => double.Hypot(m.First, m.Second) is var length && length > 0 && length >= nothingWithin).ToList();
        double[] angles = [.. used.Select(m => Math.Atan2(m.Second, m.First))];
        return new MissionDirections
        {
            Summary = DirectionSummary.Of(angles, confidence),
            Rayleigh = DirectionTests.Rayleigh(angles),
            Moore = DirectionTests.Moore(used),
            WithoutDirection = means.Count - used.Count,
        };
    }
}
