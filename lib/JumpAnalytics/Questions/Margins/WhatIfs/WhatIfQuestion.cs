namespace JumpAnalytics;

/// <summary>Puts scenarios to one set of landings.</summary>
internal sealed class WhatIfQuestion
{
    private readonly IReadOnlyList<Landing> _landings;
    private readonly WhatIfModels _models;
    private readonly double _confidence;
    private readonly Dictionary<Drop, int> _sticks = new(ReferenceEqualityComparer.Instance);
    private readonly PlaneVector _bias;

    public WhatIfQuestion(IReadOnlyList<Landing> landings, WhatIfModels models, double confidence)
    {
        (_landings, _models, _confidence) = (landings, models, confidence);
        foreach (var stick in landings.GroupBy(l => l.Drop, (IEqualityComparer<Drop>)ReferenceEqualityComparer.Instance))
            _sticks[stick.Key] = Math.Max(stick.Count(), stick.Max(l => l.ExitOrder ?? 0));
        var misses = landings.Select(l => l.MissDownwind).OfType<PlaneVector>().ToList();
        if (misses.Count > 0) _bias = new PlaneVector(misses.Average(m => m.Along), misses.Average(m => m.Across));
    }

    public WhatIfResult Answer(Scenario scenario)
    {
        var judged = _landings.Where(l => ScenarioLandings.CanJudge(scenario, l)).ToList();
        var missions = judged.Select(l => l.Drop.Mission).Distinct().ToList();
        var asFlown = Rate(ByMission(judged, missions, l => l.Outcome));
        var flown = judged.Where(l => ScenarioLandings.IsFlown(scenario, l.Drop)).ToList();
        var result = new WhatIfResult
        {
            Scenario = scenario, Judged = judged.Count, JudgedMissions = missions.Count, AsFlown = asFlown,
            MissionsFlown = Share(flown, judged, _ => 1),
            LandingsFlown = Share(flown, judged, n => n),
            Rate = Fit<ClusteredProportion>.Refused(""), Change = Fit<Estimate>.Refused(""),
        };
        if (WhyNotModelled(scenario) is { } why) return Refuse(result, why);
        if (!asFlown.Success) return Refuse(result, asFlown.Reason);

        var before = ByMission(judged, missions, l => l.Outcome);
        var after = ByMission(flown, missions, Outcomes(scenario, e => e.Value, e => e.Value));
        var rate = Rate(after);
        if (!rate.Success) return Refuse(result, flown.Count == 0 ? "no pass would be flown" : rate.Reason);
        var change = PairedRates.Change(before, after, _confidence);
        return result with
        {
            Rate = rate.Value.Rate.Range is { } own && scenario.IsModelled
                ? Fit<ClusteredProportion>.Made(rate.Value with { Rate = Widened(Estimate.Of(rate.Value.Rate.Value, own)) }) : rate,
            Change = Fit<Estimate>.Made(scenario.IsModelled ? Widened(change) : change),
            Note = Note(scenario, judged),
        };

        Estimate Widened(Estimate sampled)
        {
            var middle = rate.Value!.Rate.Value;
            double[] otherwise =
            [
                .. new[] { End(false, true), End(true, true), End(false, false), End(true, false) }.Select(ends =>
                    Rate(ByMission(flown, missions, Outcomes(scenario, ends.Spread, ends.Pass))).Value!.Rate.Value - middle),
            ];
            if (sampled.Range is not { } range) return sampled;
            var down = Math.Sqrt(Square(Math.Min(0, Math.Min(otherwise[0], otherwise[1])))
                + Square(Math.Min(0, Math.Min(otherwise[2], otherwise[3]))) + Square(sampled.Value - range.Low));
            var up = Math.Sqrt(Square(Math.Max(0, Math.Max(otherwise[0], otherwise[1])))
                + Square(Math.Max(0, Math.Max(otherwise[2], otherwise[3]))) + Square(range.High - sampled.Value));
            return Estimate.Of(sampled.Value, new Interval(sampled.Value - down, sampled.Value + up));
        }
    }

    /// <summary>One end of the interval of one parameter, the other at its value.</summary>
    private static (Func<Estimate, double> Spread, Func<Estimate, double> Pass) End(bool high, bool ofSpread)
    {
        Func<Estimate, double> end = e => e.Range is { } r ? high ? r.High : r.Low : e.Value;
        Func<Estimate, double> value = e => e.Value;
        return ofSpread ? (end, value) : (value, end);
    }

