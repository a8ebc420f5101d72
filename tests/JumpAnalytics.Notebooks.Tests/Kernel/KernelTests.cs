using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Figures;
using JumpAnalytics.Notebooks.Tests.Runner;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Kernel;

/// <summary>
/// A notebook of single expressions, run by the built runner in its own process: there the assemblies come from the notebook's references
/// alone, and the kernel's hold on the console does no harm.
/// </summary>
public sealed class KernelRun
{
    private readonly List<JsonArray> _outputs;

    public KernelRun()
    {
        using var workshop = new Workshop();
        HandMadeLog.Season().Write(workshop.At("log"));
        var folder = Path.GetRelativePath(workshop.At("notebooks"), Path.Combine(Workshop.Root, "lib", "notebook-bin")).Replace('\\', '/');
        var first = Notebook.Read(Path.Combine(Workshop.Root, "notebooks", "season-accuracy.ipynb")).CodeCells[0].Source
            .Replace("../lib/notebook-bin", folder, StringComparison.Ordinal);
        // Cells that name types of the chart and frame packages refer to them as well.
        var more = string.Concat(new[] { "Deedle", "Plotly.NET", "Plotly.NET.CSharp" }.Select(name => $"#r \"{folder}/{name}.dll\"\n"));

        workshop.Write("toy", [Toy.Code(more + first), .. Expressions.Select(source => Toy.Code(source))]);
        var outcome = workshop.Report("toy");
        Assert.Equal("", outcome.Error);
        _outputs = [.. JsonNode.Parse(workshop.Read("out", "toy.ipynb"))!["cells"]!.AsArray().Select(cell => cell!["outputs"]!.AsArray())];
    }

    /// <summary>The cells after the first.</summary>
    internal static readonly string[] Expressions =
    [
        "var accuracy = SeasonAccuracy.Of(JumpLog.Read(\"../log\"), new AccuracyOptions { Bands = WindBands.Parse(\"0,5\", "
            + "MeasureUnit.Speed(\"mps\")), Replicates = 200 });\naccuracy.Rates",
        "RateHeatMap.Of(accuracy.Rates)",
        "display(accuracy.LandingsTable);",
        "new object[] { accuracy.Rates, accuracy.Brief }",
        "new Deedle.FrameBuilder.Columns<string, string> { { \"x\", new Deedle.Series<string, double>([\"a\", \"b\"], [1.5, 2]) }, "
            + "{ \"y\", new Deedle.Series<string, string>([\"a\", \"b\"], [\"<i>\", \"v\"]) } }.Frame",
        "accuracy.Rates.Tables[0].ToDeedle().GetColumn<double>(\"rate\")",
        "accuracy.Rates.Tables[0].ToDeedle().Rows[0]",
        "accuracy.Rates.Tables[0].ToDataFrame()",
        "Plotly.NET.CSharp.Chart.Point<double, double, string>(x: new[] { 1.0, 2.0 }, y: new[] { 3.0, 4.0 }, Name: \"</script>\")",
        "accuracy",
        "accuracy.Landings",
        "accuracy.Rates.Cells[0]",
        "accuracy.Rates.Overall.Counted.Value.Rate",
        "accuracy.By(\"hung up\", l => l.HungUp)",
        "BivariateT.FitTo(accuracy.Landings)",
    ];

    /// <summary>The one output of an expression, or of the first cell at 0.</summary>
    internal JsonObject Data(int cell) => Assert.Single(_outputs[cell])!["data"]!.AsObject();

    internal string Html(int cell) => NotebookCell.Text(Data(cell)["text/html"]);
}

public class KernelTests(KernelRun run) : IClassFixture<KernelRun>
{
    private static readonly string[] ByName = ["text/html", "application/vnd.jumpanalytics.table+json", "text/plain"];

    [Fact]
    public void The_first_cell_of_the_notebook_brings_the_page_its_style_and_charts()
    {
        Assert.Equal(ByName, run.Data(0).Select(pair => pair.Key));
        Assert.StartsWith("<style>.ja-result", run.Html(0));
        Assert.Contains("window.jumpChartLibrary", run.Html(0));
        Assert.StartsWith("JumpAnalytics 0.1.0 is ready.", NotebookCell.Text(run.Data(0)["text/plain"]));
    }

    [Fact]
    public void A_result_as_last_expression_gives_page_text_and_table()
    {
        Assert.Equal(ByName, run.Data(1).Select(pair => pair.Key));
        // By hand, as in HandMadeLog.
        Assert.StartsWith("<div class=\"ja-result\"><p class=\"ja-reading\">8 of 14 landings from 8 missions", run.Html(1));
        Assert.StartsWith("8 of 14 landings from 8 missions", NotebookCell.Text(run.Data(1)["text/plain"]));
        var table = Assert.Single(run.Data(1)[Tables.MimeType]!["tables"]!.AsArray())!;
        Assert.Equal("rates-by-cell", (string?)table["name"]);
        Assert.Contains("\n0-5,meadow,5,8,6,0.75,", (string?)table["csv"]); // 5 missions, 6 hits of 8
    }

