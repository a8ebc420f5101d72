namespace JumpAnalytics;

/// <summary>The cautions that every report carries, with the numbers they rest on.</summary>
public sealed class Cautions : ShownResult
{
    private Cautions(IReadOnlyList<string> points) => Points = points;

    /// <inheritdoc/>
    public override string Reading => "Read before use.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }

    /// <summary>The cautions for results from a log.</summary>
    /// <param name="log">The records the results rest on.</param>
    public static Cautions For(JumpLog log)
    {
        var missions = log.Landings.Select(l => l.Drop.Mission).Distinct().Count();
        return new Cautions(
        [
            "These are statistics of finished jumps. They give no authority to jump, to choose an exit point, a spot, a canopy or a wind limit.",
            "The agency's current operations guide, and the qualified spotter, jumper and staff on the spot, decide. Where this report and they differ, follow them.",
            $"Small samples: all numbers rest on {Rounding.Count(missions, "mission")} and {Rounding.Count(log.Landings.Count, "landing")}; jumpers of one mission share a forecast and are not independent. "
                + "Draw nothing from a handful of missions.",
            $"Recording bias: {Rounding.Count(log.Intake.RowsQuarantined, "row")} of {Rounding.Count(log.Intake.RowsRead)} could not be used, {log.Intake.RefusedHangUps} of them hang-ups without a distance, "
                + $"and {Rounding.Count(log.Landings.Count(l => l.IsCensored), "landing")} {(log.Landings.Count(l => l.IsCensored) == 1 ? "is" : "are")} known only as beyond a distance. A landing that was not written down may well have been a bad one.",
            "A miss mixes forecast, exit, canopy, steering, ground and luck. It does not rate a person, and must not be used alone for qualification, discipline or pay.",
            "Margins and rates are inputs to a decision, not the decision. Winds, ground and canopies of the next jump may be unlike those recorded.",
            "Units, north, datum and clock of the records are taken as their headers state them; nobody but the base can check that.",
            "Not reviewed or endorsed by any agency. Raise a safety concern through the agency's own channels.",
        ]);
    }
}
