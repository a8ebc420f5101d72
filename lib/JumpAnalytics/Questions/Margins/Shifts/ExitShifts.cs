namespace JumpAnalytics;

/// <summary>
/// How far the exit could have been moved to centre the landings, by wind band and terrain, and what that would have done to the landing
/// rate: past landings, not a rule for the next.
/// </summary>
/// <remarks>
/// <para>Moving the exit moves every landing alike, if jumpers steer as they did. Each shift is minus the mean miss, drawn towards none as
/// far as the evidence is thin: the spread of mean misses over cells is the measure of what to expect. Errors of the mean are those between
/// missions; cells of fewer than ten missions take them from the two-level model of all.</para>
/// <para>Supported: the mean miss by Hotelling's test (1931, Annals of Mathematical Statistics 2:360-378) on missions − 1 degrees of
/// freedom, all rows together by the step-up rule of Benjamini and Hochberg (1995, Journal of the Royal Statistical
/// Society B 57:289-300) at 1 − confidence, so that of the supported shifts no larger share is expected to be false, and of seasons without
/// any bias no larger share shows one. Simulated: tests/EVIDENCE.md.</para>
/// <para>The rate after is given for all landings alone. In a cell it rests on the few landings that change sides, and the cells worth a
/// look are picked by the same landings: in simulated seasons no interval held the true change as often as it claimed. It is not that of
/// the landings the shift was learnt from: each mission is moved by what the others give (the spread over cells is learnt once). Landings
/// known only as beyond a distance stay as they are; those recorded on the target radius itself are left out of both rates, because they
/// are hits by rounding and any move would make misses of most.</para>
/// </remarks>
public sealed class ExitShifts : ShownResult
{
    private ExitShifts(IReadOnlyList<ExitShift> rows, string? whyNot, AccuracyOptions options) =>
        (Rows, WhyNot, Options) = (rows, whyNot, options);

    /// <summary>Cells, then bands, terrains and all; empty when there is none.</summary>
    public IReadOnlyList<ExitShift> Rows { get; }

    /// <summary>Why there is no shift at all; null when there is one.</summary>
    public string? WhyNot { get; }

    /// <summary>Bands, units and confidence.</summary>
    public AccuracyOptions Options { get; }

    private const string ForAllAlone = "given for all landings alone: in a group it rests on the few landings that change sides";

    /// <summary>Fewest missions for shifts.</summary>
    public const int FewestMissions = 10;

    /// <summary>A cell or margin; null when it has no landing.</summary>
    /// <param name="windBand">Label of a band, or <c>all</c>.</param>
    /// <param name="terrain">A terrain class, or <c>all</c>.</param>
    public ExitShift? Cell(string windBand, string terrain) => Cell(new Cell(windBand, terrain));

    /// <summary>A cell or margin; null when it has no landing.</summary>
    /// <param name="cell">The cell or margin.</param>
    public ExitShift? Cell(Cell cell) => Rows.FirstOrDefault(r => r.Cell == cell);

    /// <summary>Computes the shifts.</summary>
    /// <param name="landings">Landings of one or more seasons.</param>
    /// <param name="options">Bands, units and confidence.</param>
    public static ExitShifts Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var placed = landings.Where(l => l.MissDownwind is not null).ToList();
        var missions = placed.Select(l => l.Drop.Mission).Distinct().Count();
        if (missions < FewestMissions) return new ExitShifts([],
            $"{Rounding.Count(missions, "mission")} with a known miss; shifts are given from {FewestMissions} on", options);
        var levels = TwoLevelModel.FitTo(MissionSample.Of(placed).Misses());
        if (!levels.Success) return new ExitShifts([], levels.Reason, options);

