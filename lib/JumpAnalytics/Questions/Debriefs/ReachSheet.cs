namespace JumpAnalytics;

/// <summary>
/// What each canopy could still have reached: how far off the spot it would have come down unsteered, how far it could have flown, and down
/// to what height the spot stayed within reach.
/// </summary>
/// <remarks>
/// By the jumper's own track where it tells wind and forward speed. By height: the still-air circle (forward speed × time left) about the
/// place to which the wind alone would take the canopy, with the wind found, or the forecast's one wind where no track tells it.
/// </remarks>
public sealed class ReachSheet : ShownResult
{
    /// <summary>Steps of height, in the unit that heights are shown in.</summary>
    private const double MetreStep = 100, FootStep = 300;

    private readonly IReadOnlyList<DebriefedPass> _passes;
    private readonly WindsFound _winds;
    private readonly AccuracyOptions _options;

    private ReachSheet(IReadOnlyList<DebriefedPass> passes, WindsFound winds, AccuracyOptions options) =>
        (_passes, _winds, _options, Rows) = (passes, winds, options,
            [.. passes.SelectMany(p => p.Jumpers.Where(j => j.Flight.Success && j.Landing.Miss is not null).Select(j => Of(p, j)))]);

    /// <summary>One jumper whose track tells it.</summary>
    /// <param name="Pass">The pass.</param>
    /// <param name="Jumper">The jumper.</param>
    /// <param name="Unsteered">Metres from the spot at which the canopy would have come down unsteered.</param>
    /// <param name="Sd">Standard deviation of that along its own direction.</param>
    /// <param name="Flyable">Metres that it could have flown through the air under canopy.</param>
    /// <param name="LastWithinReach">
    /// Metres above ground down to which the spot stayed within reach; null when it never was, 0 when it was to the ground.
    /// </param>
    [TypeFormatterSource]
    public sealed record ReachRow(DebriefedPass Pass, DebriefedJumper Jumper, double Unsteered, double Sd,
        double Flyable, double? LastWithinReach)
    {
        /// <summary>Whether it would have come down outside the target radius unsteered.</summary>
        public bool IsOutside => !Landing.IsWithin(Unsteered, Pass.Drop.TargetRadius);

        /// <summary>Whether a canopy so fast could have flown off all of it down to the target radius.</summary>
        public bool IsRecoverable => Landing.IsWithin(Unsteered, Flyable + Pass.Drop.TargetRadius);
    }

    /// <summary>The jumpers whose track tells it.</summary>
    public IReadOnlyList<ReachRow> Rows { get; }

    internal static ReachSheet Of(IReadOnlyList<DebriefedPass> passes, WindsFound winds, AccuracyOptions options) =>
        new(passes, winds, options);

