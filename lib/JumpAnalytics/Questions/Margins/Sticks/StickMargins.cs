using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// How large a stick may be so that it comes down wholly inside the target radius, and with which chance, by size
/// and by direction of the run.
/// </summary>
/// <remarks>
/// A pass shares one forecast and one exit, so its jumpers miss together: what it shares is integrated over, given it jumpers are
/// independent (<see cref="StickModel"/>). Spreads by likelihood of whole passes, axes along and across the drift taken as uncorrelated;
/// the own part is a mixture of two spreads where the records want one. Intervals: missions resampled, the fit moved by one Newton step for
/// each resample and the log odds of each chance taken as linear in the parameters.
/// </remarks>
public sealed class StickMargins : ShownResult
{
    /// <summary>Fewest missions with a stick of two or more placed landings.</summary>
    public const int FewestMissions = 15;

    private StickChances? _chances;

    private StickMargins()
    {
    }

    /// <summary>The model, or the reason why there is none.</summary>
    public required Fit<StickModel> Model { get; init; }

    /// <summary>What the records say of how much of an exit's offset is left in the landing, or why they say nothing.</summary>
    public required Fit<ExitSmear> Smear { get; init; }

    /// <summary>The share that is reckoned with: the reader's own or the records'; a reason where neither is.</summary>
    public required Fit<Estimate> PassThrough { get; init; }

    /// <summary>Metres; the target radius reckoned with.</summary>
    public required double TargetRadius { get; init; }

    /// <summary>Metres along the run between two exits that are reckoned with; null where none is known.</summary>
    public required double? ExitGap { get; init; }

    /// <summary>Missions with a placed landing.</summary>
    public required int Missions { get; init; }

    /// <summary>Passes with a placed landing.</summary>
    public required int Passes { get; init; }

    /// <summary>Placed landings.</summary>
    public required int Landings { get; init; }

    /// <summary>Landings known only as beyond a distance, or without a drift direction: left out of the model.</summary>
    public required int LeftOut { get; init; }

    /// <summary>Jumpers of the largest stick on record.</summary>
    public required int LargestOnRecord { get; init; }

    /// <summary>The chances, by run and size; empty without a model.</summary>
    public required IReadOnlyList<StickRow> Rows { get; init; }

    /// <summary>Sticks as they came down beside the model.</summary>
    public required IReadOnlyList<StickCalibration> Calibration { get; init; }

    /// <summary>The largest sticks for the reader's wanted probability; empty when none is asked for.</summary>
    public required IReadOnlyList<LargestStick> Largest { get; init; }

    /// <summary>The reader's settings.</summary>
    public required StickOptions Settings { get; init; }

    /// <summary>Units and confidence.</summary>
    public required AccuracyOptions Options { get; init; }

