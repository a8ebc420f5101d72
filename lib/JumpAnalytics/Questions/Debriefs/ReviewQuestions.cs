namespace JumpAnalytics;

/// <summary>
/// Questions for the review after the mission, with what the record can add to each: what was planned, what happened, why it
/// differed, what to keep and what to change. The four questions are the usual ones of an after-action review; good passes are
/// asked about as well as poor ones.
/// </summary>
public sealed class ReviewQuestions : ShownResult
{
    private ReviewQuestions(IReadOnlyList<AskedQuestion> questions) => Questions = questions;

    /// <summary>One question.</summary>
    /// <param name="Heading">Planned, happened, why, or next time.</param>
    /// <param name="Question">The question.</param>
    /// <param name="RecordSays">What the record says to it; empty when it says nothing.</param>
    [TypeFormatterSource]
    public sealed record AskedQuestion(string Heading, string Question, string RecordSays);

    /// <summary>The questions, in the order of a review.</summary>
    public IReadOnlyList<AskedQuestion> Questions { get; }

    internal static ReviewQuestions Of(IReadOnlyList<DebriefedPass> passes, PlanAndOutcome plan,
        HistoryComparison history, AccuracyOptions options)
    {
        var asked = new List<AskedQuestion>();
        void Ask(string heading, string question, string says = "") => asked.Add(new(heading, question, says));

        Ask("planned", "What was the plan for spot, exit point, order and approach, and had everybody the same picture of it?",
            string.Join("; ", passes.Select(p => $"{p.Name}: {Rounding.Count(p.Jumpers.Count, "jumper")}, "
                + $"drift {DebriefWords.Vector(p.Drop.ForecastDrift, options)}, "
                + $"target radius {DebriefWords.Distance(p.Drop.TargetRadius, options)}")));
        Ask("happened", "What did each of you see, from the streamers to the ground?",
            string.Join("; ", passes.Select(p => $"{p.Name}: {p.Hits} of {Rounding.Count(p.Decided.Count)} inside")));

        foreach (var pass in passes)
        {
            var name = pass.Name;
            if (plan.Rows.Any(r => r.Pass == pass && r is { What: PlanAndOutcome.Exit, AsPlanned: false })
                && pass.ExitPlacement is { } exit)
                Ask("why", $"What moved the exit of {name}: the count, the run, the drift on the way in, or a change of mind?",
                    AlongRun(pass, exit, options));
            if (history.Of(pass, HistoryComparison.Age) is { Standing: HistoryStanding.Large or HistoryStanding.PerhapsLarge } age)
                Ask("why", $"Would a second set of streamers have shown another wind before {name}?",
                    $"streamers {Rounding.Fixed(age.Value / 60, 0)} min old at exit; {age.Words}");
            if (pass.ForecastError is { } error && pass.Drop.Frame is { } frame)
            {
                var size = $"forecast error {DebriefWords.Sides(frame.ToDownwind(error), options)}, "
                    + $"by {Rounding.Count(pass.Parted, "track")}";
                if (plan.Rows.Any(r => r.Pass == pass && r is { What: PlanAndOutcome.Drift, AsPlanned: false }))
                    Ask("why", $"What made the drift of {name} differ: another wind than the streamers met, a turn of it with height, "
                        + "or another rate of descent?", size);
                else if (pass.Hits == pass.Decided.Count && pass.Hits > 0 && !Landing.IsWithin(error.Length, pass.Drop.TargetRadius))
                    Ask("why", $"What did the jumpers of {name} see, and when, that let them steer it off?",
                        $"all inside, though without steering they would have come down outside: {size}");
            }
            foreach (var jumper in pass.Jumpers.Where(j => j.Landing.Outcome == LandingOutcome.Miss))
                Ask("why", $"What was in the way of {DebriefWords.Who(pass, jumper)}: height, wind, ground, canopy, traffic, "
                    + "or the picture of the spot?", Landed(jumper, options));
        }
        if (passes.All(p => p.Hits == p.Decided.Count && p.Decided.Count > 0))
            Ask("why", "All came down inside: what made it work, and was any of it luck?");
        Ask("next time", "What is worth keeping?",
            string.Join("; ", plan.Rows.Where(r => r.AsPlanned == true).Select(r => $"{r.Pass.Name}: {r.What} as planned")));
        Ask("next time", "What would you do otherwise, and who needs to hear of it?", passes.All(p => p.Parted == 0) && passes.Count > 0
            ? "no descent track: a recorder on one jumper of each pass would tell forecast from steering" : "");
        return new ReviewQuestions(asked);
    }

    private static string AlongRun(DebriefedPass pass, LocalVector exit, AccuracyOptions options)
    {
        if (pass.Drop.RunHeading is not { } heading) return $"exit {DebriefWords.Vector(exit, options)} of the plan";
        var (sin, cos) = Math.SinCos(heading.Radians);
        var (along, right) = (exit.East * sin + exit.North * cos, exit.East * cos - exit.North * sin);
        return $"{DebriefWords.Distance(Math.Abs(along), options)} {(along > 0 ? "late" : "early")} on the run and "
            + $"{DebriefWords.Distance(Math.Abs(right), options)} {(right > 0 ? "right" : "left")} of it"
            + (pass.Drop.GroundSpeed is { } speed ? $"; {Rounding.Fixed(Math.Abs(along) / speed, 1)} s at the ground speed" : "");
    }

    private static string Landed(DebriefedJumper jumper, AccuracyOptions options)
    {
        var (landing, budget) = (jumper.Landing, jumper.Budget.Value);
        var place = landing.Beyond is { } beyond ? $"beyond {DebriefWords.Distance(beyond, options)}, place unknown"
            : landing.MissDownwind is { } miss ? DebriefWords.Sides(miss, options)
            : DebriefWords.Distance(landing.MissDistance ?? 0, options);
        return place + (landing.HungUp == true ? "; hung up" : "")
            + (budget?.ForecastError.Vector is { } error && budget.Steering.Vector is { } steering ? "; forecast error "
                + $"{DebriefWords.Distance(error.Length, options)}, steered {DebriefWords.Distance(steering.Length, options)}" : "");
    }

    /// <inheritdoc/>
    public override string Reading => "For the whole crew, soon after landing. The record adds facts; it has no answers.";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<AskedQuestion>("review-questions", "Questions for the review", Questions)
        {
            { Columns.AskedUnder, q => q.Heading },
            { Columns.ReviewQuestion, q => q.Question },
            { Columns.RecordSays, q => q.RecordSays },
            { Columns.Answer, _ => "" },
        },
    ];
}
