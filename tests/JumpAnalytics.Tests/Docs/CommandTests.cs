using System.Reflection;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests.Docs;

/// <summary>Every command of the documents can be run: its files, tests, notebooks and settings are there, and something runs it.</summary>
public sealed partial class CommandTests
{
    private const string LongSettings = "tests/long.runsettings", Benchmarks = "tests/JumpAnalytics.Benchmarks",
        Mutants = "tests/JumpAnalytics.Mutants",
        NotebookTests = "tests/JumpAnalytics.Notebooks.Tests";

    /// <summary>Options that every report has.</summary>
    private static readonly string[] _common = ["--help", "--out", "--watch", "--cell-timeout"];

    /// <summary>Commands that neither the tests nor .ci/run type, and why.</summary>
    private static readonly Dictionary<string, string> _elsewhere = new()
    {
        ["dotnet build JumpAnalytics.sln -c Release"] = "the test command builds the same",
        [".ci/run"] = "it is what runs the others",
        ["dotnet test JumpAnalytics.sln -c Release -s tests/long.runsettings"] = "simulations of an hour",
        ["dotnet tool restore && dotnet docfx lib/api/docfx.json --warningsAsErrors"] = "needs a download of the tool",
        ["dotnet run -c Release notebooks/season.cs -- data-demo out/season-program data-demo/rates.svg"] =
            "needs a browser; FigureFilesTests save figures where there is one",
        ["dotnet run notebooks/season.cs"] = "SeasonProgramTests run it",
        ["dotnet run data-demo/generate.cs"] = "SeasonFilesTests compile and run the same generator",
        ["dotnet tool install -g Microsoft.dotnet-interactive --version 1.0.712001"] = "changes the user's machine",
        ["dotnet interactive jupyter install"] = "changes the user's machine",
        ["dotnet tool install JumpAnalytics.Runner -g --add-source out/packages"] = ".ci/run installs it into a folder of its own",
        ["dotnet run --project tests/JumpAnalytics.Benchmarks -c Release -- side-by-side"] = "two minutes, and needs R and Python",
        ["dotnet run --project tests/JumpAnalytics.Mutants -c Release"] = "an hour; tries the tests, not the library",
        ["dotnet run --project tests/JumpAnalytics.Benchmarks -c Release -- growth"] = "minutes on a quiet machine",
        ["dotnet run --project tests/JumpAnalytics.Benchmarks -c Release -- --filter '*Disc*'"] = "a minute on a quiet machine",
        ["dotnet run --project tests/JumpAnalytics.Benchmarks -c Release -- --filter '*Descent*'"] = "a minute on a quiet machine",
        ["jumpanalytics run season-accuracy data-demo --watch"] = "it never ends; RunTests watch a small notebook",
        ["jumpanalytics run season-accuracy data-demo --shared true"] = "SharedReportTests run it",
        ["jumpanalytics new windy-days data-demo"] = "it writes into the sources; .ci/run has the packed tool write one elsewhere",
        ["jumpanalytics run windy-days"] = "the same",
    };

    private static readonly Lazy<List<string>> _typedByCi = new(() =>
        [.. CiCommand().Matches(Documents.Text(".ci/run")).Select(m => Documents.Plain(m.Value))]);

    public static TheoryData<string> All => [.. Documents.All.SelectMany(Documents.Commands).Distinct()];

    [Fact]
    public void Each_document_has_commands() => Assert.All(Documents.All, d => Assert.NotEmpty(Documents.Commands(d)));

