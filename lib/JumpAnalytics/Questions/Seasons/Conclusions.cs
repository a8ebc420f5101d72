namespace JumpAnalytics;

/// <summary>What a season's records allow to be said of the landing rate, and what they don't, with numbers.</summary>
public sealed class Conclusions : ShownResult
{
    private Conclusions(IReadOnlyList<string> points) => Points = points;

    /// <inheritdoc/>
    public override string Reading => "What can and what can't be concluded from these records:";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }

    internal static Conclusions Of(SeasonAccuracy accuracy)
    {
        if (accuracy.Log.Sharing is not null) return new Conclusions([]);
        var rates = accuracy.Rates;
        if (rates.Overall.Counted is not { Success: true, Value: var all })
            return new Conclusions([$"Nothing can be said: {rates.Overall.Counted.Reason}."]);
        var points = new List<string>
        {
            "Can: the landing rate, that is how often jumpers, who steer, came down inside the target radius: "
                + $"{Rounding.Percent(all.Rate)}, from {Rounding.Count(all.Missions, "mission")} and "
                + $"{Rounding.Count(all.Landings, "landing")}.",
            "Can't: how often the forecast alone would have been right. What the jumper flew is in every landing, and without descent "
                + "tracks it can't be taken out. A good landing rate may hide a poor forecast, and the other way round.",
        };
        points.AddRange(Uncounted(accuracy, all));
        points.AddRange(OnTheRadius(accuracy, all));
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
        return new Conclusions(points);
    }

    /// <summary>How far the rate could move if the landings that could not be counted had all been hits, or all misses.</summary>
    private static IEnumerable<string> Uncounted(SeasonAccuracy accuracy, ClusteredProportion all)
    {
        var refused = accuracy.Log.Intake.RefusedLandings(accuracy.Seasons);
        var undecided = accuracy.Rates.Overall.Undecided;
        var unknown = refused.Count + undecided;
        if (unknown == 0)
        {
            yield return "Every landing row could be counted; landings that nobody wrote down are in no number here.";
            yield break;
        }
        var total = all.Landings + unknown;
        var (least, most) = ((double)all.Hits / total, (double)(all.Hits + unknown) / total);
        var hangUps = refused.Count(r => r.IsHangUpWithoutDistance);
        var text = $"Up to {Rounding.Count(unknown, "landing")} could not be counted ({Rounding.Count(refused.Count, "row")} quarantined, "
            + $"{hangUps} of them hang-ups without a distance; {undecided} undecided). "
            + $"Had all been misses the rate would be {Rounding.Percent(least, 1)}, had all been hits {Rounding.Percent(most, 1)}, "
            + $"against {Rounding.Percent(all.Rate.Value, 1)} as counted.";
        var confidence = accuracy.Options.Confidence;
        if (all.IntervalAt(least, total, confidence) is { } low && all.IntervalAt(most, total, confidence) is { } high)
        {
            var (benchmark, verdict) = (accuracy.Options.Benchmark, accuracy.Rates.Overall.Verdict);
            var holds = verdict switch
            {
                BenchmarkVerdict.Above => low.Low > benchmark,
                BenchmarkVerdict.Below => high.High < benchmark,
                _ => true,
            };
            text += $" Allowing for chance and for these together: {Rounding.Percent(low.Low, 1)} to {Rounding.Percent(high.High, 1)}"
                + (verdict == BenchmarkVerdict.CannotTell ? "." : holds ? "; the reading against the benchmark holds at both ends."
                    : "; at one end the reading against the benchmark no longer holds.");
        }
        yield return text + " Landings that nobody wrote down are in none of these.";
        if (hangUps > 0 && HangUps(accuracy.Landings) is { } share) yield return share;
    }

    private static string? HangUps(IReadOnlyList<Landing> landings)
    {
        var told = landings.Where(l => l.Outcome != LandingOutcome.Undecided)
            .ToLookup(l => l.HungUp == true, l => l.Outcome == LandingOutcome.Hit);
        if (!told.Contains(true) || !told.Contains(false)) return null;
        return $"Of {Rounding.Count(told[true].Count(), "hang-up")} that can be told, "
            + $"{Rounding.Percent(told[true].Average(h => h ? 1.0 : 0))} came down inside the target radius, "
            + $"of {Rounding.Count(told[false].Count(), "other landing")} {Rounding.Percent(told[false].Average(h => h ? 1.0 : 0))}.";
    }

    /// <summary>How much of the rate hangs on distances that were written down as the target radius itself.</summary>
    private static IEnumerable<string> OnTheRadius(SeasonAccuracy accuracy, ClusteredProportion all)
    {
        var onIt = accuracy.Landings.Count(l => l.IsOnTheRadius);
        if (onIt == 0) yield break;
        var without = (double)(all.Hits - onIt) / all.Landings;
        yield return $"{Rounding.Count(onIt, "hit")} lie{(onIt == 1 ? "s" : "")} exactly on the target radius: distances are rounded, "
            + "and so are radii. Were they misses the rate would be "
            + (all.IntervalAt(without, all.Landings, accuracy.Options.Confidence) is { } range
                ? Rounding.Percent(Estimate.Of(without, range)) : Rounding.Percent(without)) + ".";
    }
}
