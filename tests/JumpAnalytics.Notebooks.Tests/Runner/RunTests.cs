using System.Text.Json.Nodes;

namespace JumpAnalytics.Notebooks.Tests.Runner;

/// <summary>The built program from its command line to its files, through a real child process.</summary>
public class RunTests
{
    [Fact]
    public void The_fixture_gives_report_notebook_and_table_the_same_on_every_run_and_from_every_folder()
    {
        using var one = new Workshop(Workshop.Fixtures);
        using var two = new Workshop(Workshop.Fixtures);
        string[] overrides = ["--radius", "-5", "--bands", "0,\"7\"", "--verbose", "true"];

        var first = one.Report(["season-toy", "--out", "results", "--data",
            Path.Combine(Workshop.Fixtures, "toy-data", "drops.csv"), .. overrides]);
        Assert.Equal("", first.Error);
        Assert.Equal(0, first.ExitCode);
        Assert.Matches(@"^\[1/7\] Toy season … \d+\.\d s\n", first.Output);
        Assert.Contains("Report:   results/season-toy.html\nNotebook: results/season-toy.ipynb\nTables:   1\n", first.Output);

        Directory.CreateDirectory(two.At("results"));
        File.Copy(Path.Combine(Workshop.Fixtures, "toy-data", "drops.csv"), two.At("results", "season-toy.failed.ipynb"));
        Assert.Equal(0, two.Report(["season-toy", "--out", two.At("results"), .. overrides]).ExitCode);
        Assert.False(two.Has("results", "season-toy.failed.ipynb"));
        foreach (var file in (string[])["season-toy.html", "season-toy.ipynb", Path.Combine("tables", "rates-by-site.csv")])
        {
            Assert.Equal(File.ReadAllBytes(one.At("results", file)), File.ReadAllBytes(two.At("results", file)));
            Assert.DoesNotContain(Workshop.Root, one.Read("results", file));
        }

        Assert.Equal(File.ReadAllBytes(Path.Combine(Workshop.Fixtures, "toy-data", "drops.csv")),
            File.ReadAllBytes(one.At("results", "tables", "rates-by-site.csv")));
        CheckExecuted(JsonNode.Parse(one.Read("results", "season-toy.ipynb"))!);
    }

    private static void CheckExecuted(JsonNode json)
    {
        var cells = json["cells"]!.AsArray().Where(cell => (string?)cell!["cell_type"] == "code").ToList();
        Assert.Equal([1, 2, 3, 4, 5, 6, 7], cells.Select(cell => (int)cell!["execution_count"]!));
        Assert.Equal("bands = \"0,\\\"7\\\"\";\nradius = -5.0;\nverbose = true;",
            string.Concat(cells[2]!["source"]!.AsArray().Select(line => (string?)line)));

        var stream = Assert.Single(cells[3]!["outputs"]!.AsArray())!;
        Assert.Equal("stdout", (string?)stream["name"]);
        Assert.Equal(3, stream["text"]!.AsArray().Count);

        var bundle = Assert.Single(cells[4]!["outputs"]!.AsArray())!;
        Assert.Equal(["text/html", "text/plain", "application/vnd.jumpanalytics.table+json"],
            bundle["data"]!.AsObject().Select(pair => pair.Key));
        Assert.Equal("rates-by-site", (string?)bundle["data"]!["application/vnd.jumpanalytics.table+json"]!["tables"]![0]!["name"]);

        var displays = cells[5]!["outputs"]!.AsArray();
        Assert.Equal(["display_data", "display_data", "execute_result"], displays.Select(output => (string?)output!["output_type"]));
        Assert.Equal("step 1", (string?)displays[0]!["data"]!["text/plain"]![0]);
        Assert.DoesNotContain("<style", json.ToJsonString());
    }

    [Fact]
    public void A_run_time_error_names_cell_line_message_and_source_and_leaves_no_result()
    {
        using var workshop = new Workshop();
        workshop.Write("toy", Toy.Markdown("# Toy"),
            Toy.Code("Console.WriteLine(\"before\");\nint zero = 0;\nint Half(int x)\n{\n    return x / zero;\n}"),
            Toy.Markdown("## Rates"), Toy.Code("// first\nvar y = 1;\nHalf(y)"), Toy.Code("Console.WriteLine(\"after\");"));
        Directory.CreateDirectory(workshop.At("out"));
        File.WriteAllText(workshop.At("out", "toy.html"), "stale");

        var outcome = workshop.Report("toy");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("[2/3] Rates … failed after", outcome.Output);
        Assert.Equal("Attempted to divide by zero.\n\n"
            + "System.DivideByZeroException in toy.ipynb, cell 2 (Rates), line 5 of cell 1, called from its line 3\n"
            + "  5 | return x / zero;\n"
            + "The notebook up to there: out/toy.failed.ipynb\n", outcome.Error);
        Assert.False(workshop.Has("out", "toy.html"));
        Assert.False(workshop.Has("out", "toy.ipynb"));

        var text = workshop.Read("out", "toy.failed.ipynb");
        var cells = JsonNode.Parse(text)!["cells"]!;
        Assert.Equal("before\n", (string?)cells[1]!["outputs"]![0]!["text"]![0]);
        Assert.Equal("error", (string?)cells[3]!["outputs"]![0]!["output_type"]);
        Assert.Equal("System.DivideByZeroException", (string?)cells[3]!["outputs"]![0]!["ename"]);
        Assert.Null(cells[4]!["execution_count"]);
        Assert.DoesNotContain(workshop.Folder, text);
    }

