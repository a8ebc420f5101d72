using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// Units of drift and wind: the ratio drift / (wind × descent time) of a group against the rest, rows off by a large factor, and the whole
/// log against the sinking speeds that canopies have.
/// </summary>
internal sealed class UnitSlipCheck : IRecordCheck
{
    /// <summary>
    /// Sinking speeds in metres per second from 8.8 ft/s (square canopy in full glide, published in a skydiving handbook) to 24 ft/s (T-10D
    /// military round, published), a fifth to spare.
    /// </summary>
    private const double SlowestSink = 8.8 * 0.3048 / 1.2, FastestSink = 24 * 0.3048 * 1.2;

    /// <summary>Smaller shifts are no slip of units: the smallest of those, yards and metres, is 0.089.</summary>
    private const double LeastShift = 0.06;

    public string Name => "units of drift and wind";

    public CheckOutcome Look(CheckedLog log)
    {
        var (ratios, shifts) = log.Drifts;
        List<RecordFlag> flags =
        [
            .. ratios.Canopies.Select(c => WholeLog(log, ratios, c)).OfType<RecordFlag>(),
            .. shifts.Select(s => Group(log, s)),
            .. DriftRows.Of(log, ratios, shifts).Where(r => r.Slip is not null).GroupBy(r => r.Slip!.Words).Select(g => Rows(log, [.. g])),
        ];
        return new CheckOutcome(Name, ratios.Logs.Count, flags);
    }

    public static (DriftRatios Ratios, IReadOnlyList<Shift> Shifts) Shifts(CheckedLog log)
    {
        var ratios = DriftRatios.Of(log);
        return (ratios, new GroupShifts(log, LeastShift, againstRest: true).Find(ratios.Logs));
    }

    private RecordFlag? WholeLog(CheckedLog log, DriftRatios ratios, DriftRatios.CanopyDrift canopy)
    {
        if (canopy.Height is not { } height) return null;
        var sink = height / canopy.Seconds;
        if (sink is >= SlowestSink and <= FastestSink) return null;
        var drops = ratios.Logs.Select(v => v.Drop).Where(d => log.CanopyOf(d) == canopy.Name).ToList();
        var drift = drops.Select(d => d.ForecastDrift.Length).Median();
        var nearest = Math.Clamp(sink, SlowestSink, FastestSink);
        return new RecordFlag
        {
            Check = Name, Group = RecordGroup.Whole, Rows = [.. drops.Select(d => d.Source)],
            Found = $"drift, wind and exit height of {Rounding.Count(canopy.Drops, "drop")} "
                + $"mean that {canopy.Name ?? "the"} canopies sink {Rounding.Fixed(sink, 1)} m/s in the median, and none does; "
                + "drift, wind or height is in another unit than its header says.",
            Harm = new FlagHarm(log.Unit.FromSi(Math.Abs(sink / nearest - 1) * drift), log.Unit.Suffix, drops.Count,
                $"The forecast drift may be off by a factor of {Rounding.Fixed(Math.Max(sink / nearest, nearest / sink), 1)} or more "
                    + $"(median {log.Length(drift)}, n = {Rounding.Count(drops.Count, "drop")})."),
            Rule = $"sinking speed outside {Rounding.Fixed(SlowestSink, 1)} to {Rounding.Fixed(FastestSink, 1)} m/s",
            Try = "compare some rows with the load records and correct the headers' units",
        };
    }

    private RecordFlag Group(CheckedLog log, Shift shift)
    {
        var first = shift.Drops[0].Source.File;
        var slip = UnitSlip.Nearest(UnitSlip.Of(log.UnitOf(first, LogColumns.ForecastDrift), log.UnitOf(first, LogColumns.WindSpeed)),
            shift.Value, Math.Max(0.06, (shift.Range.High - shift.Range.Low) / 2));
        var drift = shift.Drops.Select(d => d.ForecastDrift.Length).Median();
        var off = Math.Abs(1 - Math.Exp(-shift.Value)) * drift;
        return new RecordFlag
        {
            Check = Name, Group = shift.Group.Group, Rows = [.. shift.Drops.Select(d => d.Source)],
            Found = $"drift over wind is {Rounding.Fixed(Math.Exp(shift.Value), 2)} times "
                + $"({Rounding.Fixed(Math.Exp(shift.Range.Low), 2)} to {Rounding.Fixed(Math.Exp(shift.Range.High), 2)}) that of the rest "
                + $"({Rounding.Count(shift.Missions, "mission")}, {Rounding.Count(shift.Drops.Count, "drop")}); "
                + $"{slip?.Shown ?? "no slip of units is of this size, so it may be a habit of forecasting"}.",
            Harm = new FlagHarm(log.Unit.FromSi(off), log.Unit.Suffix, shift.Drops.Count,
                $"If the drift is the wrong one, it and the planned exit are off by {log.Length(off)} in the median (n = "
                    + $"{Rounding.Count(shift.Drops.Count, "drop")}); if the wind, its band is wrong where an edge lies between."),
            PValue = shift.PValue, Rule = "t test on missions, against the rest",
            Try = "ask in which unit these rows were written; if not the header's, give them a file or a column of their own",
        };
    }

    private RecordFlag Rows(CheckedLog log, IReadOnlyList<DriftRow> rows)
    {
        var off = rows.Select(r => Math.Abs(1 - Math.Exp(-r.LogRatio)) * r.Drop.ForecastDrift.Length).Median();
        return new RecordFlag
        {
            Check = Name, Group = RecordGroup.SingleRows, Rows = [.. rows.Select(r => r.Drop.Source)],
            Found = $"in {Rounding.Count(rows.Count, "drop")} {rows[0].Slip!.Shown}.",
            Harm = new FlagHarm(log.Unit.FromSi(off), log.Unit.Suffix, rows.Count,
                $"If the drift is the wrong one, it is off by {log.Length(off)} in the median (n = {Rounding.Count(rows.Count, "drop")})."),
            Rule = "ratio of drift and wind beyond a factor of 1.6, beyond 6 robust standard deviations and beyond rounding",
            Try = "compare these rows with the load records",
        };
    }
}