    private static ReachRow Of(DebriefedPass pass, DebriefedJumper jumper)
    {
        var flight = jumper.Flight.Value!;
        var (unsteered, path, speed) = (jumper.Landing.Miss!.Value - flight.Steering, flight.UnsteeredPath, flight.ForwardSpeed.Value);
        // at each moment: the spot's offset from where the wind alone would take the canopy, against what it can still fly
        var track = jumper.Track.Value!.UnderCanopy;
        double? last = null;
        foreach (var point in track)
        {
            var at = path.MinBy(p => Math.Abs(p.Seconds - point.Seconds));
            var below = path[^1].Place - at.Place;
            var withinReach = pass.Drop.TargetRadius + speed * (path[^1].Seconds - at.Seconds);
            if (!Landing.IsWithin((point.Place + below).Length, withinReach)) break;
            last = Math.Max(0, point.Height);
        }
        if (last is not null && jumper.Landing.Outcome == LandingOutcome.Hit) last = 0;
        return new ReachRow(pass, jumper, unsteered.Length,
            unsteered.Direction is { } direction ? flight.SteeringError.SdAlong(direction) : flight.SteeringError.AxisSds.Longest,
            speed * flight.Seconds, last);
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (Rows.Count == 0) return "No track of this mission tells how far a canopy would have come down unsteered; "
                + "what it could have reached is told by published figures alone, below.";
            var outside = Rows.Where(r => r.IsOutside).ToList();
            return $"Of {Rounding.Count(Rows.Count, "jumper")} whose track tells it, "
                + $"{Rounding.Count(outside.Count)} would have come down outside the target radius unsteered; "
                + $"{Rounding.Count(outside.Count(r => r.IsRecoverable))} of these could be flown inside with the forward speed found, "
                + $"and {Rounding.Count(outside.Count(r => r.Jumper.Landing.Outcome == LandingOutcome.Hit))} were.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [.. Rows.Count == 0 ? [] : new[] { Flown }, ByHeight];

    private TableView Flown
    {
        get
        {
            var unit = _options.Units.Distance;
            return new TableOf<ReachRow>("reach", "What could be flown off", Rows,
                $"Intervals at {Rounding.Percent(_options.Confidence)}, by the error of the steering along the miss. Within reach: "
                    + "as far as forward speed × time left goes beyond what the wind alone would do; "
                    + "nothing is kept for a pattern or a last turn.")
            {
                { Columns.PassNumber, r => DebriefWords.Who(r.Pass, r.Jumper) },
                {
                    Columns.DistanceRange(
                        "unsteered_miss", "unsteered miss", unit,
                        "Distance from the spot at which the canopy would have come down unsteered."),
                    r => NotBelowZero(BudgetSheet.Around(unit, r.Unsteered, r.Sd, _options))
                },
                {
                    Columns.Measure(
                        "flyable", "could fly", unit, "Way through the air with the forward speed found, from the opening to the ground."),
                    r => unit.FromSi(r.Flyable)
                },
                { Columns.Recoverable, r => r.IsRecoverable ? "yes" : "no" },
                {
                    Columns.Measure(
                        "within_reach_to", "spot within reach down to", _options.Units.Height,
                        "Height above ground down to which the spot stayed within reach; 0 to the ground, empty when it never was."),
                    r => r.LastWithinReach is { } height ? _options.Units.Height.FromSi(height) : null
                },
                { Columns.Outcome, r => r.Jumper.Landing.Outcome.ToString().ToLowerInvariant() },
            };
        }
    }

    private static Estimate NotBelowZero(Estimate e) => e.Range is { } r ? Estimate.Of(e.Value, r with { Low = Math.Max(0, r.Low) }) : e;

    /// <summary>What a canopy can reach from a height, and by which wind and figures.</summary>
    private sealed record HeightRow(DebriefedPass Pass, double Height, DriftPath Path, double Reach, string Basis)
    {
        public PlaneVector? Drift => Pass.Drop.Frame?.ToDownwind(Path.Drift);
    }

    private IEnumerable<HeightRow> Heights(DebriefedPass pass)
    {
        var found = _winds.Passes.FirstOrDefault(p => p.Pass == pass);
        var flights = pass.Jumpers.Select(j => j.Flight.Value).OfType<FlownDescent>().ToList();
        var canopy = flights.Count > 0
            ? new CanopyFlight(
                "as found", flights.Average(f => f.ForwardSpeed.Value), flights.Average(f => f.DescentRate.Value), "descent tracks")
            : _options.Canopies.FirstOrDefault(c => pass.Jumpers.Any(j => CanopyFlight.Of(j.Landing.Canopy, [c]) is not null));
        var wind = found is { Levels.Count: > 0 } ? WindProfile.Through([.. found.Levels.Select(l => l.Level)])
            : pass.Drop.WindFrom is { } from ? WindProfile.Uniform(WindVector.FromDirection(pass.Drop.WindSpeed, from)) : null;
        if (pass.Drop.ExitHeight is not { } exit || canopy is null || wind is null) yield break;
        var basis = (found is null ? "forecast's wind" : "wind found")
            + (flights.Count == 0 ? ", published figures of the canopy" : ", canopy as found");
        var step = _options.Units.Height.ToSi(_options.Units.Height.Suffix == "m" ? MetreStep : FootStep);
        for (var height = step; height <= exit; height += step)
        {
            // the rate is a mean over the descent, so its change with height is left out here
            yield return new HeightRow(pass, height, DriftModel.Drift(wind, canopy.Descent, height), canopy.Reach(height), basis);
        }
    }

    private TableView ByHeight
    {
        get
        {
            var distance = _options.Units.Distance;
            return new TableOf<HeightRow>("reach-by-height", "Reach by height", _passes.SelectMany(Heights),
                "A canopy can come down within the circle about the place where the wind alone would take it. Published figures: "
                    + string.Join("; ", _options.Canopies.Select(c => $"{c.Canopy}: {c.Source}"))
                    + ". An aid to looking back, not to choosing an exit.")
            {
                { Columns.PassNumber, r => r.Pass.Name },
                {
                    Columns.Measure("height", "height above ground", _options.Units.Height, "Height above the landing ground."),
                    r => _options.Units.Height.FromSi(r.Height)
                },
                { Columns.SecondsLeft, r => r.Path.Seconds },
                {
                    Columns.Measure(
                        "drift_downwind", "drift downwind", distance,
                        "What the wind alone does from there to the ground, along the forecast drift."),
                    r => distance.FromSi(r.Drift?.Along ?? r.Path.Drift.Length)
                },
                {
                    Columns.Measure("drift_right", "drift right", distance, "The same across it, + right."),
                    r => r.Drift is { } drift ? distance.FromSi(drift.Across) : null
                },
                {
                    Columns.Measure(
                        "still_air_reach", "reach in still air", distance,
                        "Forward speed × time left: radius of the circle about the drifted place."),
                    r => distance.FromSi(r.Reach)
                },
                { Columns.ReachBasis, r => r.Basis },
            };
        }
    }
}
