namespace JumpAnalytics;

/// <summary>How one group of landings stands to the claimed rate.</summary>
/// <param name="Cell">A wind band, a terrain, or the whole.</param>
/// <param name="Group">The same in words.</param>
/// <param name="Counted">The counted rate with its interval.</param>
/// <param name="ProbabilityAtLeast">Probability that the true rate is at least the benchmark; null with a single mission.</param>
/// <param name="PValue">Two-sided p-value of the true rate being the benchmark; null with a single mission.</param>
[TypeFormatterSource]
public sealed record ClaimRow(Cell Cell, string Group, ClusteredProportion Counted, double? ProbabilityAtLeast, double? PValue)
{
    /// <summary>The rate with distances spread over their rounding; null where none was rounded.</summary>
    public SpreadRate? Spread { get; init; }

    /// <summary>
    /// The probability with distances spread: the one-sided level of the same test at the spread rate. Null where no distance was
    /// rounded.
    /// </summary>
    public double? SpreadProbability { get; init; }

    /// <summary>The p-value at the spread rate; null without one.</summary>
    public double? SpreadPValue { get; init; }
}

/// <summary>
/// Whether the claimed rate holds: the probability that the true rate reaches it, a test, and how many more missions would tell.
/// </summary>
/// <remarks>
/// Test: the score test that the interval of the rate is the inverse of, with its effective number of landings and degrees of freedom, so
/// that p is below 1 − confidence exactly when the interval excludes the benchmark. Probability: the one-sided level of the same test, the
/// confidence that the true rate is the benchmark or more (Schweder and Hjort 2016, Confidence, Likelihood, Probability, chapter 3; cited
/// from memory), so that probability, p and interval never disagree. How often each errs at the true rate is in tests/EVIDENCE.md.
/// </remarks>
public sealed class BenchmarkClaim : ShownResult
{
    /// <summary>Power that the planning asks for.</summary>
    public const double Power = 0.8;

    private static readonly double[] _differences = [-0.10, -0.05, 0.05];

    private readonly Lazy<IReadOnlyList<MissionsNeeded>> _planning;

    private BenchmarkClaim(IReadOnlyList<ClaimRow> rows, Func<IReadOnlyList<MissionsNeeded>> planning, AccuracyOptions options) =>
        (Rows, _planning, Options) = (rows, new(planning), options);

    /// <summary>All landings first, then each wind band and each terrain that has any.</summary>
    public IReadOnlyList<ClaimRow> Rows { get; }