    [Theory]
    [MemberData(nameof(All))]
    public void Its_files_and_its_tests_are_there(string command)
    {
        var words = Documents.Words(command).SkipWhile(w => Variable().IsMatch(w)).ToArray();
        switch (words)
        {
            case ["jumpanalytics", .. var rest]: AssertRunner(rest); break;
            case ["dotnet", "test", var target, .. var rest]: AssertTests(target, rest); break;
            case ["dotnet", "build" or "pack", var solution, ..]: AssertThere(solution); break;
            case ["dotnet", "run", "--project", Benchmarks, "-c", "Release", "--", .. var rest]: AssertBenchmark(rest); break;
            case ["dotnet", "run", "--project", Mutants, "-c", "Release"]: AssertThere(Mutants); break;
            case ["dotnet", "run", .. var rest]: AssertThere(rest.First(w => w.EndsWith(".cs", StringComparison.Ordinal))); break;
            case ["dotnet", "tool", "install" or "restore", ..] or ["dotnet", "interactive", ..]: break;
            default: AssertThere(Assert.Single(words)); break;
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Something_runs_it_or_the_list_says_why_not(string command) =>
        Assert.True(_elsewhere.ContainsKey(command) || IsTest(command) || IsPartOfAll(command) || IsTypedByCi(command),
            $"Nothing runs: {command}");

    [Fact]
    public void The_list_has_nothing_that_no_document_names_or_that_is_run_after_all()
    {
        var all = All.Select(row => row.Data).ToList();
        Assert.All(_elsewhere.Keys, command => Assert.True(all.Contains(command) && !IsTypedByCi(command), command));
    }

    [Fact]
    public void Every_setting_that_a_document_names_is_one()
    {
        var settings = Settings(Directory.GetFiles(Documents.At("notebooks"), "*.ipynb"));
        var named = Documents.All.SelectMany(Documents.Spans).SelectMany(s => SettingName().Matches(s)).Select(m => m.Value).ToList();
        Assert.NotEmpty(named);
        Assert.All(named, w => Assert.Contains(w, settings));
    }

    /// <summary>What the README promises is what is checked first.</summary>
    [Fact]
    public void The_build_server_begins_with_the_commands_of_the_readme()
    {
        var readme = Documents.Blocks("README.md").Take(2).ToList();
        Assert.Equal(["dotnet test JumpAnalytics.sln -c Release", "jumpanalytics"], _typedByCi.Value.Take(2));
        Assert.Equal(_typedByCi.Value.Take(2).Order(StringComparer.Ordinal), readme.Select(Documents.Plain).Order(StringComparer.Ordinal));
        Assert.StartsWith("dotnet run --project lib/JumpAnalytics.Runner -c Release", readme[0], StringComparison.Ordinal);
    }

    /// <summary>The test command runs those that are not long; a long one with a filter is a part of the long simulations.</summary>
    private static bool IsTest(string command) => Variable().Replace(command, "") is var plain
        && plain.StartsWith("dotnet test ", StringComparison.Ordinal) && plain.Contains(" --filter ", StringComparison.Ordinal);

    /// <summary>A report with its own settings, which <c>run all</c> makes too.</summary>
    private static bool IsPartOfAll(string command) => Documents.Words(Same(command)) is ["jumpanalytics", "run", var name]
        && IsTypedByCi("jumpanalytics run all") && NotebookOf(name) is var file && File.Exists(file)
        && !File.ReadAllText(file).Contains("\"all\": false", StringComparison.Ordinal);

    private static bool IsTypedByCi(string command) => _typedByCi.Value.Any(typed => Same(typed) == Same(command));

    /// <summary>Where a report goes makes no difference, and the demo season is what a report takes without a folder.</summary>
    private static string Same(string command)
    {
        var same = OutOption().Replace(command, "");
        var isReport = same.StartsWith("jumpanalytics run ", StringComparison.Ordinal);
        return isReport ? same.Replace(" data-demo", "", StringComparison.Ordinal) : same;
    }

    private static string NotebookOf(string name) => Documents.At($"notebooks/{name}.ipynb");

    private static void AssertThere(string path) => Assert.True(Path.Exists(Documents.At(path)), path);

    private static void AssertRunner(string[] words)
    {
        if (words.Length == 0) return;
        var commands = Directory.GetFiles(Documents.At("lib/JumpAnalytics.Runner/Commands"), "*Command.cs")
            .SelectMany(f => CommandName().Matches(File.ReadAllText(f)).Select(m => m.Groups[1].Value)).ToList();
        Assert.Contains(words[0], commands);
        if (words is not ["run", var name, .. var rest]) return;
        if (All.Select(row => row.Data).Any(c => c.StartsWith($"jumpanalytics new {name}", StringComparison.Ordinal))) return;
        var notebooks = name == "all" ? Directory.GetFiles(Documents.At("notebooks"), "*.ipynb") : [NotebookOf(name)];
        Assert.All(notebooks, n => Assert.True(File.Exists(n), n));
        var settings = Settings(notebooks);
        Assert.All(rest.Where(w => w.StartsWith("--", StringComparison.Ordinal)), w => Assert.Contains(w, settings));
    }

    /// <summary>The options of the commands that run these notebooks.</summary>
    private static HashSet<string> Settings(IEnumerable<string> notebooks) =>
        [.. notebooks.SelectMany(n => Setting().Matches(File.ReadAllText(n)))
            .Select(m => "--" + Capital().Replace(m.Groups[1].Value, "-$0").ToLowerInvariant()), .. _common];

    private static void AssertTests(string target, string[] words)
    {
        AssertThere(target);
        if (Array.IndexOf(words, "-s") is >= 0 and var s) AssertThere(words[s + 1]);
        if (Array.IndexOf(words, "--filter") is not (>= 0 and var at)) return;
        List<(string Name, bool IsLong)> tests = target switch
        {
            "tests/JumpAnalytics.Tests" => OwnTests(),
            "JumpAnalytics.sln" => [.. OwnTests(), .. WrittenTests(NotebookTests)],
            _ => WrittenTests(target),
        };
        Assert.All(words[at + 1].Split('|'), part =>
        {
            var name = FilterPart().Match(part).Groups[1].Value;
            Assert.NotEqual("", name);
            Assert.Contains(tests, t => t.Name.Contains(name, StringComparison.Ordinal) && (t.IsLong || !words.Contains(LongSettings)));
        });
    }

    private static List<(string Name, bool IsLong)> OwnTests() =>
        [.. typeof(CommandTests).Assembly.GetTypes().SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Instance))
            .Where(m => m.GetCustomAttribute<FactAttribute>() is not null)
            .Select(m => ($"{m.DeclaringType!.FullName}.{m.Name}", m.GetCustomAttributes<TraitAttribute>().Any(a => a.Value == "Long")))];

