
namespace JumpAnalytics.Tests.Docs;

/// <summary>The example prints to the console and reads from the current folder, which all tests share: it runs alone.</summary>
[CollectionDefinition(nameof(ReadmeExample), DisableParallelization = true)]
public class ReadmeExample;

/// <summary>The example of the README is the body of a test, so it compiles and runs.</summary>
[Collection(nameof(ReadmeExample))]
public class ReadmeTests
{
    private static string Root => ReferenceFiles.Root;

    [Fact]
    public void TheExampleRuns()
    {
        var output = new StringWriter();
        var (console, folder) = (Console.Out, Directory.GetCurrentDirectory());
        Console.SetOut(output);
        Directory.SetCurrentDirectory(Root);
        try
        {
            Example();
        }
        finally
        {
            Console.SetOut(console);
            Directory.SetCurrentDirectory(folder);
        }
        Assert.Contains("came down inside the target radius", output.ToString(), StringComparison.Ordinal);
        Assert.Matches("R90 under the bivariate t: [0-9.]+ to [0-9.]+ m", output.ToString());
        Assert.Matches(@"\d+ of \d+ landings, \d+ missions, 0\.\d+ to 0\.\d+", output.ToString());
    }

    [Fact]
    public void TheReadmeShowsTheExampleThatRuns()
    {
        var source = File.ReadAllText(Path.Combine(Root, "tests", "JumpAnalytics.Tests", "Docs", "ReadmeTests.cs"));
        var body = Between(source, "private static void Example()\n    {\n", "    }\n").Split('\n').Select(l => l.Length >= 8 ? l[8..] : l);
        var shown = Between(File.ReadAllText(Path.Combine(Root, "README.md")), "```csharp\n", "```\n");
        Assert.Equal(string.Join("\n", body), shown);
    }

    private static string Between(string text, string start, string end)
    {
        var from = text.LastIndexOf(start, StringComparison.Ordinal) + start.Length;
        return text[from..text.IndexOf(end, from, StringComparison.Ordinal)];
    }

    private static void Example()
    {
        var log = JumpLog.Read("data-demo");
        var accuracy = SeasonAccuracy.Of(log, new AccuracyOptions { Seed = 7 });
        Console.WriteLine(accuracy.Brief);
        var ridge = accuracy.Rates.Cell("5-10", "ridge lee");
        Console.WriteLine($"{ridge.Hits} of {ridge.Landings} landings, {ridge.Missions} missions, {ridge.Counted.Value?.Rate.Range}");
        var budget = MissBudget.Of(log.Landings[0]);
        Console.WriteLine(budget.ExitPlacement.Vector is { } exit ? $"exit {exit.Length:0} m off" : budget.ExitPlacement.Reason);
        if (accuracy.Misses.Best?.Fit.Value is { } fit)
            Console.WriteLine($"R90 under the {fit.Model.Name}: {fit.Profile(m => m.RadiusHolding(0.9), 0.95).Range} m");
    }
}
