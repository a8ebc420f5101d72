using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class MissBudgetTests
{
    private static readonly Gen<LocalVector> _vectors =
        Gen.Select(Gen.Double[-2000, 2000], Gen.Double[-2000, 2000], (east, north) => new LocalVector(east, north));

    private sealed record Run(double HeadingDegrees, double GroundSpeed, double Spacing, int Order, int Reference);

    private static readonly Gen<Run> _runs = Gen.Select(Gen.Double[0, 360], Gen.Double[20, 70], Gen.Double[0, 3], Gen.Int[1, 8],
        Gen.Int[1, 8], (heading, speed, spacing, order, reference) => new Run(heading, speed, spacing, order, reference));

    /// <summary>One jump flown forward from parts that are planted: what the budget must find again.</summary>
    private sealed record Jump(LocalVector ForecastDrift, LocalVector ExitOffset, LocalVector ForecastError, LocalVector Steering, Run Run)
    {
        /// <summary>
        /// Where the jumper comes down, walked step by step from the plan: to the planned exit, off it by what the aircraft did, down
        /// with the true drift, across by what the jumper flew. Distances in metres; the spot is the origin.
        /// </summary>
        public Landing Fly(bool withRun = true)
        {
            var plannedExit = new LocalVector(-ForecastDrift.East, -ForecastDrift.North);
            var exit = plannedExit + ExitOffset;
            var unsteeredLanding = exit + ForecastDrift + ForecastError;
            var landing = unsteeredLanding + Steering;

            // The log holds the exit of the reference jumper: back along the run by the time between the two.
            var radians = Run.HeadingDegrees * Math.PI / 180;
            var along = Run.GroundSpeed * Run.Spacing * (Run.Order - Run.Reference);
            var recorded = new LocalVector(exit.East - along * Math.Sin(radians), exit.North - along * Math.Cos(radians));
            var drop = Made.Drop(forecastDrift: ForecastDrift) with { ActualExit = recorded };
            if (withRun)
                drop = drop with { RunHeading = Bearing.FromDegrees(Run.HeadingDegrees),
                    GroundSpeed = Run.GroundSpeed, ExitSpacing = Run.Spacing };
            return Made.Landing(drop, landing, Run.Order);
        }
    }

    private static readonly Gen<Jump> _jumps = Gen.Select(_vectors, _vectors, _vectors, _vectors, _runs,
        (drift, offset, error, steering, run) => new Jump(drift, offset, error, steering, run));

    [Fact]
    public void The_budget_finds_every_planted_part_to_a_nanometre() =>
        Cases.Each(_jumps, 3000, 21, jump =>
        {
            var budget = MissBudget.Of(jump.Fly(), jump.Steering, jump.Run.Reference);
            Close.Absolute(jump.ExitOffset, budget.ExitPlacement.Vector!.Value, 1e-9, "exit placement");
            Close.Absolute(jump.ForecastError, budget.ForecastError.Vector!.Value, 1e-9, "forecast error");
            Close.Absolute(jump.Steering, budget.Steering.Vector!.Value, 1e-9, "steering");
            Assert.All([budget.ExitPlacement, budget.ForecastError, budget.Steering, budget.ForecastErrorAndSteering],
                p => Assert.Null(p.Reason));
        });

    [Fact]
    public void With_known_steering_the_parts_add_up_to_the_miss_to_a_nanometre() =>
        Cases.Each(_jumps, 3000, 22, jump =>
        {
            var landing = jump.Fly();
            var budget = MissBudget.Of(landing, jump.Steering, jump.Run.Reference);
            var sum = budget.ExitPlacement.Vector!.Value + budget.ForecastError.Vector!.Value + budget.Steering.Vector!.Value;
            Close.Absolute(landing.Miss!.Value, sum, 1e-9, "sum");
            Assert.Equal(landing.Miss, budget.Miss);
            Close.Absolute(budget.ForecastErrorAndSteering.Vector!.Value,
                budget.ForecastError.Vector!.Value + budget.Steering.Vector!.Value, 1e-9, "rest");
        });

    [Fact]
    public void Without_steering_forecast_error_is_unknown_and_lies_within_the_bounds_of_the_reach() =>
        Cases.Each(Gen.Select(_jumps, Gen.Double[0, 1]), 3000, 23, t =>
        {
            var (jump, used) = t;
            var budget = MissBudget.Of(jump.Fly(), referenceOrder: jump.Run.Reference);
            Close.Absolute(jump.ExitOffset, budget.ExitPlacement.Vector!.Value, 1e-9, "exit placement");
            Close.Absolute(jump.ForecastError + jump.Steering, budget.ForecastErrorAndSteering.Vector!.Value, 1e-9, "sum");
            AssertUnknown(budget.Steering, "steering is not known");
            AssertUnknown(budget.ForecastError, "steering is not known");

            // A jumper who used any share of the reach: the true error lies within the bounds, and the bounds are 2 reaches apart or less.
            var reach = jump.Steering.Length / Math.Max(used, 0.01);
            var bounds = budget.ForecastErrorWithin(reach)!.Value;
            Assert.InRange(jump.ForecastError.Length, bounds.Low - 1e-9, bounds.High + 1e-9);
            Assert.True(bounds.Low >= 0 && bounds.High - bounds.Low <= 2 * reach + 1e-9);
        });

    [Fact]
    public void With_known_steering_the_bounds_are_the_error_itself()
    {
        var jump = new Jump(new(0, 300), new(5, 5), new(30, 40), new(-10, 2), new Run(0, 45, 1, 1, 1));
        var bounds = MissBudget.Of(jump.Fly(), jump.Steering).ForecastErrorWithin(150)!.Value;
        Close.Absolute(50, bounds.Low, 1e-9);
        Close.Absolute(50, bounds.High, 1e-9);
    }

    [Fact]
    public void No_recorded_exit_leaves_every_part_but_steering_unknown()
    {
        var landing = Made.Landing(Made.Drop(), 10, 20, exitOrder: 1);
        var budget = MissBudget.Of(landing, new LocalVector(3, 4));
        AssertUnknown(budget.ExitPlacement, "actual exit was not recorded");
        AssertUnknown(budget.ForecastErrorAndSteering, "actual exit was not recorded");
        AssertUnknown(budget.ForecastError, "actual exit was not recorded");
        Assert.Equal(new LocalVector(3, 4), budget.Steering.Vector);
        Assert.Null(budget.ForecastErrorWithin(100));
    }

    [Fact]
    public void What_is_missing_to_place_an_exit_is_named()
    {
        var drop = Made.Drop() with
        {
            ActualExit = new LocalVector(0, -300), RunHeading = Bearing.FromDegrees(90), GroundSpeed = 46, ExitSpacing = 1,
        };
        AssertUnknown(Placement(drop, null), "exit order was not recorded");
        AssertUnknown(Placement(drop with { RunHeading = null }, 2), "run heading was not recorded");
        AssertUnknown(Placement(drop with { GroundSpeed = null }, 2), "ground speed was not recorded");
        AssertUnknown(Placement(drop with { ExitSpacing = null }, 2), "exit spacing was not recorded");

        // The jumper whose exit was recorded needs none of them.
        var bare = drop with { RunHeading = null, GroundSpeed = null, ExitSpacing = null };
        Assert.Equal(default(LocalVector), Placement(bare, 1).Vector);
        Assert.Equal(default(LocalVector), Placement(bare, 3, referenceOrder: 3).Vector);

        static BudgetPart Placement(Drop drop, int? order, int referenceOrder = 1) =>
            MissBudget.Of(Made.Landing(drop, 1, 2, order), referenceOrder: referenceOrder).ExitPlacement;
    }

    [Fact]
    public void An_unknown_part_is_never_zero()
    {
        AssertUnknown(default, "not recorded");
        Assert.Null(BudgetPart.Unknown("x").Vector);
        Assert.Null(BudgetPart.Known(default).Reason);
    }

    [Fact]
    public void A_landing_without_a_place_can_not_be_split() =>
        Assert.Contains("landings.csv:2", Assert.Throws<ArgumentException>(() => MissBudget.Of(Made.Beyond(Made.Drop(), 90))).Message,
            StringComparison.Ordinal);

    [Fact]
    public void A_reach_or_an_order_that_can_not_be_is_refused()
    {
        var landing = Made.Landing(Made.Drop(), 1, 2, 1);
        Assert.Throws<ArgumentOutOfRangeException>(() => MissBudget.Of(landing).ForecastErrorWithin(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => MissBudget.Of(landing).ForecastErrorWithin(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => MissBudget.Of(landing, referenceOrder: 0));
    }

    private static void AssertUnknown(BudgetPart part, string reason)
    {
        Assert.Null(part.Vector);
        Assert.Contains(reason, part.Reason, StringComparison.Ordinal);
    }
}