    [Fact]
    public void A_compile_error_names_its_line()
    {
        using var workshop = new Workshop();
        workshop.Write("toy", Toy.Code("// first\nvar x = 1;\nvar y = radius;\nvar z = bands;"));
        var outcome = workshop.Report("toy");
        Assert.Equal(1, outcome.ExitCode);
        Assert.StartsWith("CS0103 in line 3: The name 'radius' does not exist in the current context\nCS0103 in line 4: The name 'bands'",
            outcome.Error);
        Assert.Contains("CompilationError in toy.ipynb, cell 1 (first), line 3\n  3 | var y = radius;\n", outcome.Error);
    }

    [Theory]
    [InlineData("Console.Write(\"x\"); Environment.Exit(3);", 60, "the cell ended its process (exit code 3)")]
    [InlineData("int F(int n) => n + F(n + 1); F(0)", 60, "the cell ended its process (exit code 134 Stack overflow.")]
    [InlineData("while (true) ;", 2, "the cell ran longer than the 2 s of --cell-timeout and was stopped; 0 sets no limit.")]
    public void A_cell_that_takes_its_process_down_is_named(string code, int timeout, string message)
    {
        using var workshop = new Workshop();
        workshop.Write("toy", Toy.Code("Console.WriteLine(\"before\");"), Toy.Code(code));
        var outcome = workshop.Report("toy", "--cell-timeout", $"{timeout}");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("in toy.ipynb, cell 2 (", outcome.Error);
        Assert.Contains(message, outcome.Error);
        Assert.Contains("before", workshop.Read("out", "toy.failed.ipynb"));
    }

    [Fact]
    public void A_library_is_loaded_by_its_relative_path_and_a_cell_may_write_and_read_past_the_console()
    {
        using var workshop = new Workshop();
        Directory.CreateDirectory(workshop.At("lib"));
        File.Copy(Path.Combine(AppContext.BaseDirectory, "MathNet.Numerics.dll"), workshop.At("lib", "MathNet.Numerics.dll"));
        workshop.Write("toy", Toy.Code("#r \"../lib/MathNet.Numerics.dll\"\nusing MathNet.Numerics.Statistics;\n"
            + "new[] { 1.0, 2, 6 }.Mean().ToString()"),
            Toy.Code("Console.OpenStandardOutput().Write(new byte[] { 123, 125 });\nConsole.ReadLine() is null ? \"no input\" : \"input\""),
            Toy.Code("display(HTML(\"<p>shown</p>\"))"));

        var outcome = workshop.Report("toy");
        Assert.Equal("", outcome.Error);
        Assert.Equal(0, outcome.ExitCode);
        var cells = JsonNode.Parse(workshop.Read("out", "toy.ipynb"))!["cells"]!;
        Assert.Equal("3", (string?)cells[0]!["outputs"]![0]!["data"]!["text/plain"]![0]);
        Assert.Equal("no input", (string?)cells[1]!["outputs"]![0]!["data"]!["text/plain"]![0]);
        Assert.Single(cells[2]!["outputs"]!.AsArray());
    }

    [Fact]
    public void A_second_table_of_the_same_name_is_numbered_and_a_new_run_removes_the_tables_of_the_last()
    {
        const string Table = "using Microsoft.DotNet.Interactive.Formatting;\nrecord T(string Csv);\n"
            + "Formatter.Register<T>((t, w) => w.Write(\"{\\\"tables\\\":[{\\\"name\\\":\\\"rates\\\",\\\"csv\\\":\\\"\" + t.Csv + "
            + "\"\\\"}]}\"), \"application/vnd.jumpanalytics.table+json\");\n"
            + "Formatter.SetPreferredMimeTypesFor(typeof(T), \"application/vnd.jumpanalytics.table+json\");\nnew T(\"1\")";
        using var workshop = new Workshop();
        workshop.Write("toy", Toy.Code(Table));
        Assert.Equal(0, workshop.Report("toy").ExitCode);
        Assert.True(workshop.Has("out", "tables", "rates.csv"));

        workshop.Write("toy", Toy.Code(Table), Toy.Code("new T(\"2\")"), Toy.Code("new T(\"1\")"));
        Assert.Equal(0, workshop.Report("toy").ExitCode);
        Assert.Equal(("1", "2"), (workshop.Read("out", "tables", "rates.csv"), workshop.Read("out", "tables", "rates-2.csv")));

        workshop.Write("toy", Toy.Code("no code"));
        Assert.Equal(1, workshop.Report("toy").ExitCode);
        Assert.Empty(Directory.GetFiles(workshop.At("out", "tables")));
        Assert.True(workshop.Has("out", "toy.failed.ipynb"));
    }
}
