using System.Collections;
using System.Reflection;
using System.Text.RegularExpressions;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>
/// Everything public that can be had of a log for sharing, found by reflection: no single drop or landing, no code of a mission or a
/// person, and no cell of few people. A front door that forgets is found here without being named.
/// </summary>
public sealed class SharedLogTests
{
    private static readonly AccuracyOptions _options = new() { Replicates = 200 };
    private static readonly Lazy<SharedWalk> _walk = new(() => SharedWalk.Of(DemoLog.Log, _options));

    [Fact]
    public void Nothing_that_a_shared_log_gives_tells_of_a_person_a_mission_or_a_small_cell() =>
        Assert.True(_walk.Value.Found.Count == 0, string.Join('\n', _walk.Value.Found.Distinct().Take(40)));

    [Fact]
    public void The_walk_passes_every_front_door()
    {
        string[] doors =
        [
            "SeasonAccuracy.Of", "SpotterReview.Of", "SpottingMargins.Of", "MissionDebrief.Of", "ForecastReview.Of",
            "RecordChecks.Of", "LogDescents.Of",
            "LogTracks.Of", "Cautions.For", "RateDifference.Of", "QuarantineLedger.WriteQuarantine", "LogPrivacy.WithoutSensitiveFields",
            "JumpLog.Write", "JumpLog.OriginOf", "JumpLog.get_Landings", "JumpLog.get_Drops", "JumpLog.Where",
            "JumpLog.ForBase", "IntakeReport.get_Quarantine",
            "IntakeReport.get_QuarantineTable", "SeasonAccuracy.get_Misses", "SeasonAccuracy.get_LandingsTable", "RateTable.get_Cells",
        ];
        Assert.All(doors, d => Assert.Contains(d, _walk.Value.Passed));
    }

    [Fact]
    public void What_is_refused_says_why() =>
        Assert.All(_walk.Value.Refused, r => Assert.True(r.Why.StartsWith("This log", StringComparison.Ordinal), $"{r.Door}: {r.Why}"));

    /// <summary>The same walk of the log as it was read finds all that it looks for.</summary>
    [Fact]
    public void The_walk_finds_what_a_log_that_is_not_shared_gives_away()
    {
        var rates = new SharedWalk(DemoLog.Log, _options);
        rates.Look("rates", RateTable.Of(DemoLog.Log.Landings, _options));
        Assert.Contains(rates.Found, f => f.Contains("people", StringComparison.Ordinal));
        var landing = new SharedWalk(DemoLog.Log, _options);
        landing.Look("landings", DemoLog.Log.Landings.Take(1).ToList());
        Assert.Contains(landing.Found, f => f.Contains("a landing", StringComparison.Ordinal));
        var mission = new SharedWalk(DemoLog.Log, _options);
        mission.Look("brief", new Brief($"Mission {DemoLog.Log.Drops[0].Mission}.", []));
        Assert.Contains(mission.Found, f => f.Contains(DemoLog.Log.Drops[0].Mission, StringComparison.Ordinal));
    }

    [Fact]
    public void A_shared_season_still_says_what_may_be_said()
    {
        var accuracy = SeasonAccuracy.Of(DemoLog.Log.ForSharing(), _options);
        var whole = SeasonAccuracy.Of(DemoLog.Log, _options);
        Assert.Equal(whole.Rates.Overall.Counted.Value, accuracy.Rates.Overall.Counted.Value);
        Assert.Null(accuracy.Brief.Withheld);
        Assert.Contains(accuracy.Brief.Points, p => p.StartsWith("A report to hand on", StringComparison.Ordinal));
        Assert.Equal(whole.Settings.ToCsv(), accuracy.Settings.ToCsv());
        ShownResult[] withheld =
        [
            accuracy.Glance, accuracy.Changes, accuracy.Trend, accuracy.ThreeRates, accuracy.Claim, accuracy.Misses,
            accuracy.Backtest, accuracy.Coverage,
            accuracy.Conclusions, accuracy.LandingsTable, accuracy.By("month", l => l.Drop.Time.Month), accuracy.Log.Intake.QuarantineTable,
        ];
        Assert.All(withheld, r => Assert.Equal((LogSharing.Withheld + "\n", "{\"tables\":[]}"), (r.ToString(), r.TablesAsJson())));
    }

