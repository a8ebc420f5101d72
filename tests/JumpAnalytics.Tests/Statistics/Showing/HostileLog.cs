namespace JumpAnalytics.Tests;

/// <summary>A log whose every text, header, file name and value tries to break out of a page or a file.</summary>
public sealed class HostileLog : IDisposable
{
    public const string Markup = "<script>alert('x')</script>\" onload=\"y&";
    private const string Quoted = "\"<script>alert('x')</script>\"\" onload=\"\"y&\"";

    private readonly TempLog _files;
    private IReadOnlyList<ShownResult>? _results;
    private IReadOnlyList<ShownResult>? _wholes;
    private SpottingMargins? _margins;

    public HostileLog()
    {
        var (drops, landings) = (new List<string>(), new List<string>());
        foreach (var season in new[] { "2030", "2031" })
        {
            for (var m = 0; m < 6; m++)
            {
                var id = $"\"{season}-{m}<b>\"";
                drops.Add(($"{id},\"m{season}{m}<i>\",2031-07-1{m}T10:00,{(m % 2 == 0 ? Quoted : "a,b")},25,8,300,"
                    + $"{40 * m},{Quoted.Insert(1, season)},{Quoted},{Quoted}").Replace("a,b", "\"a,b\"", StringComparison.Ordinal));
                for (var j = 0; j < 3; j++) landings.Add($"{id},{5 + 12 * ((m + j) % 3)},{110 * j},{Quoted.Insert(1, $"{j}")},,");
            }
        }
        drops.Add($"{Quoted},m,2031-07-10T10:00,t,25,8,300,0,2031,x,y"); // no landing
        drops.Add($"\"{HostileId}\",m,{Quoted},t,25,8,300,0,2031,x,y"); // refused: the time
        landings.Add($"{Quoted},3,4,j,,"); // belongs to the drop without landing: now it has one
        landings.Add($"\"no {HostileId}\",3,4,j,,"); // no such drop
        landings.Add($"\"2030-0<b>\",3,4,j9,{Quoted},"); // set aside: hung up
        landings.Add($"\"2030-0<b>\",{Quoted},4,j8,,"); // refused: the distance
        drops.Add("\"lonely<b>\",\"lonely<i>\",2031-07-10T10:00,t,25,8,300,0,2031,x,y");
        _files = new TempLog()
            .With("drops<img src=x>.csv", TempLog.Lines([$"{TempLog.DropsHeader},season,remarks,{Quoted}", .. drops]))
            .With("landings&\"'.csv", TempLog.Lines([TempLog.LandingsHeader + ",jumper,hung_up,<svg>", .. landings]));
        Log = _files.Read();
        Accuracy = SeasonAccuracy.Of(Log, new AccuracyOptions { Replicates = 200 });
    }

    private const string HostileId = "<script>alert('x')</script>";

    public JumpLog Log { get; }

    public SeasonAccuracy Accuracy { get; }

    /// <summary>Every result the core can show, and every table by itself.</summary>
    public IReadOnlyList<ShownResult> Results => _results ??=
    [
        Accuracy.Brief, Log.Intake, Accuracy.Glance, Accuracy.Rates, Accuracy.Changes, Accuracy.Conclusions, Accuracy.Cautions,
        Log.Intake.QuarantineTable, Log.Intake.SetAsideTable, Log.Intake.NotedTable, Log.Intake.DropsWithoutLandingsTable,
        Accuracy.LandingsTable, Accuracy.Settings, ColumnMap.Propose(_files.Folder), Log.OriginOf(Log.Drops[0]), RecordChecks.Of(Log),
        SeasonAccuracy.Of(Log.ForSharing(2), Accuracy.Options).Rates,
        RateDifference.Of(Accuracy.Landings, Accuracy.Landings, Accuracy.Options),
        FairComparison.Of([.. Accuracy.Landings.Select((l, i) => l with { Drop = l.Drop with { Spotter = $"{i % 2}{Markup}" } })],
            Accuracy.Options, new FairComparisonSettings { FewestMissions = 3, NamedDifference = 0.05 }),
        Accuracy.Trend, Accuracy.Readings, Accuracy.ThreeRates, Accuracy.Claim, Accuracy.Misses, Accuracy.Backtest,
        CoverageTable.Of(Accuracy.Landings, Accuracy.Options),
        ForecastAgeing.Of(Accuracy.Landings, Accuracy.Options), StickMargins.Of(Accuracy.Landings, Accuracy.Options),
        SpotterPatterns.Of(Spotted, Accuracy.Options, new SpotterPatternOptions { FewestMissions = 4 }),
        SpotterInfluence.Of(Spotted, Accuracy.Options, new SpotterPatternOptions { FewestMissions = 4 }),
        MissCharts.Of(Accuracy.Landings, Accuracy.Landings, Accuracy.Options, new ChartOptions { FewestReferenceMissions = 10,
            RestartEachSeason = true }, Markup), SpotterCharts.Of(Spotted, Accuracy.Options),
        LearningCurve.Of(Accuracy.Landings, [], Accuracy.Options, name: Markup), LearningCurves.Of(Spotted, Accuracy.Options),
        MissionSheet.Of(Spotted, [Spotted[0].Drop.Mission], Accuracy.Options),
        Margins.Radii, Margins.Shifts, Margins.WhatIf, Margins.EarlierMargins, Margins.Settings, .. Margins.Cards,
        Margins.InClearing(Clearing.Circle(30)), Margins.LeastCost(new LandingCost { LongOverShort = 2 }),
        SpotterReview.Of(Log, Accuracy.Options).AskedFor,
        Log.Intake.Account, LandingGroups.Of(Accuracy.Landings, "group", l => l.Drop.Terrain, Accuracy.Options), Glossary.Log,
        Glossary.Tables, Glossary.Explain(Markup),
        Debrief.Plan, Debrief.Budgets, Debrief.Winds, Debrief.History, Debrief.Reach, Debrief.Questions, Debrief.Tracks, Debrief.Settings,
        Forecasts.Sources, Forecasts.Check, Forecasts.Streamers, Forecasts.Tracks, Forecasts.Settings,
    ];

    /// <summary>Results that show tables of others.</summary>
    public IReadOnlyList<ShownResult> Wholes => _wholes ??=
        [Log, Accuracy, SpotterReview.Of(Log, Accuracy.Options), Margins, Debrief, Forecasts, Forecasts.Descents,
            Showing.Of(Log.Landings[0]), Showing.Of(Log.Drops)];

    private MissionDebrief Debrief => MissionDebrief.Of(Log, "m20315<i>", Accuracy.Options);

    private ForecastReview Forecasts => ForecastReview.Of(Log, Accuracy.Options);

    private SpottingMargins Margins => _margins ??= SpottingMargins.Of(Log, Accuracy.Options,
        new MarginOptions { Scenarios = [new Scenario { TargetRadius = 20 }, new Scenario { FreshStreamers = 60 }] });

    /// <summary>The landings with spotters whose codes try as much, one of them with few missions.</summary>
    private IReadOnlyList<Landing> Spotted =>
        [.. Accuracy.Landings.Select(l => l with { Drop = l.Drop with { Spotter =
            l.Drop.Season == "2030" ? HostileId : l.Drop.Mission.Contains("31", StringComparison.Ordinal) ? "few<b>" : Markup } })];

    public void Dispose() => _files.Dispose();
}
