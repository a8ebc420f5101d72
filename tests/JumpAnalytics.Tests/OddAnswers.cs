namespace JumpAnalytics.Tests;

/// <summary>What every report asks of a log, one answer after the other.</summary>
internal static class OddAnswers
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };

    /// <summary>Answers that simulate for seconds whatever the log; the whole of a report rests on some of them.</summary>
    public static IReadOnlySet<string> Slow { get; } = new HashSet<string>
    {
        "coverage", "claim", "misses", "backtest", "season", "season brief", "glance", "conclusions", "margins", "margins brief",
        "sticks", "what if", "cards", "clearing",
    };

    /// <summary>The answers by name; each is computed when it is asked for.</summary>
    public static IEnumerable<(string Name, Func<ShownResult> Answer)> Of(JumpLog log)
    {
        var season = new Lazy<SeasonAccuracy>(() => SeasonAccuracy.Of(log, _options));
        var review = new Lazy<SpotterReview>(() => SpotterReview.Of(log, _options));
        var margins = new Lazy<SpottingMargins>(() => SpottingMargins.Of(log, _options,
            new MarginOptions { Scenarios = Scenario.List(_options.Units, "30", "8", "10", "2") }));
        var debrief = new Lazy<MissionDebrief>(() => MissionDebrief.Of(log, "", _options));
        var forecasts = new Lazy<ForecastReview>(() => ForecastReview.Of(log, _options));
        return
        [
            .. Named(("log", () => log), ("intake", () => log.Intake), ("quarantine", () => log.Intake.QuarantineTable),
                ("set aside", () => log.Intake.SetAsideTable), ("checks", () => RecordChecks.Of(log))),
            .. Named(("season", () => season.Value), ("season brief", () => season.Value.Brief), ("glance", () => season.Value.Glance),
                ("rates", () => season.Value.Rates), ("claim", () => season.Value.Claim), ("three rates", () => season.Value.ThreeRates),
                ("changes", () => season.Value.Changes), ("trend", () => season.Value.Trend), ("misses", () => season.Value.Misses),
                ("backtest", () => season.Value.Backtest), ("coverage", () => season.Value.Coverage),
                ("conclusions", () => season.Value.Conclusions), ("season cautions", () => season.Value.Cautions),
                ("season settings", () => season.Value.Settings), ("landings", () => season.Value.LandingsTable)),
            .. Named(("spotters", () => review.Value), ("spotter brief", () => review.Value.Brief),
                ("patterns", () => review.Value.Patterns),
                ("comparison", () => review.Value.Comparison), ("charts", () => review.Value.Charts),
                ("learning", () => review.Value.Learning), ("influence", () => review.Value.Influence),
                ("driving missions", () => review.Value.DrivingMissions), ("spotter settings", () => review.Value.AskedFor)),
            .. Named(("margins", () => margins.Value), ("margins brief", () => margins.Value.Brief), ("radii", () => margins.Value.Radii),
                ("clearing", () => margins.Value.InClearing(Clearing.Parse("-60,-40; 60,-40; 60,40; -60,40", _options.Units.Distance))),
                ("shifts", () => margins.Value.Shifts),
                ("costs", () => margins.Value.LeastCost(LandingCost.Of(_options.Units, 2, "none", 50, 100))),
                ("sticks", () => margins.Value.Sticks), ("ageing", () => margins.Value.Ageing), ("what if", () => margins.Value.WhatIf),
                ("earlier margins", () => margins.Value.EarlierMargins), ("margins settings", () => margins.Value.Settings),
                ("cards", () => Showing.Of(margins.Value.Cards.Select(c => c.ToString())))),
            .. Named(("debrief", () => debrief.Value), ("budgets", () => debrief.Value.Budgets), ("winds", () => debrief.Value.Winds),
                ("plan", () => debrief.Value.Plan), ("history", () => debrief.Value.History), ("reach", () => debrief.Value.Reach),
                ("questions", () => debrief.Value.Questions), ("tracks", () => debrief.Value.Tracks),
                ("debrief settings", () => debrief.Value.Settings)),
            .. Named(("forecasts", () => forecasts.Value), ("sources", () => forecasts.Value.Sources),
                ("check", () => forecasts.Value.Check), ("streamers", () => forecasts.Value.Streamers),
                ("tracked rates", () => forecasts.Value.TrackedRates), ("inventory", () => forecasts.Value.Tracks),
                ("forecast settings", () => forecasts.Value.Settings)),
            .. Named(("groups", () => season.Value.By("month", l => l.Drop.Time.Month)),
                ("difference", () => RateDifference.Of(log.Where(l => l.Drop.StreamerAge <= 600), log.Where(l => l.Drop.StreamerAge > 600),
                    _options)),
                ("shared", () => SeasonAccuracy.Of(log.ForSharing(), _options).Rates)),
        ];

        static (string, Func<ShownResult>)[] Named(params (string, Func<ShownResult>)[] answers) => answers;
    }

    /// <summary>What is wrong with the answers to a log: exceptions, numbers that are none, words that overreach.</summary>
    /// <param name="odd">The log.</param>
    /// <param name="write">Writes a result as its page has it.</param>
    /// <param name="asking">Is told the name of each answer before it is asked for.</param>
    /// <param name="all">Whether the slow answers are asked for too.</param>
    public static IEnumerable<string> Faults(OddLog odd, Action<ShownResult, TextWriter> write, Action<string> asking, bool all)
    {
        JumpLog log;
        var refused = "";
        try
        {
            log = odd.Read();
        }
        catch (LogFormatException e)
        {
            log = null!;
            refused = e.Message; // words, not a stack: a base can act on it
        }
        if (refused.Length > 0)
        {
            yield return $"{odd.Name}: refused whole: {refused}";
            yield break;
        }
        foreach (var (name, answer) in Of(log).Where(a => all || !Slow.Contains(a.Name)))
        {
            var fault = "";
            asking(name);
            try
            {
                var result = answer();
                var page = new StringWriter();
                write(result, page);
                var text = result.ToString() + page;
                if (_noNumbers.FirstOrDefault(n => text.Contains(n, StringComparison.Ordinal)) is { } word)
                    fault = $"says {word}: …{Around(text, word)}…";
            }
            catch (Exception e)
            {
                fault = $"{e.GetType().Name}: {e.Message} {e.StackTrace?.Split('\n').FirstOrDefault(l => l.Contains(" JumpAnalytics.",
                    StringComparison.Ordinal))?.Trim()}";
            }
            if (fault.Length > 0) yield return $"{odd.Name}: {name} {fault}";
        }
    }

    private static readonly string[] _noNumbers =
        ["NaN", "Infinity", "∞", "1.79769", "-2147483648", "−2,147,483,648", "9,223,372,036,854,775,807", "forecast's part", "Now and then",
            "What was flown is not recorded"];

    private static string Around(string text, string word)
    {
        var at = text.IndexOf(word, StringComparison.Ordinal);
        return text[Math.Max(0, at - 80)..Math.Min(text.Length, at + 40)].ReplaceLineEndings(" ");
    }
}
