namespace JumpAnalytics;

/// <summary>What a season's records allow to be said of the landing rate, and what they don't, with numbers.</summary>
public sealed class Conclusions : ShownResult
{
    private Conclusions(IReadOnlyList<string> points) => Points = points;

    /// <inheritdoc/>
    public override string Reading => "What can and what can't be concluded from these records:";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }

    internal static Conclusions Of(RateTable rates, IntakeReport intake)
    {
        var points = new List<string>();
        if (rates.Overall.Counted is not { Success: true, Value: var all })
            return new Conclusions([$"Nothing can be said: {rates.Overall.Counted.Reason}."]);
        points.Add("Can: the landing rate, that is how often jumpers, who steer, came down inside the target radius: "
            + $"{Rounding.Percent(all.Rate)}, from {Rounding.Count(all.Missions, "mission")} and {Rounding.Count(all.Landings, "landing")}.");
        points.Add("Can't: how often the forecast alone would have been right. What the jumper flew is in every landing, and without descent tracks it can't be taken out. "
            + "A good landing rate may hide a poor forecast, and the other way round.");
        points.Add(UnknownLandings(rates.Overall, intake));
        if (ModelGap(rates) is { } gap) points.Add(gap);
        var thin = rates.Cells.Where(c => !c.IsMargin && c.Counted.Success && c.Missions < CellRate.FewMissions).ToList();
        var empty = rates.Cells.Count(c => !c.IsMargin && !c.Counted.Success);
        if (thin.Count + empty > 0)
        {
            points.Add($"Can't: the rate of single cells with few missions. {Rounding.Count(thin.Count, "cell")} rest{(thin.Count == 1 ? "s" : "")} on fewer than {CellRate.FewMissions} missions"
                + (empty > 0 ? $" and {empty} {(empty == 1 ? "has" : "have")} no landing" : "") + ".");
        }
        points.Add("Can't: causes. Wind, terrain, season and spotter go together in the records; a cell that stands out is where to look first, not whom to blame.");
        return new Conclusions(points);
    }

    /// <summary>How far the rate could move if the landings that could not be counted had all been hits, or all misses.</summary>
    private static string UnknownLandings(CellRate all, IntakeReport intake)
    {
        var unknown = intake.RefusedLandings + all.Undecided;
        if (unknown == 0) return "Every landing row could be counted; landings that nobody wrote down are not in any number here.";
        var total = all.Landings + unknown;
        return $"{Rounding.Count(unknown, "landing")} could not be counted ({Rounding.Count(intake.RefusedLandings, "row")} quarantined, {intake.RefusedHangUps} of them hang-ups without a distance; "
            + $"{all.Undecided} undecided). Had all of them been misses the rate would be {Rounding.Percent((double)all.Hits / total, 1)}, had all been hits {Rounding.Percent((double)(all.Hits + unknown) / total, 1)}, "
            + $"against {Rounding.Percent((double)all.Hits / all.Landings, 1)} as counted. Landings that nobody wrote down are in none of these.";
    }

    private static string? ModelGap(RateTable rates)
    {
        if (rates.Overall is not { ModelRate: { Success: true, Value: var model }, Counted.Value.Rate: { Range: { } range } counted }) return null;
        return range.Contains(model.Value)
            ? $"The bivariate normal fitted to all misses implies {Rounding.Percent(model)}, in keeping with the counted {Rounding.Percent(counted.Value)}."
            : $"The bivariate normal fitted to all misses implies {Rounding.Percent(model)}, outside the interval of the counted rate ({Rounding.Percent(counted)}): misses don't follow one normal "
                + "(mixed winds, terrains and a tail of far landings), so trust the counted rate and use the model's for shape only.";
    }
}
