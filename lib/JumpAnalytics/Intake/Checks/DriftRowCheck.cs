using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>Drift against wind, row by row: lengths that no slip of units explains, and directions neither right nor reversed.</summary>
internal sealed class DriftRowCheck : IRecordCheck
{
    /// <summary>
    /// Degrees between drift and wind above which a row is odd; from <see cref="ReversalCheck.Opposed"/> on it is reversed.
    /// </summary>
    private const double Astray = 60;

    public string Name => "drift against wind, row by row";

    public CheckOutcome Look(CheckedLog log)
    {
        var (ratios, shifts) = log.Drifts;
        var odd = DriftRows.Of(log, ratios, shifts).Where(r => r.Slip is null).ToList();
        var flags = new List<RecordFlag>();
        if (odd.Count > 0)
        {
            var off = odd.Select(r => Math.Abs(1 - Math.Exp(-r.LogRatio)) * r.Drop.ForecastDrift.Length).Median();
            flags.Add(Flag(log, [.. odd.Select(r => r.Drop)], off,
                $"in {Rounding.Count(odd.Count, "drop")} the drift is "
                    + $"{string.Join(", ", odd.Take(5).Select(r => Rounding.Fixed(Math.Exp(r.LogRatio), 1)))}{(odd.Count > 5 ? " …" : "")} "
                    + "times what wind and descent time make.",
                "ratio beyond a factor of 1.6, 6 robust standard deviations and rounding"));
        }
        var turned = DriftAngles.AgainstWind(log).Where(a => Math.Abs(a.Value) is >= Astray and < ReversalCheck.Opposed).ToList();
        if (turned.Count > 0)
        {
            var off =
                turned.Select(a => 2 * a.Drop.ForecastDrift.Length * Math.Sin(double.DegreesToRadians(Math.Abs(a.Value)) / 2)).Median();
            flags.Add(Flag(log, [.. turned.Select(a => a.Drop)], off,
                $"in {Rounding.Count(turned.Count, "drop")} "
                    + $"the drift goes {string.Join(", ", turned.Take(5).Select(a => Rounding.Fixed(Math.Abs(a.Value), 0)))}"
                    + $"{(turned.Count > 5 ? " …" : "")} degrees off the way the wind blows.",
                $"{Astray} degrees or more between drift and wind, in winds of 2 mph and more"));
        }
        return new CheckOutcome(Name, ratios.Logs.Count, flags);
    }

    private RecordFlag Flag(CheckedLog log, IReadOnlyList<Drop> drops, double off, string found, string rule) => new()
    {
        Check = Name, Group = RecordGroup.SingleRows, Rows = [.. drops.Select(d => d.Source)], Found = found, Rule = rule,
        Harm = new FlagHarm(log.Unit.FromSi(off), log.Unit.Suffix, drops.Count,
            $"Drift and planned exit may be off by {log.Length(off)} in the median (n = {Rounding.Count(drops.Count, "drop")})."),
        Try = "compare these rows with the load records; a digit may be lost or doubled",
    };
}
