namespace JumpAnalytics;

/// <summary>
/// Landings farther from the spot than drift and steering could have taken anybody: most likely a slip of a digit or a unit.
/// </summary>
internal sealed class FarLandingCheck : IRecordCheck
{
    /// <summary>Metres steered for each metre of height by the flattest canopy (3 to 1; common practice, no source).</summary>
    private const double Glide = 3;

    /// <summary>Metres of height where none is recorded (3,500 ft: above a usual exit; common practice, no source).</summary>
    private const double UsualHeight = 1067;

    public string Name => "landings out of reach";

    public bool IsRuleAlone => true;

    public CheckOutcome Look(CheckedLog log)
    {
        var landings = log.Log.Landings.Where(l => l.MissDistance is not null).ToList();
        var far = landings.Where(l => l.MissDistance > Farthest(l.Drop)).ToList();
        return new CheckOutcome(Name, landings.Count, far.Count == 0 ? [] : [Flag(log, landings, far)]);
    }

    /// <summary>Metres: the exit's distance from the planned one, twice the forecast drift (twice the wind), and the steering.</summary>
    private static double Farthest(Drop drop) =>
        (drop.ActualExit is { } exit ? (exit - drop.PlannedExit).Length : 0) + 2 * drop.ForecastDrift.Length
            + Glide * (drop.ExitHeight ?? UsualHeight);

    private RecordFlag Flag(CheckedLog log, List<Landing> landings, List<Landing> far)
    {
        var farthest = far.MaxBy(l => l.MissDistance)!;
        var placed = landings.Where(l => l.Miss is not null).ToList();
        var moved = far.Where(l => l.Miss is not null).Select(l => l.Miss!.Value)
            .Aggregate(default(LocalVector), (sum, miss) => sum + miss).Length / Math.Max(1, placed.Count);
        return new RecordFlag
        {
            Check = Name, Group = RecordGroup.SingleRows, Rows = [.. far.Select(l => l.Source)],
            Found = $"{Rounding.Count(far.Count, "landing")} farther from the spot than drift and steering can take a canopy, "
                + $"the farthest {log.Length(farthest.MissDistance!.Value)}, where {log.Length(Farthest(farthest.Drop))} is the most.",
            Harm = new FlagHarm(log.Unit.FromSi(moved), log.Unit.Suffix, far.Count,
                $"{(far.Count == 1 ? "It moves" : "Together they move")} the mean miss by {log.Length(moved)} "
                    + $"(n = {Rounding.Count(placed.Count, "landing")}); radii that hold most landings grow with them."),
            Rule = $"farther than the exit was off, twice the forecast drift, and {Glide} times the exit height "
                + $"({log.Length(UsualHeight)} where it is not recorded) together",
            Try = "look for a digit too many, a distance in another unit, or a landing of another spot",
        };
    }
}
