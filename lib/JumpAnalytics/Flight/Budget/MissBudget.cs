namespace JumpAnalytics;

/// <summary>One part of a miss: a vector, or the reason why it is not known. An unknown part is never zero.</summary>
[TypeFormatterSource]
public readonly record struct BudgetPart
{
    private BudgetPart(LocalVector? vector, string? reason) => (Vector, _reason) = (vector, reason);

    private readonly string? _reason;

    /// <summary>Metres east and north; null when the part is not known.</summary>
    public LocalVector? Vector { get; }

    /// <summary>Why the part is not known; null when it is. The default value is an unknown part.</summary>
    public string? Reason => Vector is null ? _reason ?? "not recorded" : null;

    internal static BudgetPart Known(LocalVector vector) => new(vector, null);

    internal static BudgetPart Unknown(string reason) => new(null, reason);
}

/// <summary>
/// The miss of one landing split into its parts, metres east and north:
/// miss = exit placement + forecast error + steering.
/// </summary>
/// <remarks>
/// <para>Exit placement is actual exit less planned exit, the planned one being the spot less the forecast drift. Forecast error is
/// unsteered drift less forecast drift, and unsteered drift is landing less actual exit less steering. The parts that are known add up
/// to the miss; with steering unknown the last two are known only as their sum.</para>
/// <para>The recorded exit is that of one jumper of the stick (the reference). The others leave later or earlier and so farther along
/// the run: ground speed × exit spacing × (order − reference).</para>
/// </remarks>
[TypeFormatterSource]
public sealed record MissBudget
{
    private MissBudget(LocalVector miss, BudgetPart exitPlacement, BudgetPart forecastErrorAndSteering, BudgetPart steering)
    {
        (Miss, ExitPlacement, ForecastErrorAndSteering, Steering) = (miss, exitPlacement, forecastErrorAndSteering, steering);
        ForecastError = (forecastErrorAndSteering.Vector, steering.Vector) switch
        {
            ({ } sum, { } steered) => BudgetPart.Known(sum - steered),
            (null, _) => forecastErrorAndSteering,
            _ => steering,
        };
    }

    /// <summary>Landing less spot.</summary>
    public LocalVector Miss { get; }

    /// <summary>Actual exit of this jumper less planned exit.</summary>
    public BudgetPart ExitPlacement { get; }

    /// <summary>Unsteered drift less forecast drift; needs the exit and the steering.</summary>
    public BudgetPart ForecastError { get; }

    /// <summary>What the jumper flew.</summary>
    public BudgetPart Steering { get; }

    /// <summary>Forecast error and steering together: what is left of the miss after the exit placement.</summary>
    public BudgetPart ForecastErrorAndSteering { get; }

    /// <summary>
    /// The least and the greatest length the forecast error can have, metres, when steering can't have moved the canopy farther than
    /// its reach. Null when the exit is unknown.
    /// </summary>
    /// <param name="reach">Metres a canopy can be steered in still air during the descent: forward speed × usable time.</param>
    /// <exception cref="ArgumentOutOfRangeException">The reach is negative or not finite.</exception>
    public Interval? ForecastErrorWithin(double reach)
    {
        Guard.NotNegative(reach, hint: "metres");
        if (ForecastError.Vector is { } known) return new Interval(known.Length, known.Length);
        return ForecastErrorAndSteering.Vector is { } sum ? new Interval(Math.Max(0, sum.Length - reach), sum.Length + reach) : null;
    }

    /// <summary>Splits the miss of a landing.</summary>
    /// <param name="landing">A landing whose place is known.</param>
    /// <param name="steering">What the jumper flew, metres east and north; null when not known.</param>
    /// <param name="referenceOrder">
    /// Place in the stick of the jumper whose exit was recorded; 1, the first out, unless said otherwise.
    /// </param>
    /// <param name="trackedExit">
    /// Where this jumper left by a descent track, metres east and north of the spot; used where the record does not tell it.
    /// </param>
    /// <exception cref="ArgumentException">
    /// The landing's place is unknown: a miss known only as beyond a distance can't be split.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">The reference order is below 1.</exception>
    public static MissBudget Of(Landing landing, LocalVector? steering = null, int referenceOrder = 1, LocalVector? trackedExit = null)
    {
        if (landing.Miss is not { } miss)
            throw new ArgumentException($"The landing at {landing.Source} is known only as beyond a distance; "
                + "a miss without a place can't be split.", nameof(landing));
        var exit = StickExit.Of(landing.Drop, landing.ExitOrder, referenceOrder);
        if (exit.Vector is null && trackedExit is { } seen) exit = BudgetPart.Known(seen);
        var placement = exit.Vector is { } place ? BudgetPart.Known(place - landing.Drop.PlannedExit) : exit;
        var rest = placement.Vector is { } p ? BudgetPart.Known(miss - p) : placement;
        return new MissBudget(miss, placement, rest,
            steering is { } s ? BudgetPart.Known(s) : BudgetPart.Unknown("no descent track: steering is not known"));
    }
}
