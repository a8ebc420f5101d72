namespace JumpAnalytics;

/// <summary>The cautions that every report carries, with the numbers they rest on.</summary>
public sealed class Cautions : ShownResult
{
    private Cautions(IReadOnlyList<string> points) => Points = points;

    /// <inheritdoc/>
    public override string Reading => "Read before use.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }

    /// <summary>The caution in one sentence, for a result that is shown alone.</summary>
    internal const string InShort = "Statistics of finished jumps, an input and no decision: they give no authority to jump; "
        + "the agency's current guides and qualified staff decide. All cautions: the property Cautions.";

    /// <summary>The cautions for results that rest on some landings of a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="landings">The landings the results rest on.</param>
    public static Cautions For(JumpLog log, IReadOnlyList<Landing> landings)
    {
        var missions = landings.Select(l => l.Drop.Mission).Distinct().Count();
        var seasons = landings.Select(l => l.Drop.Season).Distinct().ToList();
        var refused = log.Intake.RefusedToCount(seasons);
        var missing = log.Sharing is null ? MissingLandings.Of(log, seasons) : null;
        var (beyond, hangUps) = (landings.Count(l => l.IsCensored), refused.Count(r => r.IsHangUpWithoutDistance));
        Func<int, string, string> count = log.Sharing is { } sharing ? sharing.Count : (n, noun) => Rounding.Count(n, noun);
        return new Cautions(
        [
            "These are statistics of finished jumps. They give no authority to jump, to choose an exit point, "
                + "a spot, a canopy or a wind limit.",
            "The agency's current operations guide, and the qualified spotter, jumper and staff on the spot, decide. "
                + "Where this report and they differ, follow them.",
            "Small samples: the rates rest on "
                + $"{(log.IsOfFewPeople ? "few people" : $"{count(missions, "mission")} and {count(landings.Count, "landing")}")}; "
                + "jumpers of one mission share a forecast and are not independent. Draw nothing from a handful of missions.",
            $"Recording bias: {count(refused.Count, "landing row")} could not be used, "
                + (log.Sharing is null
                    ? $"{hangUps} of them hang-ups without a distance, " : $"{count(hangUps, "hang-up")} without a distance among them, ")
                + $"and {count(beyond, "landing")} {(beyond == 1 ? "is" : "are")} known only as beyond a distance. "
                + (missing is not { AtLeast: > 0 } ? "" : $"At least {count(missing.AtLeast, "landing")} "
                    + $"{(missing.AtLeast == 1 ? "was" : "were")} never written down: the exit order has gaps, or a drop has no landing. ")
                + "A landing that was not written down may well have been a bad one.",
            .. log.Part is null ? [] : new[]
            {
                $"A part of the records, where {log.Part}: what is left out may differ. "
                    + "A part that was chosen after looking at the results proves nothing.",
            },
            "A miss mixes forecast, exit, canopy, steering, ground and luck. It does not rate a person, and must not be used alone for "
                + "qualification, discipline or pay.",
            "Margins and rates are inputs to a decision, not the decision. "
                + "Winds, ground and canopies of the next jump may be unlike those recorded.",
            "Units, north, datum and clock of the records are taken as their headers state them; nobody but the base can check that.",
            "Not reviewed or endorsed by any agency. Raise a safety concern through the agency's own channels.",
        ]);
    }
}
