namespace JumpAnalytics;

/// <summary>
/// The chart of hits: two cumulative sums of the logarithm of the likelihood ratio of a mission's hits, for odds of a hit divided and
/// multiplied by the odds ratio (Steiner, Cook, Farewell and Treasure 2000, Biostatistics 1:441-452, for single trials). The likelihood is
/// that of the mission as a whole, since its landings are alike.
/// </summary>
/// <remarks>
/// Ratios are rounded down to whole steps, so that the run length on the mix of missions flown is exact. The likelihood is log-concave in
/// the shift, so that no mission raises the two sums together; one stands at zero when the other signals.
/// </remarks>
internal static class HitCharts
{
    /// <summary>Logarithm of the likelihood ratio of one step.</summary>
    private const double Unit = 0.02;

    private const int FewestMissions = 5;

    public static Fit<MissChart> Of(Charted charted, HitReference reference)
    {
        var shift = Math.Log(charted.Charts.OddsRatio);
        var kinds = new Dictionary<string, Kind>();
        var values = charted.Values(m =>
        {
            var levels = reference.Levels(m.Landings);
            if (levels.Length == 0) return null;
            var kind = KindOf(levels);
            kind.Count++;
            var hits = m.Landings.Count(l => l.Outcome == LandingOutcome.Hit);
            return (levels.Length, kind.Fewer[hits], kind.More[hits]);
        });
        if (values.Count < FewestMissions) return Fit<MissChart>.Refused($"{Rounding.Count(values.Count, "mission")} with a hit or a miss, "
            + $"and the run length of a chart of hits needs the mix of at least {FewestMissions}");
        var limit = BernoulliCusumRunLength.LimitFor(charted.Charts.InControlRunLength, h => Law(h, 0).Average);
        if (limit is null) return Fit<MissChart>.Refused("hits are so certain that no limit in reach gives the run length");
        var law = Law(limit.Value, 0);
        var rule = ChartRules.Steps(Unit, limit.Value, (changed, above) => Told(changed, above, reference, charted.Options));
        return Fit<MissChart>.Made(charted.Chart(ChartKind.HitSums, values, rule, law, ChanceOver, reference.Missions, reference.Landings));

        // More than the limit at a share of 1, else as many steps as were reached or more.
        double ChanceOver(double share) => (share == 1 ? limit.Value : (int)Math.Round(share * (limit.Value + 0.5)) - 1) is var h and >= 0
            ? ReferenceError.Mean(reference.LogOddsError,
                error => ChartWalk.ChanceOfSignal(values, Law(Math.Min(h, BernoulliCusumRunLength.MostStates), error))) : 1;

        Kind KindOf(double[] levels)
        {
            var key = string.Join('|', levels);
            if (kinds.TryGetValue(key, out var known)) return known;
            var (same, fewer, more) = (reference.Hits(levels, 0), reference.Hits(levels, -shift), reference.Hits(levels, shift));
            return kinds[key] = new Kind(levels, [.. same.Select((p, x) => Whole(fewer[x] / p))],
                [.. same.Select((p, x) => Whole(more[x] / p))]);
        }

        // The mix of the missions flown, with the chances of the reference shifted by so many log-odds.
        RunLengthLaw Law(int h, double error)
        {
            var (up, down) = (new List<LatticeStep>(), new List<LatticeStep>());
            foreach (var kind in kinds.Values)
            {
                var chances = reference.Hits(kind.Levels, error);
                var share = (double)kind.Count / values.Count / chances.Sum();
                for (var x = 0; x < chances.Length; x++)
                {
                    up.Add(new LatticeStep(kind.Fewer[x], share * chances[x]));
                    down.Add(new LatticeStep(kind.More[x], share * chances[x]));
                }
            }
            return BernoulliCusumRunLength.Both(up, down, h);
        }
    }

    /// <summary>
    /// Missions whose landings have the same levels: the steps that each number of hits is worth, and how many such missions there are.
    /// </summary>
    private sealed record Kind(double[] Levels, int[] Fewer, int[] More)
    {
        public int Count { get; set; }
    }

    private static int Whole(double ratio) => (int)Math.Floor(Math.Log(ratio) / Unit);

    private static (string, string) Told(IReadOnlyList<ChartValue> changed, bool above, HitReference reference, AccuracyOptions options)
    {
        var landings = changed.SelectMany(v => v.Mission.Landings).ToList();
        var counted = MissionSample.Of(landings).CountedRate(options.Confidence).Value!;
        var expected = changed.Sum(v => reference.Expected(reference.Levels(v.Mission.Landings)));
        return (above ? "fewer hits" : "more hits",
            $"{counted.Hits} hits of {Rounding.Count(counted.Landings, "landing")}, a rate of {Rounding.Percent(counted.Rate)}; "
                + $"{Rounding.Fixed(expected, 1)} expected in these winds and terrains ({Rounding.Percent(expected / counted.Landings)})");
    }
}
