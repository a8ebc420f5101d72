using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Runner;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>What every notebook of the project keeps to, so that diffs are readable and each host runs it.</summary>
public class HygieneTests
{
    public static TheoryData<string> All =>
        [.. Directory.GetFiles(Path.Combine(Workshop.Root, "notebooks"), "*.ipynb")
            .Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    [Fact]
    public void The_notebooks_are_found() => Assert.Contains("season-accuracy.ipynb", All.Select(row => row.Data));

    [Theory]
    [MemberData(nameof(All))]
    public void The_format_is_4_5_and_cell_ids_are_unique(string file)
    {
        var json = Json(file);
        Assert.Equal((4, 5), ((int)json["nbformat"]!, (int)json["nbformat_minor"]!));
        var ids = Cells(json).Select(cell => (string?)cell["id"]).ToList();
        Assert.All(ids, id => Assert.Matches("^[a-zA-Z0-9_-]{1,64}$", id!)); // the rule of nbformat 4.5
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.Equal("C#", (string?)json["metadata"]!["kernelspec"]!["language"]);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void No_outputs_are_kept_and_each_code_cell_names_its_kernel(string file)
    {
        var code = Cells(Json(file)).Where(cell => (string?)cell["cell_type"] == "code").ToList();
        Assert.NotEmpty(code);
        foreach (var cell in code)
        {
            Assert.Empty(cell["outputs"]!.AsArray());
            Assert.True(cell.ContainsKey("execution_count"));
            Assert.Null(cell["execution_count"]);
            Assert.Equal("csharp", (string?)cell["metadata"]!["polyglot_notebook"]!["kernelName"]);
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void One_cell_holds_the_parameters_and_the_first_one_all_references(string file)
    {
        var notebook = Notebook.Read(Path.Combine(Workshop.Root, "notebooks", file));
        Assert.Single(notebook.CodeCells, cell => cell.Tags.Contains("parameters"));
        Assert.All(Parameter.Of(notebook), parameter => Assert.NotEqual("", parameter.Help));

        var lines = notebook.CodeCells[0].Source.Split('\n');
        var references = lines.TakeWhile(line => line.StartsWith("#r", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(references);
        // Relative, nothing behind.
        Assert.All(references, line => Assert.Matches("^#r \"\\.\\./lib/notebook-bin/[A-Za-z.]+\\.dll\"$", line));
        Assert.DoesNotContain(lines.Skip(references.Count), IsReference);
        Assert.DoesNotContain(notebook.CodeCells.Skip(1).SelectMany(cell => cell.Source.Split('\n')), IsReference);
        Assert.Contains("NotebookHost.Init()", lines[^1]);

        static bool IsReference(string line) => Regex.IsMatch(line, @"^\s*#[ri]\b");
    }

    [Theory]
    [MemberData(nameof(All))]
    public void The_text_of_the_file_names_no_machine_and_ends_with_a_line(string file)
    {
        var text = File.ReadAllText(Path.Combine(Workshop.Root, "notebooks", file));
        Assert.DoesNotMatch(@"/(home|root|tmp|Users)/|[A-Z]:\\\\", text);
        Assert.DoesNotContain("\r", text);
        Assert.EndsWith("}\n", text);
    }

    private static JsonNode Json(string file) => JsonNode.Parse(File.ReadAllText(Path.Combine(Workshop.Root, "notebooks", file)))!;

    private static IEnumerable<JsonObject> Cells(JsonNode json) => json["cells"]!.AsArray().Select(cell => cell!.AsObject());
}