    [Fact]
    public void A_shared_log_can_be_cut_by_classes_and_by_nothing_finer()
    {
        var shared = DemoLog.Log.ForSharing();
        var part = shared.ForBase("Quillmark").Where("terrain=meadow");
        Assert.Equal(DemoLog.Log.Where("base=Quillmark, terrain=meadow").Landings.Count, part.LandingsToCount.Count);
        Assert.NotNull(part.Sharing);
        Assert.All(["jumper=person 1", "drop_id=x", "mission=x", "wind_speed_mph>3", "hung_up=yes"],
            f => Assert.StartsWith("A log for sharing can't be cut by",
                Assert.Throws<InvalidOperationException>(() => shared.Where(f)).Message, StringComparison.Ordinal));
        Assert.Throws<InvalidOperationException>(() => shared.Where(l => true));
        Assert.Throws<InvalidOperationException>(() => shared.WhereDrops(d => true));
    }

    [Fact]
    public void Of_few_people_not_even_the_number_is_told()
    {
        using var files = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines(TempLog.LandingsHeader + ",jumper", "d1,12,45,a", "d1,13,45,b"));
        var accuracy = SeasonAccuracy.Of(files.Read().ForSharing(), _options);
        Assert.All(accuracy.Rates.Cells, c => Assert.True(c.IsWithheld));
        Assert.Contains(accuracy.Cautions.Points, p => p.Contains("rest on few people", StringComparison.Ordinal));
        Assert.StartsWith($"{accuracy.Log.Name}: season 2031, few people.", accuracy.Log.Reading, StringComparison.Ordinal);
    }
}

/// <summary>Walks all that is public from a log for sharing.</summary>
internal sealed partial class SharedWalk
{
    private static readonly Assembly[] _libraries = [typeof(JumpLog).Assembly, typeof(ShownResult).Assembly];

    private readonly JumpLog _whole;
    private readonly WindBands _bands;
    private readonly Dictionary<Type, object> _values;
    private readonly HashSet<Type> _ofNoLog;
    private readonly HashSet<object> _seen = new(ReferenceEqualityComparer.Instance);

    public SharedWalk(JumpLog whole, AccuracyOptions options)
    {
        (_whole, _bands) = (whole, options.Bands);
        _values = new() { [typeof(AccuracyOptions)] = options, [typeof(LogFileFormat)] = LogFileFormat.Csv,
            [typeof(IReadOnlyList<Landing>)] = Array.Empty<Landing>() };
        _ofNoLog = [.. _values.Keys];
    }

    public List<string> Found { get; } = [];

    public HashSet<string> Passed { get; } = [];

    public List<(string Door, string Why)> Refused { get; } = [];

