using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>A drop whose drift its wind can't have made, with the slip of units that would explain it.</summary>
internal sealed record DriftRow(Drop Drop, double LogRatio, UnitSlip? Slip);

/// <summary>Rows whose drift and wind do not belong together, groups that are off as a whole taken as they are.</summary>
internal static class DriftRows
{
    /// <summary>Logarithm below which a row alone says nothing: slips of 1.15 and 1.09 drown in rounding and forecasting.</summary>
    private static readonly double _least = Math.Log(1.6);

    private static readonly double[] _driftSteps = [1, 2, 5, 10, 20, 25, 50, 100], _windSteps = [0.1, 0.5, 1, 2, 5];

    public static IReadOnlyList<DriftRow> Of(CheckedLog log, DriftRatios ratios, IReadOnlyList<Shift> shifts)
    {
        if (ratios.Logs.Count == 0) return [];
        var left =
            ratios.Logs.Select(v => v with { Value = v.Value - shifts.Where(s => s.Group.Holds(v.Drop)).Sum(s => s.Value) }).ToList();
        var scale = 1.4826 * left.Select(v => Math.Abs(v.Value)).Median();
        var limit = Math.Max(_least, 6 * scale);
        var found = new List<DriftRow>();
        foreach (var file in left.GroupBy(v => v.Drop.Source.File))
        {
            var (driftUnit, windUnit) = (log.UnitOf(file.Key, LogColumns.ForecastDrift), log.UnitOf(file.Key, LogColumns.WindSpeed));
            var driftHalf = HalfStep(file.Select(v => v.Drop.ForecastDrift.Length), driftUnit, _driftSteps);
            var windHalf = HalfStep(file.Select(v => v.Drop.WindSpeed), windUnit, _windSteps);
            var slips = UnitSlip.Of(driftUnit, windUnit);
            foreach (var (drop, value, _) in file)
            {
                var (drift, wind) = (drop.ForecastDrift.Length, drop.WindSpeed);
                // As near to the log's own ratio as rounding of both allows.
                var high = value + Math.Log(1 + driftHalf / drift) - Math.Log(Math.Max(1 - windHalf / wind, 1e-3));
                var low = value + Math.Log(Math.Max(1 - driftHalf / drift, 1e-3)) - Math.Log(1 + windHalf / wind);
                if (low <= limit && high >= -limit) continue;
                found.Add(new DriftRow(drop, value, UnitSlip.Nearest(slips, value, Math.Max(0.2, 3 * scale))));
            }
        }
        return found;
    }

    /// <summary>Half the coarsest step that most values are written in; a whole unit or a tenth of a wind at least.</summary>
    private static double HalfStep(IEnumerable<double> si, MeasureUnit? unit, double[] steps)
    {
        var written = si.Select(v => unit?.FromSi(v) ?? v).ToList();
        var step = steps.LastOrDefault(s => written.Count(v => WrittenNumber.IsMultiple(v, s)) >= written.Count / 2.0, steps[0]);
        return (unit?.ToSi(step) ?? step) / 2;
    }
}

/// <summary>Numbers as they were written.</summary>
internal static class WrittenNumber
{
    public static bool IsMultiple(double value, double step) => Math.Abs(value / step - Math.Round(value / step)) < 1e-6;
}