        var (between, within) = (levels.Value.Between.Value, levels.Value.Within.Value);
        var grid = new Cells(options.Bands, placed);
        var byCell = grid.Group(landings);
        var misses = grid.ToDictionary(c => c, c => new CellMisses(byCell[c].Where(l => l.MissDownwind is not null), between, within));
        var prior = ShrunkenShift.Of([.. grid.Inner.Select(c => misses[c]).Where(m => m.Missions > 0)
            .Select(m => (m.Mean()!.Value.Mean, m.Mean()!.Value.Errors, (double)m.Missions))]);
        var rows = grid.Where(c => misses[c].Missions > 0).Select(c => Of(c, byCell[c], misses[c], prior, options)).ToList();
        var supported = Supported([.. rows.Select(r => r.PValue)], 1 - options.Confidence);
        return new ExitShifts([.. rows.Select((r, i) => r with { IsSupported = supported[i] })], null, options);
    }

    /// <summary>Hotelling's (1931) test of a mean of two axes, in closed form; 1 with two missions or fewer.</summary>
    private static double ChanceWithoutBias(PlaneVector mean, PlaneCovariance errors, int missions) =>
        missions > 2 && errors.SquaredLength(mean.Along, mean.Across) is { } squared
            ? Math.Pow(1 + squared / (missions - 1), -(missions - 2) / 2.0) : 1;

    /// <summary>Which of several tests to follow, so that no larger share of them than the level is expected to be false.</summary>
    private static bool[] Supported(double[] pValues, double level)
    {
        var sorted = pValues.Order().ToArray();
        var last = Array.FindLastIndex(sorted, p => p <= level * (Array.LastIndexOf(sorted, p) + 1) / sorted.Length);
        return [.. pValues.Select(p => last >= 0 && p <= sorted[last])];
    }

    private static ExitShift Of(Cell cell, IEnumerable<Landing> landings, CellMisses misses, ShrunkenShift prior, AccuracyOptions options)
    {
        var own = misses.Mean()!.Value;
        var (drawn, errors) = prior.Drawn(own.Mean, own.Errors);
        var freedom = Math.Max(2, Math.Min(prior.Cells, misses.Missions - 1));
        var critical = QuantileOf.T(freedom, TailShare.Middle(options.Confidence));
        var shift = new ExitShift
        {
            Cell = cell, Missions = misses.Missions, Landings = misses.Landings, Mean = own.Mean,
            Downwind = Axis(-drawn.Along, errors.VarianceAlong), Right = Axis(-drawn.Across, errors.VarianceAcross),
            Kept = own.Mean.Length > 0 ? Math.Min(1, drawn.Length / own.Mean.Length) : 0,
            PValue = ChanceWithoutBias(own.Mean, own.Errors, misses.Missions), IsSupported = false,
            Before = Fit<ClusteredProportion>.Refused(ForAllAlone), After = Fit<ClusteredProportion>.Refused(ForAllAlone),
            Change = Fit<Estimate>.Refused(ForAllAlone),
        };
        if (!cell.IsWhole) return shift;
        var missions = landings.GroupBy(l => l.Drop.Mission).ToList();
        var before = missions.Select(m => Tally(m, default)).ToList();
        var after =
            missions.Select(m => Tally(m, misses.Mean(m.Key) is { } rest ? prior.Drawn(rest.Mean, rest.Errors).Mean : default)).ToList();
        return shift with
        {
            Before = Rate(before), After = Rate(after),
            Change = before.Sum(m => m.Landings) > 0 ? Fit<Estimate>.Made(PairedRates.Change(before, after, options.Confidence))
                : Fit<Estimate>.Refused("no landing is known as a hit or a miss"),
        };

        Estimate Axis(double shift, double variance) => Estimate.Of(shift,
            new Interval(shift - critical * Math.Sqrt(Math.Max(0, variance)), shift + critical * Math.Sqrt(Math.Max(0, variance))));

        Fit<ClusteredProportion> Rate(List<(double Hits, double Landings)> tallies)
        {
            var told = tallies.Where(t => t.Landings > 0).ToList();
            return told.Count == 0 ? Fit<ClusteredProportion>.Refused("no landing is known as a hit or a miss")
                : Fit<ClusteredProportion>.Made(ClusteredProportion.Of([.. told.Select(t => (int)t.Hits)],
                    [.. told.Select(t => (int)t.Landings)], options.Confidence));
        }
    }

    /// <summary>Hits and landings of a mission whose landings all lie the mean miss nearer.</summary>
    internal static (double Hits, double Landings) Tally(IEnumerable<Landing> mission, PlaneVector mean)
    {
        var (hits, told) = (0, 0);
        foreach (var landing in mission.Where(l => !l.IsOnTheRadius))
        {
            var radius = landing.Drop.TargetRadius;
            var isHit = landing.MissDownwind is { } miss && mean != default
                ? Landing.IsWithin(double.Hypot(miss.Along - mean.Along, miss.Across - mean.Across), radius) : landing.IsInside(radius);
            if (isHit is null) continue;
            told++;
            if (isHit == true) hits++;
        }
        return (hits, told);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (WhyNot is not null) return $"No exit shift can be given: {WhyNot}.";
            var groups = Rows.Where(r => !r.Cell.IsWhole).ToList();
            var supported = groups.Where(r => r.IsSupported).ToList();
            var (all, level) = (Rows[^1], Rounding.Percent(1 - Options.Confidence));
            return $"Over all landings ({Rounding.Count(all.Missions, "mission")}, {Rounding.Count(all.Landings, "landing")}) the exit "
                + $"shift that centres them is {Words(all)}"
                + (all.IsSupported ? "" : ", not clearly different from none") + "; with it the landing rate "
                + $"would have changed by {Gain(all.Change)}. "
                + (supported.Count == 0 ? $"In none of {Rounding.Count(groups.Count, "cell")}, bands and terrains is a shift supported. "
                    : $"A shift is supported in {supported.Count} of {Rounding.Count(groups.Count, "cell")}, bands and terrains: "
                        + string.Join("; ", supported.Select(r => $"{r.Cell.Words(Options.Bands)}: {Words(r)} "
                            + $"({Rounding.Count(r.Missions, "mission")}, {Rounding.Count(r.Landings, "landing")})"))
                        + $". About {Rounding.Fixed((1 - Options.Confidence) * supported.Count, 1)} of these are expected to be false. ")
                + $"All are tested together: of seasons without any bias at most {level} would show a supported shift. "
                + "What a shift would do to the rate of one group is not given: it rests on the few landings that change sides.";
        }
    }

    private static string Gain(Fit<Estimate> change) => change.Value is not { } points ? "an unknown number of points"
        : points.Range is not { } range ? $"{Rounding.Points(points)} points (no interval: {points.WhyNoRange})"
        : $"{Rounding.Points(points)} points{(range.Contains(0) ? ", not clearly different from none" : "")}";

    private string Words(ExitShift r)
    {
        var unit = Options.Units.Distance;
        return $"{Rounding.Number(r.Downwind.Select(unit.FromSi), signed: true)} {unit.Suffix} along the drift (+ downwind) and "
            + $"{Rounding.Number(r.Right.Select(unit.FromSi), signed: true)} {unit.Suffix} to the right";
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables
    {
        get
        {
            var unit = Options.Units.Distance;
            return
            [
                new TableOf<ExitShift>("exit-shifts", "Exit shift that centres the landings, by wind band and terrain", Rows,
                    "Shift: minus the mean miss, drawn towards none; + downwind or right moves the exit that way. "
                    + "Kept: what is left of the mean miss. "
                    + "Supported: both axes tested at once and all rows together, so that about "
                    + $"{Rounding.Percent(1 - Options.Confidence)} of supported shifts are expected to be false. "
                    + "Rate after: each mission moved by what the other missions give, jumpers steering as they did; for all landings "
                    + "alone, because in a group it rests on the few landings that change sides. "
                    + "Landings recorded on the target radius itself are left out. Intervals between missions.")
                {
                    { Columns.WindBandIn(Options.Bands.Unit), r => r.WindBand },
                    { Columns.Terrain, r => r.Terrain },
                    { Columns.MissionsPlaced, r => r.Missions },
                    { Columns.Placed, r => r.Landings },
                    {
                        Columns.Measure("mean_downwind", "mean miss downwind", unit, "Mean miss along the forecast drift, + long."),
                        r => unit.FromSi(r.Mean.Along)
                    },
                    {
                        Columns.Measure("mean_right", "mean miss right", unit, "Mean miss across the forecast drift, + right of it."),
                        r => unit.FromSi(r.Mean.Across)
                    },
                    { Columns.ShiftDownwind(unit), r => r.Downwind.Select(unit.FromSi) },
                    { Columns.ShiftRight(unit), r => r.Right.Select(unit.FromSi) },
                    { Columns.ShiftKept, r => r.Kept },
                    { Columns.ShiftSupported, r => r.IsSupported ? "yes" : "no" },
                    { Columns.RateAsFlown, r => r.Before.Value?.Rate },
                    { Columns.RateShifted, r => r.After.Value?.Rate },
                    { Columns.RateChangeShifted, r => r.Change.Value },
                },
            ];
        }
    }
}