    public static SharedWalk Of(JumpLog log, AccuracyOptions options)
    {
        var walk = new SharedWalk(log, options);
        var shared = log.ForSharing();
        walk._values[typeof(JumpLog)] = shared;
        walk._values[typeof(Landing)] = shared.LandingsToCount[0];
        walk._values[typeof(Drop)] = shared.LandingsToCount[0].Drop;
        walk.Look("log", shared);
        // Whatever static method takes what is at hand, until nothing new comes to hand.
        for (var before = -1; before != walk._values.Count;)
        {
            before = walk._values.Count;
            foreach (var method in _libraries.SelectMany(a => a.GetExportedTypes()).Where(t => t.IsClass)
                .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly)))
                walk.Call(method, null);
        }
        return walk;
    }

    /// <summary>Looks at a value, at its text, and at all that it gives.</summary>
    public void Look(string path, object? value)
    {
        if (value is null || path.Length > 300) return;
        if (value is string text) Read(path, text);
        else if (value is Landing or Drop or QuarantinedRow or CellProblem)
            Found.Add($"{path} gives a {value.GetType().Name.ToLowerInvariant()}");
        else if (value is IEnumerable items && value is not ShownResult)
        {
            foreach (var item in items) Look(path + "[]", item);
        }
        if (value is CellRate { Landings: > 0 } rate) Count(path, rate.Cell);
        if (value is MissSummary { Rate.Value: { } summary } && People(l => true) >= LogSharing.FewPeople && summary.Missions > 0)
            Found.Add($"{path} sums up landings");
        if (!_libraries.Contains(value.GetType().Assembly) || value is IEnumerable || !(value is ValueType || _seen.Add(value))) return;
        if (value is ShownResult shown)
        {
            using var html = new StringWriter();
            shown.WriteHtml(html);
            Read(path + ".html", html + shown.ToString() + shown.TablesAsJson());
        }
        if (!value.GetType().IsValueType) _values.TryAdd(value.GetType(), value);
        foreach (var property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.GetIndexParameters().Length == 0))
            Call(property.GetMethod!, value, path);
        foreach (var method in value.GetType().GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
            .Where(m => !m.IsSpecialName && m.Name is not ("Equals" or "GetHashCode" or "WriteHtml" or "<Clone>$")))
            Call(method, value, path);
    }

    private void Call(MethodInfo method, object? target, string? path = null)
    {
        if (method.ContainsGenericParameters || Arguments(method, target is null) is not { } arguments) return;
        var door = $"{method.DeclaringType!.Name}.{method.Name}";
        if (target is null && !Passed.Add(method.ToString() + door)) return;
        Passed.Add(door);
        object? given;
        try
        {
            given = method.Invoke(target, arguments);
        }
        catch (TargetInvocationException e) when (e.InnerException is InvalidOperationException refusal)
        {
            Refused.Add((door, refusal.Message));
            return;
        }
        catch (TargetInvocationException e) when (e.InnerException is ArgumentException or KeyNotFoundException)
        {
            return; // made-up arguments
        }
        Look($"{path ?? method.DeclaringType.Name}.{method.Name.Replace("get_", "", StringComparison.Ordinal)}", given);
    }

    /// <summary>
    /// Values at hand for the arguments; null where one is missing, or where a static method takes none of a shared log's.
    /// </summary>
    private object?[]? Arguments(MethodInfo method, bool isStatic)
    {
        var parameters = method.GetParameters();
        var values = new object?[parameters.Length];
        var isOfLog = false;
        for (var i = 0; i < parameters.Length; i++)
        {
            var type = parameters[i].ParameterType;
            isOfLog |= _values.ContainsKey(type) && !_ofNoLog.Contains(type);
            if (_values.TryGetValue(type, out var value)) values[i] = value;
            else if (parameters[i].HasDefaultValue) values[i] = parameters[i].DefaultValue;
            else if (type == typeof(string))
                values[i] = parameters[i].Name == "folder" ? Path.Combine(Path.GetTempPath(), "jump-shared-" + Guid.NewGuid()) : "all";
            else if (type == typeof(Func<Landing, bool>)) values[i] = (Func<Landing, bool>)(l => { Look("condition", l); return true; });
            else if (type == typeof(Func<Drop, bool>)) values[i] = (Func<Drop, bool>)(d => { Look("condition", d); return true; });
            else return null;
        }
        return isStatic && !isOfLog ? null : values;
    }

    private void Count(string path, Cell cell)
    {
        if (People(l => cell.Holds(l.Drop, _bands)) is var people and < LogSharing.FewPeople)
            Found.Add($"{path} of {cell} rests on {people} people");
    }

    private int People(Func<Landing, bool> holds) => Withholding.LeastPeople([.. _whole.Landings.Where(holds)]);

    private void Read(string path, string text)
    {
        if (Codes().Match(text) is { Success: true } code) Found.Add($"{path} names {code.Value}");
    }

    /// <summary>Missions, spotters and jumpers of the demo season, and people as a shared log numbers them.</summary>
    [GeneratedRegex(@"\b(20\d\d-\d\d\d|[JS]\d\d|person \d+)\b")]
    private static partial Regex Codes();
}
