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
            var (all, split, parted) =
                (Jumpers.Count(), Jumpers.Count(j => j.Budget.Value?.ExitPlacement.Vector is not null), Jumpers.Count(j => j.IsParted));
            if (all == 0) return "Nobody's landing was recorded on this mission.";
            return $"Of {Rounding.Count(all, "landing")}, the exit placement is known for {Rounding.Count(split)}, and the forecast error "
                + $"is parted from the steering for {Rounding.Count(parted)}. "
                + (parted == 0 ? "Without a descent track that parts them, forecast error and steering are known only as their sum: "
                    + "a good landing may hide a poor forecast that was steered off."
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
                new TableOf<BudgetRow>("miss-budget", "Where each miss came from",
                    Passes.SelectMany(p => p.Jumpers.Select(j => new BudgetRow(p.Drop, j))),
                    "Miss = exit placement + forecast error + steering. The exit placement of a jumper comes from the recorded exit, "
                        + "the run and the place in the stick."
                        + (Jumpers.Any(j => j.IsParted)
                            ? $" Intervals of forecast error and steering ({Rounding.Percent(Options.Confidence)}) are those of the track "
                                + "alone: the recorded exit and landing have errors of their own." : ""))
                {
                    { Columns.DropId, r => r.Drop.Id },
                    { Columns.OrderOfExit, r => r.Jumper.Landing.ExitOrder },
                    { Columns.Outcome, r => r.Jumper.Landing.Outcome.ToString().ToLowerInvariant() },
                    {
                        Columns.Measure("downwind", "miss downwind", unit, "Miss along the forecast drift, + long."),
                        r => In(r.Miss?.Along)
                    },
                    {
                        Columns.Measure("right", "miss right", unit, "Miss across the forecast drift, + right of it."),
                        r => In(r.Miss?.Across)
                    },
                    {
                        Columns.Measure(
                            "exit_downwind", "exit downwind", unit,
                            "Exit placement along the forecast drift: actual less planned exit, + downwind of the plan."),
                        r => In(r.Exit?.Along)
                    },
                    {
                        Columns.Measure("exit_right", "exit right", unit, "Exit placement across the forecast drift, + right of it."),
                        r => In(r.Exit?.Across)
                    },
                    {
                        Columns.SignedDistance(
                            "forecast_error_downwind", "forecast error downwind", unit,
                            "Unsteered drift less forecast drift, along it, + longer than forecast."),
                        r => Along(r, r.ForecastError?.Along, 0)
                    },
                    {
                        Columns.SignedDistance(
                            "forecast_error_right", "forecast error right", unit,
                            "Unsteered drift less forecast drift, across it, + right."),
                        r => Along(r, r.ForecastError?.Across, 90)
                    },
                    {
                        Columns.SignedDistance(
                            "steering_downwind", "steering downwind", unit, "What the jumper flew, along the forecast drift, + downwind."),
                        r => Along(r, r.Steering?.Along, 0)
                    },
                    {
                        Columns.SignedDistance(
                            "steering_right", "steering right", unit, "What the jumper flew, across the forecast drift, + right."),
                        r => Along(r, r.Steering?.Across, 90)
                    },
                    {
                        Columns.Measure(
                            "rest_downwind", "forecast error and steering downwind", unit,
                            "What is left of the miss after the exit placement, along the forecast drift."),
                        r => In(r.Rest?.Along)
                    },
                    {
                        Columns.Measure("rest_right", "forecast error and steering right", unit, "The same across the forecast drift."),
                        r => In(r.Rest?.Across)
                    },
                    { Columns.NotParted, r => r.Jumper.Budget.Value is { } budget ? Why(budget, r.Jumper) : r.Jumper.Budget.Reason },
                },
            ];

            object? In(double? metres) => metres is { } m ? unit.FromSi(m) : null;
        }
    }

    /// <summary>One jumper, with the parts of the miss along and across the forecast drift.</summary>
    private sealed record BudgetRow(Drop Drop, DebriefedJumper Jumper)
    {
        public PlaneVector? Miss => Jumper.Landing.MissDownwind;

        public PlaneVector? Exit => In(Jumper.Budget.Value?.ExitPlacement);

        public PlaneVector? ForecastError => In(Jumper.Budget.Value?.ForecastError);

        public PlaneVector? Steering => In(Jumper.Budget.Value?.Steering);

        public PlaneVector? Rest => In(Jumper.Budget.Value?.ForecastErrorAndSteering);

        private PlaneVector? In(BudgetPart? part) => part?.Vector is { } v ? Drop.Frame?.ToDownwind(v) : null;
    }

    /// <summary>A part with the interval that the track's error gives it along its axis.</summary>
    private Estimate? Along(BudgetRow row, double? metres, double turn) =>
        metres is { } m && row.Jumper.Flight.Value?.SteeringError is { } error && row.Drop.ForecastDrift.Direction is { } direction
            ? Around(Options.Units.Distance, m, error.SdAlong(Bearing.FromDegrees(direction.Degrees + turn)), Options) : null;

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
        sd * QuantileOf.Normal(TailShare.Middle(options.Confidence));
}
