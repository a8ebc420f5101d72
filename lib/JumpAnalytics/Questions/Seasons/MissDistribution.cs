namespace JumpAnalytics;

/// <summary>A distribution fitted to the misses, with what it says of them and whether it fits.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Fit">The fit, or why it can't be made.</param>
/// <param name="Check">Whether it fits; null without a fit.</param>
/// <param name="Radii">
/// Radius about the spot that holds each of <see cref="MissSummary.Percents"/> of landings, metres, with its interval.
/// </param>
[TypeFormatterSource]
public sealed record MissFit(string Name, Fit<IModelFit<IPlaneModel>> Fit, FitCheck? Check, IReadOnlyList<Estimate> Radii);

/// <summary>
/// How landings really miss: several distributions fitted to the same misses, which of them the records prefer, whether it fits, and how
/// much of the spread is the forecast's part and how much the jumper's.
/// </summary>
/// <remarks>
/// Distributions are fitted by likelihood to all landings, those known only as beyond a distance included. Radii have profile-like
/// intervals by the delta method on the logarithm, allowing for missions. The forecast's part is the variance between missions of the
/// two-level model, fitted by REML.
/// </remarks>
public sealed class MissDistribution : ShownResult
{
    private readonly Lazy<IReadOnlyList<MissFit>> _fits;

    private MissDistribution(PlaneSample sample, PlaneSample spread, AccuracyOptions options)
    {
        (Sample, Spread, Options) = (sample, spread, options);
        var fits = Families.AsParallel().AsOrdered().Select(f => (f.Name, f.Fit, Made: f.Fit(sample))).ToList();
        _fits = new(() => [.. fits.AsParallel().AsOrdered().Select(f => Checked(f.Name, f.Fit, f.Made))]);
        var made = fits.Where(f => f.Made.Success).Select(f => f.Made.Value!).ToList();
        Choice = made.Count > 0 ? Fit<ModelChoice>.Made(ModelChoice.Of(made)) : Fit<ModelChoice>.Refused("no distribution can be fitted");
        Levels = TwoLevelModel.FitTo(sample, confidence: options.Confidence);
    }

    private static readonly (string Name, Func<PlaneSample, Fit<IModelFit<IPlaneModel>>> Fit)[] Families =
    [
        ("bivariate normal", s => Any(BivariateNormal.FitTo(s))),
        ("bivariate t", s => Any(BivariateT.FitTo(s))),
        ("mixture of two spreads", s => Any(ScaleMixture.FitTo(s))),
    ];

    /// <summary>What was fitted to.</summary>
    public PlaneSample Sample { get; }

    /// <summary>The same with rounded distances laid over their rounding: what the fit is checked on.</summary>
    internal PlaneSample Spread { get; }

    /// <summary>What was asked for.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>The distributions.</summary>
    public IReadOnlyList<MissFit> Fits => _fits.Value;

    /// <summary>Which of them the records prefer, and which they can't tell apart.</summary>
    public Fit<ModelChoice> Choice { get; }

    /// <summary>The forecast's part and the jumper's.</summary>
    public Fit<TwoLevelModel> Levels { get; }

    /// <summary>The preferred distribution; null when none can be fitted.</summary>
    public MissFit? Best => Choice.Value is { } choice ? Fits.First(f => f.Fit.Success && f.Name == choice.Models[0].Name) : null;

    /// <summary>Fits distributions to landings.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Confidence, units and seed.</param>
    public static MissDistribution Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var sample = MissionSample.Of(landings).Misses();
        return new MissDistribution(sample, Unrounded.Of(landings, sample, options.Seed), options);
    }

    private static Fit<IModelFit<IPlaneModel>> Any<T>(Fit<ModelFit<T>> fit) where T : class, IPlaneModel =>
        fit.Success ? Fit<IModelFit<IPlaneModel>>.Made(fit.Value) : Fit<IModelFit<IPlaneModel>>.Refused(fit.Reason);

    private MissFit Checked(string name, Func<PlaneSample, Fit<IModelFit<IPlaneModel>>> family, Fit<IModelFit<IPlaneModel>> fit) =>
        !fit.Success ? new MissFit(name, fit, null, [])
            : new MissFit(name, fit,
                FitCheck.Of(Spread, fit.Value.Model, s => family(s).Value?.Model, draws: 15, replicates: 199, seed: Options.Seed),
                [.. MissSummary.Percents.Select(p =>
                    fit.Value.Derived(m => m.RadiusHolding(p / 100.0), Options.Confidence, IntervalScale.Log))]);

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Best is not { } best) return $"No distribution can be fitted to {Rounding.Count(Sample.Points, "landing")} of "
                + $"{Rounding.Count(Sample.Clusters, "mission")}.";
            var unit = Options.Units.Distance;
            return $"{Choice.Value!.Reading} It puts {MissSummary.Percents[1]} % of landings within "
                + $"{Rounding.Number(best.Radii[1].Select(unit.FromSi))} {unit.Name} of the spot ({Rounding.Percent(Options.Confidence)} "
                + $"interval). {best.Check!.Reading}"
                + (Levels.Value is { } levels
                    ? $" Of the spread of misses, {Rounding.Percent(levels.Forecast.Overall.Share)} is shared by a mission's jumpers: "
                        + "what steering left of the mission's forecast error, and whatever else they share. The rest differs from landing "
                        + "to landing: the jumper's own part, the forecast error of single passes"
                        + (levels.Forecast.WithoutMeasurement ? "." : " and the error of measuring.")
                    : "");
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Fits.Where(f => !f.Fit.Success).Select(f => $"{f.Name}: no fit, {f.Fit.Reason}."),
        .. Fits.Where(f => f.Fit.Success).SelectMany(f => f.Fit.Value!.Warnings.Select(w => $"{f.Name}: {w}.")),
        .. Levels.Success
            ? Levels.Value.Warnings.Select(w => $"shared and own part: {w}.")
            : [$"shared and own part: {Levels.Reason}."],
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [MissDistributionTables.Models(this), MissDistributionTables.Parameters(this),
        .. Levels.Success ? (IReadOnlyList<TableView>)[MissDistributionTables.Parts(this, Levels.Value)] : []];
}