    [Fact]
    public void A_figure_gives_page_text_and_table()
    {
        Assert.Equal(ByName, run.Data(2).Select(pair => pair.Key));
        Assert.StartsWith("<div class=\"ja-figure\"><figure><div class=\"ja-plot\" role=\"img\" aria-label=\"3 cells", run.Html(2));
        Assert.Equal("rates-by-cell", (string?)run.Data(2)[Tables.MimeType]!["tables"]![0]!["name"]);
    }

    [Fact]
    public void A_displayed_table_and_results_in_an_array_render_themselves()
    {
        Assert.Equal(ByName, run.Data(3).Select(pair => pair.Key));
        Assert.Contains("<caption>Landings one by one</caption>", run.Html(3));
        Assert.Contains("<div class=\"ja-result\"><p class=\"ja-reading\">8 of 14 landings", run.Html(4));
        Assert.Contains("<div class=\"ja-result\"><p class=\"ja-reading\">57 %", run.Html(4)); // 8/14, the brief
    }

    [Theory]
    [InlineData(5, "Frame of 2 rows and 2 columns", "<td>&lt;i&gt;</td>")]
    [InlineData(6, "Series of 9 values", "<td>0.75</td>")] // 2 terrains by 2 bands, 4 margins, all
    [InlineData(7, "Series of 19 values", "<td>meadow</td>")] // 10 plain columns, and three estimates of three each
    [InlineData(8, "Frame of 9 rows and 19 columns", "<td>0.75</td>")]
    public void Frames_and_series_of_other_packages_are_small_tables(int cell, string caption, string content)
    {
        Assert.Contains($"<caption>{caption}</caption>", run.Html(cell));
        Assert.Contains(content, run.Html(cell));
        Assert.DoesNotContain("dni-treeview", run.Html(cell));
        Assert.InRange(run.Html(cell).Length, 100, 100_000); // the object tree of the first has 2 MB
    }

    [Fact]
    public void A_front_door_shows_its_brief_its_figure_and_its_table()
    {
        var html = run.Html(10);
        Assert.StartsWith("<div class=\"ja-result\"><p class=\"ja-reading\">57 %", html);
        Assert.Contains("no authority to jump", html);
        Assert.InRange(html.IndexOf("<figure>", StringComparison.Ordinal), 1,
            html.IndexOf("<caption>Landing rate by wind band and terrain", StringComparison.Ordinal));
        Assert.Equal("rates-by-cell", (string?)Assert.Single(run.Data(10)[Tables.MimeType]!["tables"]!.AsArray())!["name"]);
        Assert.StartsWith("57 %", NotebookCell.Text(run.Data(10)["text/plain"]));
    }

    [Fact]
    public void Lists_parts_and_single_numbers_are_read_without_an_object_tree()
    {
        Assert.Contains("<caption>Landing: 14 items</caption>", run.Html(11));
        Assert.Contains("title=\"Place in the stick, 1 = first out.\">Exit order</th>", run.Html(11));
        Assert.Contains("<caption>Cell rate</caption>", run.Html(12));
        Assert.Contains("Landings told a hit or a miss.", run.Html(12));
        Assert.Matches(@"0\.57 \(0\.\d+ to 0\.\d+\)", run.Html(13));
        Assert.All(Enumerable.Range(10, 5), cell => Assert.DoesNotContain("dni-treeview", run.Html(cell)));
        // No file of what was only looked at.
        Assert.All([12, 13], cell => Assert.DoesNotContain(Tables.MimeType, run.Data(cell).Select(pair => pair.Key)));
    }

    [Fact]
    public void Groups_of_ones_own_have_their_figure() => Assert.Contains("<strong>Landing rate by hung up.</strong>", run.Html(14));

    /// <summary>The notebook has a using of the trade alone; the first cell brings that of the statistics.</summary>
    [Fact]
    public void The_types_of_statistics_are_there_by_their_names() =>
        Assert.Matches("Bivariate t|degrees of freedom|can't|landings", run.Html(15));

    [Fact]
    public void A_chart_of_the_chart_package_is_drawn_as_ours_are()
    {
        Assert.StartsWith("<div class=\"ja-plot\" role=\"img\" aria-label=\"A chart made in this notebook.\">", run.Html(9));
        var figure = JsonNode.Parse(Regex.Match(run.Html(9), "<script type=\"application/json\">(.*?)</script>",
            RegexOptions.Singleline).Groups[1].Value)!;
        Assert.Equal("</script>", (string?)figure["data"]![0]!["name"]);
        Assert.Equal([3, 4], figure["data"]![0]!["y"].Numbers());
        Assert.DoesNotContain("cdn", run.Html(9));
    }
}
