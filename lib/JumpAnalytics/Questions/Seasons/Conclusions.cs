namespace JumpAnalytics;

/// <summary>What a season's records allow to be said of the landing rate, and what they don't, with numbers.</summary>
public sealed class Conclusions : ShownResult
{
    private Conclusions(IReadOnlyList<string> points, IReadOnlyList<TableView> tables) => (Points, Tables) = (points, tables);

    /// <inheritdoc/>
    public override string Reading => "What can and what can't be concluded from these records:";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables { get; }

    internal static Conclusions Of(SeasonAccuracy accuracy)
    {
        if (accuracy.Log.Sharing is not null) return new Conclusions([], []);
        var rates = accuracy.Rates;
        var readings = accuracy.Readings;
        if (rates.Overall.Counted is not { Success: true })
            return new Conclusions([$"Nothing can be said: {rates.Overall.Counted.Reason}."], []);
        var points = new List<string>
        {
            $"Can: the landing rate, that is how often jumpers, who steer, came down inside the target radius. {readings.Reading} "
                + readings.VerdictSentence,
            "Can't: how often the forecast alone would have been right. What the jumper flew is in every landing, and without descent "
                + "tracks it can't be taken out. A good landing rate may hide a poor forecast, and the other way round.",
        };
        points.AddRange(Uncounted(readings));
        if (readings.HangUps > 0 && HangUps(accuracy.Landings) is { } share) points.Add(share);
        if (readings.RoundingSentence is { } rounding) points.Add(rounding);
        if (rates.Overall.NormalFitsBadly)
        {
            points.Add($"Can't: use one normal for all misses. It implies {Rounding.Percent(rates.Overall.ModelRate.Value!)}, "
                + "outside the interval of the counted rate: more landings lie near the spot, and more far off, "
                + "than a normal has. Quote counted rates, and don't read the ellipses as shares.");
        }
        var thin = rates.Cells.Count(c => !c.IsMargin && c.Counted.Success && c.Missions < CellRate.FewMissions);
        var empty = rates.Cells.Count(c => !c.IsMargin && !c.Counted.Success);
        if (thin + empty > 0)
        {
            points.Add($"Can't: the rate of single cells with few missions. {Rounding.Count(thin, "cell")} rest{(thin == 1 ? "s" : "")} on "
                + $"fewer than {CellRate.FewMissions} missions"
                + (empty > 0 ? $" and {empty} {(empty == 1 ? "has" : "have")} no landing" : "") + ".");
        }
        points.Add("Can't: causes. Wind, terrain, target radius, season and spotter go together in the records; "
            + "a cell that stands out is where to look first, not whom to blame.");
        return new Conclusions(points, accuracy.Readings.Tables);
    }

    /// <summary>How far the rate could move if the landings that are in no count had all been hits, or all misses.</summary>
    private static IEnumerable<string> Uncounted(RateReadings readings)
    {
        if (readings.UncountedSentence is { } uncounted) yield return uncounted;
        else yield return "Every landing row could be counted" + (readings.IsNumbered ? ", and the exit order has no gap." : ".");
        if (readings.TippingSentence is { } tipping) yield return tipping;
        if (!readings.IsNumbered)
        {
            yield return "Can't: how many landings were never written down. "
                + "The exit order is not recorded, so a missing landing leaves no gap.";
        }
    }

    private static string? HangUps(IReadOnlyList<Landing> landings)
    {
        var told = landings.Where(l => l.Outcome != LandingOutcome.Undecided)
            .ToLookup(l => l.HungUp == true, l => l.Outcome == LandingOutcome.Hit);
        if (!told.Contains(true) || !told.Contains(false)) return null;
        return $"Of {Rounding.Count(told[true].Count(), "hang-up")} with a known result, "
            + $"{Rounding.Percent(told[true].Average(h => h ? 1.0 : 0))} came down inside the target radius, "
            + $"of {Rounding.Count(told[false].Count(), "other landing")} {Rounding.Percent(told[false].Average(h => h ? 1.0 : 0))}.";
    }
}
