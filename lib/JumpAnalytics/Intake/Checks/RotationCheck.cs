using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// A constant turn, as of magnetic bearings read as true: of the drift against its wind, of the planned against the recorded exit, and of
/// the landings (a miss across the drift that grows with the drift).
/// </summary>
internal sealed class RotationCheck : IRecordCheck
{
    /// <summary>Degrees; smaller turns are no declination worth a flag and may be a habit of forecasting.</summary>
    private const double LeastTurn = 4;

    /// <summary>Degrees of what steering leaves of the turn of the landings.</summary>
    private const double LeastLandingTurn = 1;

    private const int Ways = 3;

    public string Name => "constant turn";

    public CheckOutcome Look(CheckedLog log)
    {
        var wind = Usable(DriftAngles.AgainstWind(log));
        var exit = Usable(DriftAngles.AgainstExit(log));
        var misses = Misses(log);
        return new CheckOutcome(Name, wind.Count + exit.Count + misses.Count,
        [
            .. Find(log, wind, LeastTurn).Select(s => Flag(log, s, "the forecast drift lies {0} of the way the wind blows",
                "wind or drift is magnetic and read as true")),
            .. Find(log, exit, LeastTurn).Select(s => Flag(log, s, "planned exits lie {0} of the recorded ones, seen from the spot",
                "drift or exit is magnetic and read as true")),
            .. Find(log, misses, LeastLandingTurn)
                .Select(s => Flag(log, s, "landings lie {0} of the forecast line, more the longer the drift", "the drift was magnetic and "
                    + "flown as true, or the forecasts err to one side; jumpers steer most of a turn off, so it was larger than this")),
        ]);
    }

    // Larger ones are the other checks'.
    private static List<DropValue> Usable(IReadOnlyList<DropValue> angles) => [.. angles.Where(a => Math.Abs(a.Value) < 60)];

    private static List<Shift> Find(CheckedLog log, IReadOnlyList<DropValue> values, double least) =>
        new GroupShifts(log, least, againstRest: false, Ways).Find(values);

    /// <summary>
    /// Angle of the mean landing of a stick off the forecast line, weighted by the drift squared: the slope of a line through the origin.
    /// </summary>
    private static List<DropValue> Misses(CheckedLog log)
    {
        var values = new List<DropValue>();
        foreach (var drop in log.Log.Drops.Where(d => d.ForecastDrift.Length > 0))
        {
            var right = log.LandingsOf(drop).Select(l => l.MissDownwind).OfType<PlaneVector>().Select(m => m.Across).ToList();
            if (right.Count == 0) continue;
            var drift = drop.ForecastDrift.Length;
            values.Add(new DropValue(drop, double.RadiansToDegrees(Math.Atan2(right.Median(), drift)), drift * drift));
        }
        return values;
    }

    private RecordFlag Flag(CheckedLog log, Shift shift, string found, string means)
    {
        var drift = shift.Drops.Select(d => d.ForecastDrift.Length).Median();
        var off = 2 * drift * Math.Sin(double.DegreesToRadians(Math.Abs(shift.Value)) / 2);
        var sign = shift.Value < 0 ? -1 : 1;
        var (low, high) = sign > 0 ? (shift.Range.Low, shift.Range.High) : (-shift.Range.High, -shift.Range.Low);
        return new RecordFlag
        {
            Check = Name, Group = shift.Group.Group, Rows = [.. shift.Drops.Select(d => d.Source)],
            Found = string.Format(System.Globalization.CultureInfo.InvariantCulture, found,
                $"{Rounding.Fixed(Math.Abs(shift.Value), 1)} degrees ({Rounding.Fixed(low, 1)} to {Rounding.Fixed(high, 1)}) "
                    + $"{(sign > 0 ? "right (clockwise)" : "left (anticlockwise)")}")
                + $" ({Rounding.Count(shift.Missions, "mission")}, {Rounding.Count(shift.Drops.Count, "drop")}); {means}.",
            Harm = new FlagHarm(log.Unit.FromSi(off), log.Unit.Suffix, shift.Drops.Count,
                $"A turn of this size moves the end of the median drift of {log.Length(drift)} by {log.Length(off)} (2 D sin(angle / 2), "
                    + $"n = {Rounding.Count(shift.Drops.Count, "drop")})."),
            PValue = shift.PValue, Rule = "t test on missions, against no turn",
            Try = "ask which north these rows were written in; magnetic ones belong under a header ending in _degm, with a declination",
        };
    }
}