    /// <summary>How many missions would tell other true rates from the benchmark.</summary>
    public IReadOnlyList<MissionsNeeded> Planning => _planning.Value;

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>Judges the claim on landings.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Benchmark, bands, confidence and seed.</param>
    public static BenchmarkClaim Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var grid = new Cells(options.Bands, landings);
        var byCell = grid.Group(landings);
        var steps = WrittenSteps.Of(landings);
        var rows = ((Cell[])[Cell.All, .. grid.OfBands, .. grid.OfTerrains])
            .Select(c => RowOf(c, MissionSample.Of(byCell[c]), steps, options)).OfType<ClaimRow>().ToList();
        return new BenchmarkClaim(rows,
            () => rows.Count > 0 ? PlanningFor(MissionSample.Of(landings), rows[0].Counted, options) : [], options);
    }

    private static ClaimRow? RowOf(Cell cell, MissionSample sample, WrittenSteps steps, AccuracyOptions options)
    {
        if (sample.CountedRate(options.Confidence) is not { Success: true } fit) return null;
        var (counted, spread) = (fit.Value, SpreadRate.Of(sample.Landings, steps, fit, options.Confidence));
        var (atLeast, spreadAtLeast) = (counted.AtLeast(options.Benchmark), spread is null ? null
            : counted.AtLeast(options.Benchmark, spread.Rate.Value));
        return new ClaimRow(cell, cell.Words(options.Bands), counted, atLeast, TwoSided(atLeast))
        {
            Spread = spread, SpreadProbability = spreadAtLeast, SpreadPValue = TwoSided(spreadAtLeast),
        };

        static double? TwoSided(double? level) => level is { } p ? 2 * Math.Min(p, 1 - p) : null;
    }

    private static IReadOnlyList<MissionsNeeded> PlanningFor(MissionSample sample, ClusteredProportion all, AccuracyOptions options) =>
    [
        .. _differences.Select(d => Math.Round(options.Benchmark + d, 10)).Where(rate => rate is > 0 and < 1)
            .Select(rate => MissionsNeeded.For(sample.Decided().Landings, Math.Clamp(all.IntraclassCorrelation ?? 0, 0, 0.95), rate,
                options.Benchmark, Power, options.Confidence, options.Seed)),
    ];

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.Count == 0) return "Nothing can be said of the claim: no landing can be told a hit or a miss.";
            var (all, benchmark) = (Rows[0], Options.BenchmarkText);
            var text = $"The probability that the true landing rate is at least {benchmark} is "
                + $"{(all.ProbabilityAtLeast is { } chance ? Rounding.Chance(chance) : "unknown")} "
                + $"({Rounding.Count(all.Counted.Missions, "mission")}, {Rounding.Count(all.Counted.Landings, "landing")}; "
                + $"{Rounding.Percent(all.Counted.Rate)} counted). ";
            text += all.PValue is not { } p ? "A single mission can't test it."
                : p < 1 - Options.Confidence ? $"The records speak against a true rate of exactly {benchmark} (p {Rounding.PValue(p)})."
                : $"A true rate of {benchmark} is in keeping with the records (p {Rounding.PValue(p)}), "
                    + "and so is every other in the interval.";
            if (all is { Spread: { } spread, SpreadPValue: { } q })
            {
                var (written, spreadTells) = (all.PValue < 1 - Options.Confidence, q < 1 - Options.Confidence);
                var sameSide = all.Counted.Rate.Value > Options.Benchmark == spread.Rate.Value > Options.Benchmark;
                text += $" That is as written. With rounded distances spread the rate is {Rounding.Percent(spread.Rate)}, the probability "
                    + $"{(all.SpreadProbability is { } spreadChance ? Rounding.Chance(spreadChance) : "unknown")}, and "
                    + (spreadTells ? $"the records speak against {benchmark}" : $"{benchmark} is in keeping with the records")
                    + $" (p {Rounding.PValue(q)}): the two "
                    + (written == spreadTells && (!written || sameSide)
                        ? "agree." : "differ, so the rounding decides and neither may be quoted alone.");
            }
            if (Planning.FirstOrDefault(m => m.TrueRate < Options.Benchmark && Options.Benchmark - m.TrueRate < 0.06) is { } plan)
            {
                var have = Rounding.Count(Rows[0].Counted.Missions, "mission");
                text += $" About {Rounding.Count(Needed(plan))} missions like these would be enough to detect a true rate of "
                    + $"{Rounding.Percent(plan.TrueRate)} four times in five; there are {have}"
                    + (More(plan) > 0 ? $", so that {Rounding.Count(More(plan))} more are needed." : ".");
            }
            return text;
        }
    }

    /// <summary>Missions needed: simulated, or by the formula where the simulation does not go so far.</summary>
    private static int Needed(MissionsNeeded plan) => plan.BySimulation ?? plan.ByFormula;

    private int More(MissionsNeeded plan) => Math.Max(0, Needed(plan) - Rows[0].Counted.Missions);

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<ClaimRow>("claim", $"The claim: a true landing rate of at least {Options.BenchmarkText}", Rows,
            "Probability, of the hits as written: one-sided level of the test of the benchmark, allowing for missions; "
                + $"p: the same two-sided, of the true rate being the benchmark. {Rows.Count} groups were tested; were "
                + $"the claim exactly true in each, about {Rounding.Fixed((1 - Options.Confidence) * Rows.Count, 1)} would show a p below "
                + $"{Rounding.Fixed(1 - Options.Confidence, 2)}.")
        {
            { Columns.Group, r => r.Group },
            { Columns.Missions, r => r.Counted.Missions },
            { Columns.Landings, r => r.Counted.Landings },
            { Columns.Hits, r => r.Counted.Hits },
            { Columns.Rate, r => r.Counted.Rate },
            { Columns.SpreadRate, r => r.Spread?.Rate },
            { Columns.BenchmarkRate, _ => Options.Benchmark },
            { Columns.ProbabilityAtLeast, r => r.ProbabilityAtLeast },
            { Columns.PValue, r => r.PValue },
            { Columns.SpreadProbability, r => r.SpreadProbability },
            { Columns.SpreadPValue, r => r.SpreadPValue },
        },
        new TableOf<MissionsNeeded>("claim-planning", "How many missions would tell", Planning, PlanningNote)
        {
            { Columns.TrueRate, p => p.TrueRate },
            { Columns.BenchmarkRate, p => p.Benchmark },
            { Columns.WantedPower, p => p.Power },
            { Columns.MissionsByFormula, p => p.ByFormula },
            { Columns.MissionsBySimulation, p => p.BySimulation },
            { Columns.PowerAtFormula, p => p.PowerAtFormula },
            { Columns.MoreMissions, p => More(p) },
        },
    ];

    private string? PlanningNote => Planning.Count == 0 ? null
        : $"Missions of {Rounding.Fixed(Planning[0].LandingsPerMission, 1)} landings, likeness within a mission "
            + $"{Rounding.Fixed(Planning[0].Correlation, 2)} as in these records. "
            + "Power: share of seasons in which the interval would exclude the benchmark. "
            + $"Simulated: {Rounding.Count(Planning[0].Seasons)} seasons each, seed {Options.Seed}, to one mission in fifty; "
            + $"their shares are sure to {Rounding.Fixed(100 * 2 * Planning.Max(p => p.PowerError), 0)} points.";
}
