namespace JumpAnalytics.Notebooks.Tests.Runner;

public class CommandLineTests
{
    [Fact]
    public void Help_lists_notebooks_and_their_parameters()
    {
        using var workshop = new Workshop(Workshop.Fixtures);
        var all = workshop.Report("--help");
        Assert.Equal(0, all.ExitCode);
        Assert.Matches(@"season-toy <data> +Toy season", all.Output);
        Assert.DoesNotContain("--notebooks", all.Output);

        var one = workshop.Report("season-toy", "--help");
        Assert.Equal(0, one.ExitCode);
        Assert.Matches(@"--radius <number> +radius of the disc, m \[default: 7\.5\]", one.Output);
        Assert.Matches(@"--minimum <whole number> +fewest drops for a rate \[default: 5\]", one.Output);
        Assert.Matches(@"--out <folder>.*\[default: out\]", one.Output);
        Assert.Matches(@"--cell-timeout <seconds>.*\[default: 0\]", one.Output);
    }

    [Fact]
    public void What_is_wrong_on_the_command_line_ends_with_code_2_before_anything_runs()
    {
        using var workshop = new Workshop(Workshop.Fixtures);
        Refused("'--bandz'", "season-toy", "--bandz", "3");
        Refused("--minimum 'x' is not of type whole number (default 5).", "season-toy", "--minimum", "x");
        Refused("--data 'nowhere' is not there", "season-toy", "--data", "nowhere");
        Refused("--cell-timeout 'soon' is not a whole number", "season-toy", "--cell-timeout", "soon");
        Refused("--data 'nowhere' is not there", "season-toy", "nowhere");
        Refused("'.' comes beside --data; give the file or folder once.", "season-toy", ".", "--data", ".");
        Refused("'more'", "season-toy", ".", "more");
        Refused("'season-none'", "season-none");
        Assert.False(Directory.Exists(workshop.At("out")));

        void Refused(string message, params string[] arguments)
        {
            var outcome = workshop.Report(arguments);
            Assert.Equal(2, outcome.ExitCode);
            Assert.Contains(message, outcome.Error);
        }
    }

    [Fact]
    public void The_data_may_be_named_without_its_option_and_files_come_beside_the_report()
    {
        using var workshop = new Workshop();
        workshop.Write("toy", Toy.Code("var data = \"there\"; // where", "parameters"), Toy.Code("""
            using Microsoft.DotNet.Interactive.Formatting;
            record Given(string Text);
            Formatter.Register<Given>((g, w) => w.Write(System.Text.Json.JsonSerializer.Serialize(
                new { tables = new int[0], files = new[] { new { name = "map.json", text = g.Text } } })),
                "application/vnd.jumpanalytics.table+json");
            Formatter.SetPreferredMimeTypesFor(typeof(Given), "text/plain", "application/vnd.jumpanalytics.table+json");
            new Given(data)
            """));
        Directory.CreateDirectory(workshop.At("season"));
        var outcome = workshop.Report("toy", "season");
        Assert.Equal("", outcome.Error);
        Assert.Contains("File:     out/map.json\n", outcome.Output);
        Assert.Equal("../season", workshop.Read("out", "map.json"));

        workshop.Write("toy", Toy.Code("var data = \"there\"; // where", "parameters"));
        Assert.Equal(0, workshop.Report("toy").ExitCode);
        Assert.False(workshop.Has("out", "map.json"));
    }

    [Fact]
    public void A_notebook_that_cannot_run_says_why_and_the_others_still_work()
    {
        using var workshop = new Workshop();
        workshop.Write("odd", Toy.Code("double radius = 5;", "parameters"));
        workshop.Write("taken", Toy.Code("var @out = \"x\";", "parameters"));
        workshop.Write("unbuilt", Toy.Code("#r \"../lib/notebook-bin/JumpAnalytics.dll\""));

        Failed("odd: line 1 of the parameters cell", "odd", "--radius", "3");
        Failed("taken: a parameter cannot be called --out", "taken");
        Failed("build the solution first: dotnet build JumpAnalytics.sln -c Release", "unbuilt");

        void Failed(string message, params string[] arguments)
        {
            var outcome = workshop.Report(arguments);
            Assert.Equal(1, outcome.ExitCode);
            Assert.Contains(message, outcome.Error);
            Assert.Equal("", outcome.Output);
        }
    }
}
