namespace JumpAnalytics;

/// <summary>
/// The sources that a log can see, and a note for each that it cannot. A quantity that was not recorded for most landings, or that hardly
/// varies, has no source of its own. Nor have mission and pass where next to no mission has a second pass, or pass and jumper where next
/// to no pass has a second jumper: they are one source then, and its name says so.
/// </summary>
internal sealed class SourceShapes
{
    /// <summary>Missions of several passes, or passes of several jumpers, from which the two can be separated.</summary>
    private const int FewestOfSeveral = 10;

    /// <summary>Missions with a run heading from which the placing along the run can be seen.</summary>
    private const int FewestRuns = 20;

    /// <summary>A quantity varies when its largest value is so many times the smallest, as the ages of a law of growth must.</summary>
    private const double Varies = 1.5;

    private readonly IReadOnlyList<Landing> _landings;
    private readonly List<SourceShape> _shapes = [];
    private readonly List<string> _notes = [];

    /// <summary>Looks at what was recorded.</summary>
    /// <param name="landings">Landings with a place.</param>
    public SourceShapes(IReadOnlyList<Landing> landings)
    {
        _landings = landings;
        var passes = landings.GroupBy(l => l.Drop.Id).Select(g => (g.First().Drop.Mission, Jumpers: g.Count())).ToList();
        var severalPasses = passes.CountBy(p => p.Mission).Count(m => m.Value > 1) >= FewestOfSeveral;
        var severalJumpers = passes.Count(p => p.Jumpers > 1) >= FewestOfSeveral;
        if (severalPasses) Add("forecast error of the whole mission", SourceLevel.Mission, "mission");
        else if (severalJumpers)
            AddOne("mission and pass", "missions with a second pass", "forecast error of mission and pass", SourceLevel.Mission);
        if ((severalPasses || severalJumpers) && Scale("drift", l => l.Drop.ForecastDrift.Length) is { } drift)
            Add("forecast error that grows with the drift", SourceLevel.Mission, "mission", "length of the drift", drift);
        if (severalPasses && severalJumpers)
        {
            var age = Scale("age of the streamers", l => l.Drop.StreamerAge, Math.Cbrt);
            Add("forecast error of one pass", SourceLevel.Pass, "pass", age is null ? "nothing" : "cube root of the age", age);
        }
        AddRuns();
        var own = landings.Any(l => l.MeasuredSd is null) ? "jumper's own part with unrecorded measuring error" : "jumper's own part";
        if (severalJumpers) Add(own, SourceLevel.Jumper, "jumper");
        else
        {
            var levels = severalPasses ? "pass and jumper" : "mission, pass and jumper";
            AddOne(levels, "passes with a second jumper",
                $"forecast error of {(severalPasses ? "one pass" : "mission and pass")} and {own}", SourceLevel.Jumper);
        }
        if (Scale("drift wind", l => l.Drop.WindSpeed) is { } wind)
        {
            Add(severalJumpers ? "jumper's own part that grows with the wind" : "part of a landing that grows with the wind",
                SourceLevel.Jumper, severalJumpers ? "jumper" : "not known", "drift wind", wind);
        }
    }

    /// <summary>The sources, with scales that are 1 in the mean of the landings.</summary>
    public IReadOnlyList<SourceShape> Shapes => _shapes;

    /// <summary>What could not be seen, and why.</summary>
    public IReadOnlyList<string> Notes => _notes;

    private void Add(string name, SourceLevel level, string sharedBy, string growsWith = "nothing", Func<Landing, double>? scale = null,
        bool alongRun = false) => _shapes.Add(new(name, level, sharedBy, growsWith, scale ?? (_ => 1), alongRun));

    /// <summary>One source in place of several levels.</summary>
    private void AddOne(string levels, string missing, string name, SourceLevel level)
    {
        Add(name, level, levels);
        _notes.Add($"There are fewer than {FewestOfSeveral} {missing}: the parts of {levels} cannot be separated and are shown as one.");
    }

    private void AddRuns()
    {
        var runs = _landings.Where(l => l.Drop is { RunHeading: not null, ForecastDrift.Direction: not null })
            .Select(l => l.Drop.Mission).Distinct().Count();
        if (runs < FewestRuns)
        {
            _notes.Add($"The placing of the exit along the run is not shown: {Rounding.Count(runs, "mission")} "
                + $"with a run heading, {FewestRuns} are needed. What it adds is in the other parts.");
            return;
        }
        var speed = Scale("ground speed", l => l.Drop.GroundSpeed);
        Add("placing of the exit along the run", SourceLevel.Pass, "pass", speed is null ? "nothing" : "ground speed", speed,
            alongRun: true);
    }

    /// <summary>A quantity over its mean; null with a note where most landings lack it or it hardly varies.</summary>
    private Func<Landing, double>? Scale(string quantity, Func<Landing, double?> of, Func<double, double>? shape = null)
    {
        double? Known(Landing landing) => of(landing) is { } v && double.IsFinite(v) && v >= 0 ? v : null;
        double[] known = [.. _landings.Select(Known).OfType<double>()];
        var missing = _landings.Count - known.Length;
        var why = 2 * missing > _landings.Count
            ? $"was not recorded for {Rounding.Count(missing)} of {Rounding.Count(_landings.Count, "landing")}"
            : known.Max() > 0 && known.Max() >= Varies * known.Min() ? null : "hardly varies";
        if (why is not null)
        {
            _notes.Add($"The {quantity} {why}: no error is said to grow with it.");
            return null;
        }
        if (missing > 0) _notes.Add($"{Rounding.Count(missing, "landing")} without a recorded {quantity} count as of the mean one.");
        var mean = known.Average();
        return l => Known(l) is { } v ? shape is null ? v / mean : shape(v / mean) : 1;
    }
}
