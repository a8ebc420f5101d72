namespace JumpAnalytics;

/// <summary>The landings of a log as a scenario would have them.</summary>
/// <param name="scenario">What is asked.</param>
/// <param name="spreadRatio">
/// Standard deviation of the miss on streamers of the second age over that on those of the first, seconds.
/// </param>
/// <param name="passThrough">Share of an exit's offset along the run that is left in the landing.</param>
/// <param name="bias">Mean miss in the downwind frame, metres, about which the spread changes.</param>
internal sealed class ScenarioLandings(Scenario scenario, Func<double, double, double> spreadRatio, double passThrough, PlaneVector bias)
{
    /// <summary>Age of the streamers, seconds; null where it can't be.</summary>
    public static double? AgeOf(Drop drop) => drop.StreamerAge is { } age and >= 0 && double.IsFinite(age) ? age : null;

    /// <summary>
    /// Whether all that the scenario asks for is on record. A landing recorded on the target radius itself is a hit by rounding, and any
    /// move would make a miss of it: no model can judge it.
    /// </summary>
    public static bool CanJudge(Scenario scenario, Landing landing) =>
        (!scenario.NeedsAge || AgeOf(landing.Drop) is not null) && !(scenario.IsModelled && landing.IsOnTheRadius);

    /// <summary>Whether the pass would still be flown.</summary>
    public static bool IsFlown(Scenario scenario, Drop drop) =>
        !(scenario.WindLimit is { } wind && drop.WindSpeed > wind * (1 + Landing.OnTheRim))
        && !(scenario.StreamerLimit is { } limit && AgeOf(drop) > limit * (1 + Landing.OnTheRim));

    /// <summary>Whether the exit of this jumper would be another, and how much farther along the run it would be is known.</summary>
    public static double? ExitMove(Scenario scenario, Landing landing, int stick)
    {
        if (scenario.LargestStick is not { } largest || stick <= largest) return 0;
        if (landing.ExitOrder is not { } order || landing.Drop is not { GroundSpeed: { } speed, ExitSpacing: { } spacing, RunHeading: { } })
            return null;
        return (OffsetInParts(order, stick, largest) - (order - (stick + 1) / 2.0)) * speed * spacing;
    }

    /// <summary>Hit, miss or undecided under the scenario.</summary>
    /// <param name="landing">As it was flown.</param>
    /// <param name="stick">Jumpers of the pass.</param>
    public LandingOutcome Outcome(Landing landing, int stick)
    {
        var radius = scenario.TargetRadius ?? landing.Drop.TargetRadius;
        var moved = landing.IsCensored ? null : Moved(landing, stick);
        return Landing.OutcomeOf(moved is { } miss ? Landing.IsWithin(miss.Length, radius) : landing.IsInside(radius));
    }

    /// <summary>The miss of a landing that would have been another; null when it stays as it was.</summary>
    private LocalVector? Moved(Landing landing, int stick)
    {
        LocalVector? moved = null;
        if (scenario.FreshStreamers is { } fresh && AgeOf(landing.Drop) is { } age && age > fresh
            && landing.MissDownwind is { } miss && landing.Drop.Frame is { } frame)
        {
            var ratio = spreadRatio(age, fresh);
            moved = frame.ToLocal(new PlaneVector(bias.Along + ratio * (miss.Along - bias.Along),
                bias.Across + ratio * (miss.Across - bias.Across)));
        }
        if (ExitMove(scenario, landing, stick) is { } along and not 0 && (moved ?? landing.Miss) is { } at)
            moved = at + LocalVector.FromPolar(passThrough * along, landing.Drop.RunHeading!.Value);
        return moved;
    }

    /// <summary>
    /// Place of a jumper from the middle of their part, when a stick is parted as evenly as can be into passes of so many at the most.
    /// </summary>
    private static double OffsetInParts(int order, int stick, int largest)
    {
        var parts = (stick + largest - 1) / largest;
        var (small, larger) = Math.DivRem(stick, parts); // so many parts hold one more
        var inLarger = larger * (small + 1);
        var (size, place) = order <= inLarger ? (small + 1, (order - 1) % (small + 1) + 1) : (small, (order - inLarger - 1) % small + 1);
        return place - (size + 1) / 2.0;
    }
}