    /// <summary>Looks at the sticks.</summary>
    /// <param name="landings">Landings with their passes.</param>
    /// <param name="options">Units, confidence, resamples and seed.</param>
    /// <param name="settings">Radius, spacing, sizes and wanted probability; as <see cref="StickOptions"/> has them when left out.</param>
    public static StickMargins Of(IReadOnlyList<Landing> landings, AccuracyOptions options, StickOptions? settings = null)
    {
        settings ??= new StickOptions();
        var passes = StickPass.Of(landings);
        var missions = passes.Count == 0 ? 0 : passes.Max(p => p.Mission) + 1;
        var smear = ExitSmear.Of(passes, missions, options.Confidence);
        var left = settings.PassThrough is { } own ? Fit<Estimate>.Made(Estimate.WithoutRange(own, "set by the reader"))
            : smear.Success ? Fit<Estimate>.Made(smear.Value.Left) : Fit<Estimate>.Refused(smear.Reason);
        var gaps = passes.Select(p => p.Gap).OfType<double>().ToList();
        double? gap = settings.ExitGap ?? (gaps.Count > 0 ? gaps.Median() : null);
        var radius = settings.TargetRadius ?? (landings.Count > 0 ? landings.Select(l => l.Drop.TargetRadius).Median() : 0);
        var placed = passes.Where(p => p.Landings.Any(l => l.MissDownwind is not null)).ToList();
        var share = left.Value?.Value ?? 0;
        var fit = Fitted(passes, missions, share);
        var chances = fit.Success ? StickChances.Of(fit.Value, radius, gap ?? 0, share, settings.Largest,
            Resampled(fit.Value, missions, settings.PassThrough is null ? smear.Value : null, share, options)) : null;
        return new StickMargins
        {
            _chances = chances,
            Model = fit.Success ? Fit<StickModel>.Made(fit.Value.Model) : Fit<StickModel>.Refused(fit.Reason),
            Smear = smear, PassThrough = left, TargetRadius = radius, ExitGap = gap,
            Missions = placed.Select(p => p.Mission).Distinct().Count(), Passes = placed.Count,
            Landings = landings.Count(l => l.MissDownwind is not null), LeftOut = landings.Count(l => l.MissDownwind is null),
            LargestOnRecord = passes.Select(p => p.Landings.Count).DefaultIfEmpty(0).Max(),
            Rows = chances is null ? [] : StickReport.Rows(chances, settings.Largest, options.Confidence, missions),
            Calibration = StickReport.Calibrate(passes, fit.Value?.Model, share, gap, options.Confidence),
            Largest = chances is null || settings.Wanted is not { } wanted
                ? [] : StickReport.Largest(chances, settings.Largest, wanted, options.Confidence, missions),
            Settings = settings, Options = options,
        };
    }

    /// <summary>
    /// Probability that a whole stick is inside the target radius of this analysis, on a run at any angle to the drift. The
    /// fit's own, without interval.
    /// </summary>
    /// <param name="jumpers">Jumpers of the pass, 1 to 16.</param>
    /// <param name="headingOffset">Radians between the run and the drift, either way.</param>
    /// <returns>The probability, or the reason why there is none.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such stick, or an angle that is not finite.</exception>
    public Fit<Estimate> ProbabilityAll(int jumpers, double headingOffset)
    {
        Guard.Finite(headingOffset, hint: "radians");
        if (Model.Value is not { } model) return Fit<Estimate>.Refused(Model.Reason!);
        var smear = (ExitGap ?? 0) * (PassThrough.Value?.Value ?? 0);
        return Fit<Estimate>.Made(Estimate.WithoutRange(
            model.ProbabilityAll(jumpers, TargetRadius, new(smear * Math.Cos(headingOffset), smear * Math.Sin(headingOffset))),
            "told for the runs of the table only"));
    }

    /// <summary>The row of a run and size; null where there is none.</summary>
    /// <param name="run">How the run lies to the drift.</param>
    /// <param name="jumpers">Jumpers of the pass.</param>
    public StickRow? Row(RunDirection run, int jumpers) => Rows.FirstOrDefault(r => r.Run == run && r.Jumpers == jumpers);

    /// <summary>For tests: the chances in each resample.</summary>
    internal StickChances? Chances => _chances;

    private static Fit<StickFitting> Fitted(IReadOnlyList<StickPass> passes, int missions, double left)
    {
        var telling = passes.Where(p => p.Landings.Count(l => l.MissDownwind is not null) > 1).Select(p => p.Mission).Distinct().Count();
        return telling < FewestMissions
            ? Fit<StickFitting>.Refused($"{Rounding.Count(telling, "mission")} with a stick of two or more landings whose place is known; "
                + $"what a stick shares can be told from {FewestMissions}, and of use it is from about a hundred")
            : StickFitting.Of(new StickLikelihood(passes, left), missions);
    }

    private static List<(double[], double)> Resampled(StickFitting fit, int missions, ExitSmear? smear,
        double left, AccuracyOptions options)
    {
        var (draws, all) = (new int[missions], new List<(double[], double)>(options.Replicates));
        ClusterResamples.Random(draws, options.Replicates, SeedStream.For(options.Seed, "stick size"),
            _ => all.Add((fit.Drawn(draws), smear?.Drawn(draws) ?? left)));
        return all;
    }

    /// <inheritdoc/>
    public override string Reading => StickReport.Reading(this);

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => StickReport.Points(this);

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => StickTables.Of(this);
}
