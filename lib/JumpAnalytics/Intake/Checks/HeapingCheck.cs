using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// Heaping: landing distances and bearings whose last digits are rounder than the unit and the way of measuring ask for, and what that
/// leaves open in the rate and in the distances.
/// </summary>
internal sealed class HeapingCheck : IRecordCheck
{
    private const string NotTold = "not told";

    public string Name => "round numbers";

    private sealed record PolarRow(Landing Landing, int Distance, int? Bearing, MeasureUnit Unit)
    {
        public string Way => Landing.MeasuredBy ?? NotTold;
    }

    private sealed record WayHeaps(string Name, IReadOnlyList<PolarRow> Rows, IReadOnlyList<Heap> Distances, IReadOnlyList<Heap> Bearings);

    public CheckOutcome Look(CheckedLog log)
    {
        var polar = log.Log.Landings.Select(l => Read(log, l)).OfType<PolarRow>().ToList();
        var groups = polar.GroupBy(p => p.Way).OrderBy(g => g.Key, StringComparer.Ordinal).ToList();
        var ways = groups.Select(g => new WayHeaps(g.Key, [.. g],
            Heaps.Of(log, [.. g.Select(p => p.Distance)], Heaps.Distance, 2 * groups.Count),
            Heaps.Of(log, [.. g.Where(p => p.Distance > 0).Select(p => p.Bearing).OfType<int>()], Heaps.Bearing, 2 * groups.Count)))
            .ToList();
        var flags = new List<RecordFlag>();
        if (ways.Exists(w => w.Distances.Count > 0)) flags.Add(Distances(log, ways));
        if (ways.Exists(w => w.Bearings.Count > 0)) flags.Add(Bearings(log, ways));
        return new CheckOutcome(Name, polar.Count, flags);
    }

    /// <summary>A landing written as a whole number of its file's unit; null for positions and for finer numbers.</summary>
    private static PolarRow? Read(CheckedLog log, Landing landing)
    {
        if (WrittenPlaces.WholeDistance(log, landing) is not var (distance, unit)) return null;
        var bearing = landing.Miss!.Value.Direction?.Degrees;
        return new PolarRow(landing, distance, bearing is { } b && WrittenNumber.IsMultiple(b, 1) ? (int)Math.Round(b) : null, unit);
    }

    private RecordFlag Distances(CheckedLog log, IReadOnlyList<WayHeaps> ways)
    {
        var heaped = ways.Where(w => w.Distances.Count > 0).ToList();
        var rows = heaped.SelectMany(w => w.Rows.Where(p => Heaps.StepOf(p.Distance, w.Distances) > 1)).ToList();
        var half = new Dictionary<Landing, double>(ReferenceEqualityComparer.Instance);
        foreach (var way in heaped)
        {
            foreach (var row in way.Rows) half[row.Landing] = row.Unit.ToSi(Heaps.StepOf(row.Distance, way.Distances) / 2.0);
        }
        var placed = log.Log.Landings.Where(l => l.MissDistance is not null)
            .Select(l => half.GetValueOrDefault(l) is > 0 and var h
                ? new RoundedLanding(l, Math.Max(0, l.MissDistance!.Value - h), l.MissDistance.Value + h)
                : new RoundedLanding(l, l.MissDistance!.Value, l.MissDistance.Value)).ToList();
        var effect = HeapedRate.Of(placed, log.Log.Landings.Count(l => l.IsCensored && l.Outcome == LandingOutcome.Miss));
        var found = string.Join("; ",
            heaped.Select(w => $"{w.Name} (n = {Rounding.Count(w.Rows.Count)}): {string.Join(", ", w.Distances.Select(Shown))}"));
        var distances = string.Join(", ", effect.Distances.Select(d => $"{d.Percent} %: {log.Length(d.Written)} written, "
            + $"{log.Length(d.Spread)} spread ({log.Length(d.Low)} to {log.Length(d.High)})"));
        return new RecordFlag
        {
            Check = Name, Group = new RecordGroup("measured by", string.Join(", ", heaped.Select(w => w.Name))),
            Rows = [.. rows.Select(p => p.Landing.Source)],
            Found = $"distances share round numbers: {found}.",
            Harm = new FlagHarm(100 * (effect.Written - effect.Spread), "points", effect.Landings,
                $"Spread over their rounding intervals, the landing rate is {Rounding.Percent(effect.Spread, 1)} "
                    + $"where {Rounding.Percent(effect.Written, 1)} is written, and between {Rounding.Percent(effect.Low, 1)} and "
                    + $"{Rounding.Percent(effect.High, 1)} whatever lies behind them (n = {Rounding.Count(effect.Landings, "landing")}, "
                    + $"{Rounding.Count(effect.OnTheRadius)} written exactly on the radius). Distances: {distances}."),
            PValue = heaped.SelectMany(w => w.Distances).Min(h => h.PValue), Rule = "binomial tests of last digits against even ones",
            Try = "write what was measured, not the nearest five; treat rates whose radius lies on such a number as a range",
        };
    }

    private RecordFlag Bearings(CheckedLog log, IReadOnlyList<WayHeaps> ways)
    {
        var heaped = ways.Where(w => w.Bearings.Count > 0).ToList();
        var rows = heaped.SelectMany(w => w.Rows.Where(p => p.Bearing is { } b && Heaps.StepOf(b, w.Bearings) > 1)
            .Select(p => (p.Landing, Step: Heaps.StepOf(p.Bearing!.Value, w.Bearings)))).ToList();
        var off = rows.Select(r => r.Landing.MissDistance!.Value * double.DegreesToRadians(r.Step) / Math.Sqrt(12)).RootMeanSquare();
        return new RecordFlag
        {
            Check = Name, Group = new RecordGroup("measured by", string.Join(", ", heaped.Select(w => w.Name))),
            Rows = [.. rows.Select(r => r.Landing.Source)],
            Found = "bearings share round numbers: " + string.Join("; ",
                heaped.Select(w => $"{w.Name} (n = {Rounding.Count(w.Rows.Count)}): {string.Join(", ", w.Bearings.Select(Shown))}")) + ".",
            Harm = new FlagHarm(log.Unit.FromSi(off), log.Unit.Suffix, rows.Count, "Rounding moves these landings "
                + $"sideways by {log.Length(off)} (root mean square, n = {Rounding.Count(rows.Count, "landing")}); "
                + "the miss distance and the rate stay."),
            PValue = heaped.SelectMany(w => w.Bearings).Min(h => h.PValue), Rule = "binomial tests of last digits against even ones",
            Try = "read the bearing off a compass; ellipses and biases of such rows are blurred",
        };
    }

    private static string Shown(Heap heap) => $"{Rounding.Percent((double)heap.Count / heap.Of)} of {Rounding.Count(heap.Of)} on "
        + $"{heap.Step}s where even digits give {Rounding.Percent(heap.ByChance)}";
}
