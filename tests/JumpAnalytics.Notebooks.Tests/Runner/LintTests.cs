using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

public class LintTests
{
    private static readonly string Here = AppContext.BaseDirectory;

    [Fact]
    public void What_the_host_can_run_passes()
    {
        Lint.Check(Toy.Notebook(
            Toy.Code("// the libraries\n#r \"Markdig.dll\"\n#r \"./System.CommandLine.dll\"\nusing Markdig;"),
            Toy.Code("#!who"),
            Toy.Code("#region rates\nvar s = \"\"\"\n# not a directive\n\"\"\";\n#endregion")), Here);
    }

    [Theory]
    [InlineData("#r \"Markdig.dll\" // markdown", "cell 1, line 1: write #r")]
    [InlineData("using System;\n#r 'Markdig.dll'", "cell 1, line 2: write #r")]
    [InlineData("#r \"nuget: Deedle, 8.1.0\"", "packages cannot be restored here")]
    [InlineData("#r \"/somewhere/Markdig.dll\"", "not a relative path")]
    [InlineData("#r \"../lib/notebook-bin/Nothing.dll\"", "build the solution first: dotnet build JumpAnalytics.sln -c Release")]
    [InlineData("#i \"nuget:feed\"", "'#i' is not understood")]
    [InlineData("#load \"setup.csx\"", "'#load' is not understood")]
    [InlineData("#!time", "'#!time' is not understood")]
    [InlineData("#!set --name n --value 5\nn", "must stand in a cell without code")]
    public void What_would_hang_fail_or_mislead_is_refused(string code, string message)
    {
        var error = Assert.Throws<NotebookException>(() => Lint.Check(Toy.Notebook(Toy.Code(code)), Here));
        Assert.StartsWith("toy.ipynb cannot run:\n  cell 1, line", error.Message);
        Assert.Contains(message, error.Message);
    }

    [Fact]
    public void All_objections_come_at_once_with_references_after_the_first_cell_and_images_from_outside()
    {
        var error = Assert.Throws<NotebookException>(() => Lint.Check(Toy.Notebook(
            Toy.Markdown("![logo](https://example.org/logo.png) ![gone](attachment:gone.png)"),
            Toy.Code("#!time"),
            Toy.Code("#r \"Markdig.dll\"")), Here));
        Assert.Equal(5, error.Message.Split('\n').Length);
        Assert.Contains("cell 2, line 1: all #r belong into the first code cell.", error.Message);
        Assert.Contains("image 'https://example.org/logo.png'", error.Message);
        Assert.Contains("image 'attachment:gone.png'", error.Message);
    }
}