    /// <summary>Classes of tests of another project, as its source has them.</summary>
    private static List<(string Name, bool IsLong)> WrittenTests(string folder) =>
        [.. SourceFiles.Below(Documents.At(folder), "*Tests.cs").Select(File.ReadAllText)
            .SelectMany(s => ClassName().Matches(s).Select(m => (m.Groups[1].Value, s.Contains("\"Long\"", StringComparison.Ordinal))))];

    private static void AssertBenchmark(string[] words)
    {
        var sources = string.Join('\n', SourceFiles.Below(Documents.At(Benchmarks), "*.cs").Select(File.ReadAllText));
        if (words is ["--filter", var pattern]) Assert.Matches($"class [A-Za-z]*{pattern.Trim('*')}[A-Za-z]*", sources);
        else Assert.Contains($"\"{Assert.Single(words)}\"", sources, StringComparison.Ordinal);
    }

    [GeneratedRegex("(dotnet|runner) [^\n\\\\]+?(?=\n| 2>| \\||\\)$|; do| &&)")]
    private static partial Regex CiCommand();

    [GeneratedRegex(@" --out \S+")]
    private static partial Regex OutOption();

    [GeneratedRegex(@"^[A-Z_]+=\S+\s*")]
    private static partial Regex Variable();

    [GeneratedRegex("const string Name = \"([a-z]+)\"")]
    private static partial Regex CommandName();

    [GeneratedRegex("^--[a-z-]+|(?<=^--.* )--[a-z-]+")]
    private static partial Regex SettingName();

    [GeneratedRegex(@"^\s*""var @?(\w+) = .*; // ", RegexOptions.Multiline)]
    private static partial Regex Setting();

    [GeneratedRegex("[A-Z]")]
    private static partial Regex Capital();

    [GeneratedRegex("^FullyQualifiedName~([A-Za-z_]+)$")]
    private static partial Regex FilterPart();

    [GeneratedRegex(@"class (\w+Tests)\b")]
    private static partial Regex ClassName();
}
