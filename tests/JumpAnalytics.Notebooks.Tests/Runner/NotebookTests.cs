using System.Text.Json.Nodes;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

public class NotebookTests
{
    [Fact]
    public void Reading_and_writing_changes_nothing()
    {
        var path = Path.Combine(Workshop.Fixtures, "season-toy.ipynb");
        Assert.Equal(File.ReadAllText(path), Notebook.Read(path).ToString());
    }

    [Fact]
    public void Running_changes_only_outputs_and_counts_and_keeps_what_is_not_known()
    {
        var notebook = Notebook.Read(Path.Combine(Workshop.Fixtures, "season-toy.ipynb"));
        var executed = notebook.WithoutOutputs();
        executed.CodeCells[0].SetOutputs(1, [Toy.Display("text/plain", "x")]);

        Assert.Empty(notebook.CodeCells[0].Outputs);
        var json = JsonNode.Parse(executed.ToString())!;
        Assert.Equal("""{"kept":[1,2.5,"ä → é"]}""", json["metadata"]!["x_unknown"]!.ToJsonString(
            new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }));
        Assert.NotNull(json["metadata"]!["polyglot_notebook"]);
        Assert.NotNull(json["cells"]![0]!["attachments"]!["square.png"]);
        Assert.Contains(json["cells"]!.AsArray(), cell => (string?)cell!["cell_type"] == "raw");
        Assert.Equal(1, (int)json["cells"]![1]!["execution_count"]!);
    }

    [Fact]
    public void The_injected_cell_follows_the_parameters_and_replaces_an_earlier_one()
    {
        var notebook = Toy.Notebook(Toy.Code("1"), Toy.Code("var a = 1;", NotebookCell.ParametersTag),
            Toy.Code("a = 9;", NotebookCell.InjectedTag), Toy.Code("2"));

        var injected = notebook.WithInjectedParameters("a = 2;\nb = 3;");
        Assert.Equal(["1", "var a = 1;", "a = 2;\nb = 3;", "2"], injected.CodeCells.Select(cell => cell.Source));
        Assert.Equal([NotebookCell.InjectedTag], injected.CodeCells[2].Tags);
        Assert.Equal(["1", "var a = 1;", "2"], notebook.WithInjectedParameters("").CodeCells.Select(cell => cell.Source));

        var ids = JsonNode.Parse(injected.ToString())!["cells"]!.AsArray().Select(cell => (string?)cell!["id"]);
        Assert.Equal(["cell-1", "cell-2", "injected-parameters", "cell-4"], ids);
    }

    [Fact]
    public void A_cell_is_called_after_the_heading_above_or_its_first_line()
    {
        var notebook = Toy.Notebook(Toy.Code("\n// Read the *season*\nvar x = 1;"), Toy.Markdown("text\n\n## Hit `rates` & more\n\ntext"),
            Toy.Code("2"), Toy.Code(""));
        Assert.Equal(["Read the *season*", "Hit rates & more", "Hit rates & more"], notebook.CodeCells.Select(notebook.TitleOf));
        Assert.Equal("Hit rates & more", notebook.Title);
        Assert.Equal("toy", Toy.Notebook(Toy.Code("1")).Title);
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"nbformat":3,"cells":[]}""")]
    [InlineData("""{"nbformat":4,"cells":[1]}""")]
    [InlineData("""{"nbformat":4,"cells":[null]}""")]
    public void What_is_not_a_notebook_is_said_to_be_none(string text) =>
        Assert.StartsWith("x: not a notebook", Assert.Throws<NotebookException>(() => Notebook.Parse("x", text)).Message);
}