    private Func<Landing, LandingOutcome> Outcomes(Scenario scenario, Func<Estimate, double> spread, Func<Estimate, double> pass)
    {
        var ratios = new Dictionary<(double, double), double>();
        var then = new ScenarioLandings(scenario, Ratio, _models.PassThrough is { } left ? pass(left) : 0, _bias);
        return l => then.Outcome(l, _sticks[l.Drop]);

        double Ratio(double from, double to)
        {
            if (!ratios.TryGetValue((from, to), out var ratio)) ratios.Add((from, to), ratio = spread(_models.SpreadRatio!(from, to)));
            return ratio;
        }
    }

    private string? WhyNotModelled(Scenario scenario) =>
        scenario.FreshStreamers is not null && _models.SpreadRatio is null
        ? "no growth of the spread with the age of the streamers is known or shown"
        : scenario.LargestStick is not null && _models.PassThrough is null
        ? "how much of an exit's offset is left in the landing is not known"
        : null;

    private static WhatIfResult Refuse(WhatIfResult result, string why) =>
        result with { Rate = Fit<ClusteredProportion>.Refused(why), Change = Fit<Estimate>.Refused(why), Note = why };

    private string? Note(Scenario scenario, List<Landing> judged)
    {
        var notes = new List<string>();
        var ageless = scenario.NeedsAge ? _landings.Count(l => ScenarioLandings.AgeOf(l.Drop) is null) : 0;
        if (ageless > 0) notes.Add($"{Rounding.Count(ageless, "landing")} without an age of the streamers left out");
        var rim = _landings.Count - judged.Count - ageless;
        if (rim > 0) notes.Add($"{Rounding.Count(rim, "landing")} recorded on the target radius itself left out");
        if (scenario.FreshStreamers is not null)
            notes.Add("spread scaled about the mean miss; what the new set costs in time and fuel is not counted");
        if (scenario.LargestStick is { } largest)
        {
            var unmoved = judged.Count(l => ScenarioLandings.ExitMove(scenario, l, _sticks[l.Drop]) is null);
            notes.Add("the middle of each part on the planned exit; "
                + $"{Rounding.Count(judged.Count(l => _sticks[l.Drop] > largest), "landing")} of larger sticks"
                + (unmoved > 0 ? $", {unmoved} of them left as they were for want of order, heading, speed or spacing" : "")
                + "; the added passes let the streamers age, which is not counted");
        }
        return notes.Count == 0 ? null : string.Join("; ", notes);
    }

    private Fit<ClusteredProportion> Rate(IReadOnlyList<(double Hits, double Landings)> missions)
    {
        var flown = missions.Where(m => m.Landings > 0).ToList();
        return flown.Count == 0 ? Fit<ClusteredProportion>.Refused("no landing that can be told a hit or a miss")
            : Fit<ClusteredProportion>.Made(ClusteredProportion.Of([.. flown.Select(m => (int)m.Hits)],
                [.. flown.Select(m => (int)m.Landings)], _confidence));
    }

    private static List<(double Hits, double Landings)> ByMission(IEnumerable<Landing> landings, IReadOnlyList<string> missions,
        Func<Landing, LandingOutcome> outcome)
    {
        var counts = missions.ToDictionary(m => m, _ => (Hits: 0.0, Landings: 0.0), StringComparer.Ordinal);
        foreach (var landing in landings)
        {
            var (hits, decided) = counts[landing.Drop.Mission];
            counts[landing.Drop.Mission] = outcome(landing) switch
            {
                LandingOutcome.Hit => (hits + 1, decided + 1),
                LandingOutcome.Miss => (hits, decided + 1),
                _ => (hits, decided),
            };
        }
        return [.. missions.Select(m => counts[m])];
    }

    /// <summary>Share that is still flown, of missions (each weighs one) or of landings (each weighs as many as it has).</summary>
    private Estimate Share(List<Landing> flown, List<Landing> judged, Func<int, int> weight)
    {
        if (judged.Count == 0) return Estimate.WithoutRange(0, "no landing");
        if (flown.Count == judged.Count) return Estimate.WithoutRange(1, "all of these records are still flown");
        var (all, kept) = (judged.CountBy(l => l.Drop.Mission).ToList(), flown.CountBy(l => l.Drop.Mission).ToDictionary());
        return ClusteredProportion.Of([.. all.Select(m => kept.TryGetValue(m.Key, out var n) ? weight(n) : 0)],
            [.. all.Select(m => weight(m.Value))], _confidence).Rate;
    }

    private static double Square(double x) => x * x;
}
