namespace JumpAnalytics;

/// <summary>The miss of each jumper split into exit placement, forecast error and steering, along and across the forecast drift.</summary>
public sealed class BudgetSheet : ShownResult
{
    private BudgetSheet(IReadOnlyList<DebriefedPass> passes, AccuracyOptions options) => (Passes, Options) = (passes, options);

    /// <summary>The passes.</summary>
    public IReadOnlyList<DebriefedPass> Passes { get; }

    /// <summary>Units and confidence.</summary>
    public AccuracyOptions Options { get; }

    internal static BudgetSheet Of(IReadOnlyList<DebriefedPass> passes, AccuracyOptions options) => new(passes, options);

    private IEnumerable<DebriefedJumper> Jumpers => Passes.SelectMany(p => p.Jumpers);

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var (all, split, parted) = (Jumpers.Count(), Jumpers.Count(j => j.Budget.Value?.ExitPlacement.Vector is not null), Jumpers.Count(j => j.IsParted));
            if (all == 0) return "Nobody's landing was recorded on this mission.";
            return $"Of {Rounding.Count(all, "landing")}, the exit placement is known for {Rounding.Count(split)}, and the forecast error is parted from the steering for {Rounding.Count(parted)}. "
                + (parted == 0 ? "Without a descent track that parts them, forecast error and steering are known only as their sum: a good landing may hide a poor forecast that was steered off."
                    : parted < split ? "Where no track parts them, only their sum is known." : "The parts add up to the miss.");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            return
            [
                new("miss-budget", "Where each miss came from",
                    [
                        Columns.DropId, Columns.OrderOfExit, Columns.Outcome,
                        Columns.Measure("downwind", "miss downwind", unit, "Miss along the forecast drift, + long."),
                        Columns.Measure("right", "miss right", unit, "Miss across the forecast drift, + right of it."),
                        Columns.Measure("exit_downwind", "exit downwind", unit, "Exit placement along the forecast drift: actual less planned exit, + downwind of the plan."),
                        Columns.Measure("exit_right", "exit right", unit, "Exit placement across the forecast drift, + right of it."),
                        Columns.SignedDistance("forecast_error_downwind", "forecast error downwind", unit, "Unsteered drift less forecast drift, along it, + longer than forecast."),
                        Columns.SignedDistance("forecast_error_right", "forecast error right", unit, "Unsteered drift less forecast drift, across it, + right."),
                        Columns.SignedDistance("steering_downwind", "steering downwind", unit, "What the jumper flew, along the forecast drift, + downwind."),
                        Columns.SignedDistance("steering_right", "steering right", unit, "What the jumper flew, across the forecast drift, + right."),
                        Columns.Measure("rest_downwind", "forecast error and steering downwind", unit, "What is left of the miss after the exit placement, along the forecast drift."),
                        Columns.Measure("rest_right", "forecast error and steering right", unit, "The same across the forecast drift."),
                        Columns.NotParted,
                    ],
                    [.. Passes.SelectMany(p => p.Jumpers.Select(j => Row(p.Drop, j)))],
                    "Miss = exit placement + forecast error + steering. The exit placement of a jumper comes from the recorded exit, the run and the place in the stick; "
                    + $"intervals of forecast error and steering ({Rounding.Percent(Options.Confidence)}) are those of the track alone: the recorded exit and landing have errors of their own."),
            ];
        }
    }

    private object?[] Row(Drop drop, DebriefedJumper j)
    {
        var unit = Options.Units.Distance;
        var (miss, budget, flight) = (j.Landing.MissDownwind, j.Budget.Value, j.Flight.Value);
        var (exit, rest) = (In(budget?.ExitPlacement), In(budget?.ForecastErrorAndSteering));
        var (error, steering) = (In(budget?.ForecastError), In(budget?.Steering));
        return
        [
            drop.Id, j.Landing.ExitOrder, j.Landing.Outcome.ToString().ToLowerInvariant(), Show(miss?.Along), Show(miss?.Across), Show(exit?.Along), Show(exit?.Across),
            Along(error?.Along, 0), Along(error?.Across, 90), Along(steering?.Along, 0), Along(steering?.Across, 90), Show(rest?.Along), Show(rest?.Across),
            budget is null ? j.Budget.Reason : Why(budget, j),
        ];

        PlaneVector? In(BudgetPart? part) => part?.Vector is { } v ? drop.Frame?.ToDownwind(v) : null;
        object? Show(double? metres) => metres is { } m ? unit.FromSi(m) : null;
        object? Along(double? metres, double turn) => metres is { } m && flight is not null && drop.ForecastDrift.Direction is { } direction
            ? Around(unit, m, flight.SteeringError.SdAlong(Bearing.FromDegrees(direction.Degrees + turn)), Options) : null;
    }

    /// <summary>Why the parts are not known one by one.</summary>
    private static string? Why(MissBudget budget, DebriefedJumper j) => (budget.ExitPlacement.Reason, j.Flight.Reason) switch
    {
        ({ } exit, { } flight) => $"{exit}; {flight}",
        ({ } exit, null) => exit,
        (null, var flight) => flight,
    };

    /// <summary>A measured value with the interval of a normal error.</summary>
    internal static Estimate Around(MeasureUnit unit, double value, double sd, AccuracyOptions options)
    {
        var half = HalfWidth(sd, options);
        return Estimate.Of(unit.FromSi(value), new Interval(unit.FromSi(value - half), unit.FromSi(value + half)));
    }

    /// <summary>Half of such an interval.</summary>
    internal static double HalfWidth(double sd, AccuracyOptions options) =>
        sd * MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (1 + options.Confidence) / 2);
}
