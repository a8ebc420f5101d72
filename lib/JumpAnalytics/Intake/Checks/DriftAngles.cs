namespace JumpAnalytics;

/// <summary>Angles between what should point the same way, degrees, + clockwise.</summary>
internal static class DriftAngles
{
    /// <summary>Metres per second (2 mph); lighter winds have no direction to speak of.</summary>
    private const double LeastWind = 0.894;

    /// <summary>Metres; a shorter drift leaves the direction to rounding and to the length of the stick.</summary>
    private const double LeastDrift = 150;

    /// <summary>The forecast drift's direction less the one the wind blows to.</summary>
    public static IReadOnlyList<DropValue> AgainstWind(CheckedLog log) =>
    [
        .. from d in log.Log.Drops
           where d.WindSpeed >= LeastWind && d.WindFrom is not null && d.ForecastDrift.Direction is not null
           select new DropValue(d, Turn(d.WindFrom!.Value.Reversed, d.ForecastDrift.Direction!.Value)),
    ];

    /// <summary>
    /// Planned exit less recorded exit, both seen from the spot: a drift turned clockwise plans its exit clockwise of where it was flown.
    /// Runs across the drift are left out, because half a stick on such a run turns the recorded exit by itself.
    /// </summary>
    public static IReadOnlyList<DropValue> AgainstExit(CheckedLog log) =>
    [
        .. from d in log.Log.Drops
           where d.ForecastDrift.Length >= LeastDrift && d.ActualExit is { Length: > 0 } && !IsAcross(d)
           select new DropValue(d, Turn(d.ActualExit!.Value.Direction!.Value, d.PlannedExit.Direction!.Value)),
    ];

    private static bool IsAcross(Drop drop) =>
        drop.RunHeading is { } run && drop.ForecastDrift.Direction is { } drift && Math.Abs(Turn(run, drift)) is > 45 and < 135;

    /// <summary>From one direction to another by the shorter way, in (−180, 180].</summary>
    public static double Turn(Bearing from, Bearing to)
    {
        var turn = Bearing.FromDegrees(to.Degrees - from.Degrees).Degrees;
        return turn > 180 ? turn - 360 : turn;
    }
}
