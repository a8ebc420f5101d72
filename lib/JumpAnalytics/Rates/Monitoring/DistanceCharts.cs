namespace JumpAnalytics;

/// <summary>The charts of miss distances and mean misses.</summary>
internal static class DistanceCharts
{
    public static Fit<MissChart> Of(ChartKind kind, Charted charted, MissReference reference)
    {
        var values = kind == ChartKind.MeanMissAverage
            ? charted.Values(m => reference.Plane(m.Landings) is { } s ? (s.Landings, s.Score.Along, s.Score.Across) : null)
            : charted.Values(m => reference.Distance(m.Landings) is { } s ? (s.Landings, s.Score, 0) : null);
        if (values.Count == 0)
            return Fit<MissChart>.Refused(kind == ChartKind.MeanMissAverage
                ? reference.WhyNoVector ?? "no mission has a landing with a place in the downwind frame"
                : "no mission has a landing with a distance");
        if (kind == ChartKind.DistanceSums && charted.Charts.WhyNoSums is { } reason) return Fit<MissChart>.Refused(reason);
        var (rule, law, lawAt) = kind switch
        {
            ChartKind.DistanceAverage => Average(charted, reference),
            ChartKind.DistanceSums => Sums(charted, reference),
            _ => Plane(charted, reference),
        };
        return Fit<MissChart>.Made(charted.Chart(kind, values, rule, law, ChanceOver, reference.Missions, reference.Landings));

        double ChanceOver(double share) => ReferenceError.Mean(reference.Missions, kind == ChartKind.MeanMissAverage ? 2 : 1,
            (shift, spread) => ChartWalk.ChanceOfSignal(values, lawAt(share, shift, spread)));
    }

    // The limits that the equations are solved for end where the chance of passing them is below 1e-9 in any record.
    private const double FarthestAverage = 8, FarthestSum = 80;

    private static (ChartRule, RunLengthLaw, LawAt) Average(Charted charted, MissReference reference)
    {
        var (weight, (limit, law)) = (charted.Charts.Weight, charted.Limits.Average);
        return (ChartRules.Average(weight, limit, (changed, above) => Width(changed, above, reference, charted.Options)), law,
            (share, shift, spread) => EwmaRunLength.Law(weight, Math.Min(share * limit, FarthestAverage) / spread, shift));
    }

    private static (ChartRule, RunLengthLaw, LawAt) Sums(Charted charted, MissReference reference)
    {
        var (k, (limit, law)) = (charted.Charts.ReferenceValue, charted.Limits.Sums!.Value);
        return (ChartRules.Sums(k, limit, (changed, above) => Width(changed, above, reference, charted.Options)), law,
            (share, shift, spread) => CusumRunLength.Law(k / spread, Math.Min(share * limit, FarthestSum) / spread, shift));
    }

    private static (ChartRule, RunLengthLaw, LawAt) Plane(Charted charted, MissReference reference)
    {
        var (weight, (limit, law)) = (charted.Charts.Weight, charted.Limits.Plane);
        return (ChartRules.Plane(weight, limit, (changed, _) => Way(changed, charted)), law, (share, shift, spread) =>
            MewmaRunLength.Early(weight, Math.Min(share * limit, FarthestAverage * FarthestAverage) / (spread * spread), shift));
    }

    /// <summary>
    /// Law of a chart at a share of its limits, for an error of the reference's mean and a ratio of true to estimated spread.
    /// </summary>
    private delegate RunLengthLaw LawAt(double share, double shift, double spread);

    private static (string, string) Width(IReadOnlyList<ChartValue> changed, bool above, MissReference reference, AccuracyOptions options)
    {
        var logs = changed.Select(v => v.Mission.Landings.Select(reference.LogDistance).OfType<double>().ToList())
            .Where(l => l.Count > 0).Select(l => l.Average()).ToList();
        var typical = MeanOf(logs, options.Confidence).Select(Math.Exp);
        return (above ? "wider" : "tighter", "typical distance, winds and terrain allowed for, "
            + $"{Rounding.Fixed(typical.Value, 2)}{Limits(typical, x => Rounding.Fixed(x, 2))} times the reference's");
    }

    private static (string, string) Way(IReadOnlyList<ChartValue> changed, Charted charted)
    {
        var unit = charted.Options.Units.Distance;
        var means = changed.Select(v => v.Mission.Landings.Select(l => l.MissDownwind).OfType<PlaneVector>().ToList())
            .Where(m => m.Count > 0)
            .Select(m => (Downwind: m.Average(x => x.Along), Right: m.Average(x => x.Across))).ToList();
        var (down, right) = (MeanOf([.. means.Select(m => m.Downwind)], charted.Options.Confidence),
            MeanOf([.. means.Select(m => m.Right)], charted.Options.Confidence));

        // The way of the difference in scores, whose axes are those of the downwind frame.
        var (a, b) = (changed.Sum(v => v.First), changed.Sum(v => v.Second));
        var (along, across) = (a >= 0 ? "long" : "short", b >= 0 ? "right" : "left");
        var direction = Math.Abs(b) < 0.5 * Math.Abs(a) ? along : Math.Abs(a) < 0.5 * Math.Abs(b) ? across : $"{along} and {across}";
        return (direction, $"mean miss of the missions {Rounding.Number(down.Select(unit.FromSi), signed: true)} {unit.Suffix} downwind "
            + $"and {Rounding.Number(right.Select(unit.FromSi), signed: true)} {unit.Suffix} right");
    }

    private static string Limits(Estimate estimate, Func<double, string> show) =>
        estimate.Range is { } r ? $" ({show(r.Low)} to {show(r.High)})" : "";

    /// <summary>Mean over missions with t on missions − 1.</summary>
    internal static Estimate MeanOf(IReadOnlyList<double> missions, double confidence)
    {
        var mean = missions.Average();
        if (missions.Count < 2) return Estimate.WithoutRange(mean, "a single mission");
        var half = QuantileOf.T(missions.Count - 1, TailShare.Middle(confidence)) * Math.Sqrt(
            missions.Sum(x => (x - mean) * (x - mean)) / (missions.Count - 1) / missions.Count);
        return Estimate.Of(mean, new Interval(mean - half, mean + half));
    }
}
