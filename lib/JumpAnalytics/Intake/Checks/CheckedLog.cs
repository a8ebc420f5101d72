namespace JumpAnalytics;

/// <summary>Drops that one person, place or time put into the log: the rows a slip is likely to run through.</summary>
internal sealed record DropGroup(RecordGroup Group, IReadOnlyList<Drop> Drops, HashSet<Drop> Set)
{
    public bool Holds(Drop drop) => Set.Contains(drop);

    public static DropGroup Of(RecordGroup group, IEnumerable<Drop> drops)
    {
        var all = drops.ToList();
        return new DropGroup(group, all, new HashSet<Drop>(all, ReferenceEqualityComparer.Instance));
    }
}

/// <summary>A log as the checks look at it: the drops by group, and what belongs to each drop.</summary>
internal sealed class CheckedLog
{
    private readonly Dictionary<Drop, List<Landing>> _landings = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<(string File, string Quantity), MeasureUnit?> _units;
    private readonly Dictionary<Drop, string?> _canopies = new(ReferenceEqualityComparer.Instance);
    private readonly Lazy<(DriftRatios Ratios, IReadOnlyList<Shift> Shifts)> _drifts;
    private readonly int _checks;

    public CheckedLog(JumpLog log, RecordCheckOptions options, int checks)
    {
        (Log, Options, _checks) = (log, options, checks);
        foreach (var landing in log.Whole.Landings) // a part may hold half a stick, which is no gap in the record
        {
            if (!_landings.TryGetValue(landing.Drop, out var stick)) _landings[landing.Drop] = stick = [];
            stick.Add(landing);
        }
        foreach (var (drop, stick) in _landings)
            _canopies[drop] = stick.Select(l => l.Canopy).OfType<string>().CountBy(c => c).OrderByDescending(c => c.Value)
                .Select(c => c.Key).FirstOrDefault();
        _units = log.Intake.Files.SelectMany(f => f.Columns.Select(c => (f.File, c)))
            .DistinctBy(c => (c.File, c.c.Quantity)).ToDictionary(c => (c.File, c.c.Quantity), c => c.c.Unit);
        Groups = FindGroups(log.Drops);
        _drifts = new(() => UnitSlipCheck.Shifts(this));
    }

    public JumpLog Log { get; }

    public RecordCheckOptions Options { get; }

    /// <summary>The whole log first, then narrower and narrower groups; none holds the very rows of one before it.</summary>
    public IReadOnlyList<DropGroup> Groups { get; }

    public MeasureUnit Unit => Options.Units.Distance;

    /// <summary>The whole stick of a drop, also where the log is a part that holds some of it.</summary>
    public IReadOnlyList<Landing> LandingsOf(Drop drop) => _landings.TryGetValue(drop, out var stick) ? stick : [];

    /// <summary>The canopy of most jumpers of the stick; null when none is recorded.</summary>
    public string? CanopyOf(Drop drop) => _canopies.GetValueOrDefault(drop);

    /// <summary>Drift against wind of every drop, and the groups that are off, which more than one check asks for.</summary>
    public (DriftRatios Ratios, IReadOnlyList<Shift> Shifts) Drifts => _drifts.Value;

    /// <summary>The unit a file's header states for a quantity; null when it has none.</summary>
    public MeasureUnit? UnitOf(string file, LogColumn quantity) => _units.GetValueOrDefault((file, quantity.Name));

    /// <summary>Whether a file has a column for a quantity.</summary>
    public bool Has(string file, LogColumn quantity) => _units.ContainsKey((file, quantity.Name));

    /// <summary>A probability multiplied by the looks of its check and by the checks (Bonferroni), at most 1.</summary>
    public double Allowing(double p, int looks) => Math.Min(1, p * Math.Max(1, looks) * _checks);

    public bool IsStrong(double allowed) => allowed < Options.FalseAlarms;

    /// <summary>A length in the report's unit: <c>45 yd</c>.</summary>
    public string Length(double metres) =>
        $"{Rounding.Fixed(Unit.FromSi(metres), Unit.FromSi(Math.Abs(metres)) < 10 ? 1 : 0)} {Unit.Suffix}";

    private static List<DropGroup> FindGroups(IReadOnlyList<Drop> drops)
    {
        var ways = new (string Kind, Func<Drop, string?> Name)[]
        {
            ("base", d => d.Base), ("season", d => d.Season), ("file", d => d.Source.File), (RecordGroup.OfSpotter, d => d.Spotter),
            ("base and season", d => d.Base is { } b ? $"{b}, {d.Season}" : null),
            (RecordGroup.OfSpotter + " and season", d => d.Spotter is { } s ? $"{s}, {d.Season}" : null),
        };
        var groups = new List<DropGroup> { DropGroup.Of(RecordGroup.Whole, drops) };
        foreach (var (kind, name) in ways)
        {
            foreach (var group in drops.GroupBy(name).Where(g => g.Key is not null).OrderBy(g => g.Key, StringComparer.Ordinal))
            {
                var found = DropGroup.Of(new RecordGroup(kind, group.Key), group);
                if (!groups.Exists(g => g.Set.Count == found.Set.Count && g.Holds(found.Drops[0]) && g.Set.SetEquals(found.Set)))
                    groups.Add(found);
            }
        }
        return groups;
    }
}
