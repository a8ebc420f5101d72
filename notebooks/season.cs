// The season's analysis as a plain program: no notebook, no kernel. It gives the tables of season-accuracy.ipynb.
//   dotnet run notebooks/season.cs -- [folder of the log] [folder for the report] [picture.svg or .png]
#:project ../lib/JumpAnalytics.Notebooks/JumpAnalytics.Notebooks.csproj
#:property PublishAot=false
using JumpAnalytics;

var data = args.Length > 0 ? args[0] : "data-demo";
var output = args.Length > 1 ? args[1] : "out/season-program";

var units = ReportUnits.Of("yd", "mph");
var options = new AccuracyOptions { Bands = WindBands.Parse("0,5,10,15", units.Speed), Units = units, Seed = 1 };
var log = JumpLog.Read(data);
var accuracy = SeasonAccuracy.Of(log, options);
Console.WriteLine(accuracy.Brief);

var (intake, checks) = (log.Intake, RecordChecks.Of(log, new RecordCheckOptions { Units = units }));
var tables = ResultPage.Write(output, "season", "Season accuracy",
[
    ("In brief", [accuracy.Brief]),
    ("What was read and what was refused",
        [intake, intake.QuarantineTable, intake.SetAsideTable, intake.NotedTable, intake.DropsWithoutLandingsTable]),
    ("Do the records hold together?", [checks]),
    ("The season at a glance", [accuracy.Glance]),
    ("Landing rate by wind band and terrain", [accuracy.Rates]),
    ("Does the claim hold?", [accuracy.Claim]),
    ("Three questions that are never mixed", [accuracy.ThreeRates]),
    ("Season against season", [accuracy.Changes, accuracy.Trend]),
    ("Where the landings lie", [LandingScatter.Of(accuracy)]),
    ("How the landings miss", [accuracy.Misses]),
    ("Forecasts of seasons not yet seen", [accuracy.Backtest]),
    ("What these intervals are worth", [accuracy.Coverage]),
    ("What can and can't be concluded", [accuracy.Conclusions]),
    ("Cautions and settings", [accuracy.Cautions, accuracy.Settings]),
]);
Console.WriteLine($"Report: {output}/season.html\nTables: {tables.Count}");
if (args.Length > 2) RateForest.Of(accuracy.Rates).Save(args[2], width: 760);
