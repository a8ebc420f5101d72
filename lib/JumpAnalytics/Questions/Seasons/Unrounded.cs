namespace JumpAnalytics;

/// <summary>
/// Misses spread over what they were rounded to. Distances are paced and written to 5 or 10 units; a test of a smooth distribution would
/// find the steps and call the distribution wrong.
/// </summary>
internal static class Unrounded
{
    private const int Step = 5;

    /// <summary>A distance this near to a multiple of the step, as a share of the unit, is on it.</summary>
    private const double Near = 1e-6;

    /// <summary>
    /// Share of distances on the step from which they are taken as rounded: chance puts a fifth of whole numbers
    /// there, and none of measured ones.
    /// </summary>
    private const double Rounded = 0.3;

    private static readonly string[] _units = ["yd", "m", "ft"];

    /// <summary>
    /// The sample with each distance on the step moved by up to half a step either way, bearing kept; itself where
    /// distances are not rounded.
    /// </summary>
    /// <param name="sample">Misses.</param>
    /// <param name="units">The report's units, of which the distance is tried first.</param>
    /// <param name="seed">Seed of the moves.</param>
    public static PlaneSample Of(PlaneSample sample, ReportUnits units, int seed)
    {
        var unit = _units.Select(MeasureUnit.Distance).Prepend(units.Distance)
            .Select(u => (Unit: u, On: sample.Placed.Count(m => IsOn(m.Length, u)))).MaxBy(u => u.On);
        if (unit.On < Rounded * sample.Placed.Count || sample.Placed.Count == 0) return sample;
        var random = SeedStream.For(seed, "distances spread over their rounding");
        var missions = sample.ClusterOfPlaced.ToArray();
        var placed = sample.Placed.Select((m, i) =>
            new PlaneReading($"{missions[i]}", IsOn(m.Length, unit.Unit) ? Moved(m, unit.Unit.ToSi(Step), random) : m, null,
                sample.MeasuredSd[i]));
        return PlaneSample.Of([.. placed,
            .. sample.Beyond.Select((b, i) => new PlaneReading($"{sample.ClusterOfBeyond[i]}", null, b))], TradeNouns.Value);
    }

    private static bool IsOn(double metres, MeasureUnit unit)
    {
        var steps = unit.FromSi(metres) / Step;
        return Math.Abs(steps - Math.Round(steps)) < Near;
    }

    private static PlaneVector Moved(PlaneVector miss, double step, Random random)
    {
        var by = step * (random.NextDouble() - 0.5);
        if (miss.Length > 0) return new PlaneVector(miss.Along * (1 + by / miss.Length), miss.Across * (1 + by / miss.Length));
        var (sin, cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
        return new PlaneVector(Math.Abs(by) * cos, Math.Abs(by) * sin);
    }
}
