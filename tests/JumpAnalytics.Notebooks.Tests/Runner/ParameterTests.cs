using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

public class ParameterTests
{
    [Fact]
    public void The_literal_gives_the_type_the_comment_the_help_and_the_name_the_option()
    {
        var parameters = Toy.Parameters("""
            // what a reader may change
            var data = "../data-demo"; // folder of the season
            var maxWind = 12.5; // strongest wind, kn
            var offset = -3;
            var min_drops = 8; // fewest drops
            var verbose = true;
            """);

        Assert.Equal(["--data", "--max-wind", "--offset", "--min-drops", "--verbose"], parameters.Select(p => p.Option));
        Assert.Equal<object>(["../data-demo", 12.5, -3, 8, true], parameters.Select(p => p.Default));
        Assert.Equal(["folder of the season", "strongest wind, kn", "", "fewest drops", ""], parameters.Select(p => p.Help));
        Assert.Equal(["../data-demo", "12.5", "-3", "8", "true"], parameters.Select(p => p.DefaultText));
        Assert.Equal([true, false, false, false, false], parameters.Select(p => p.IsPath));
    }

    [Fact]
    public void A_name_that_is_a_word_of_the_language_is_set_by_its_written_form()
    {
        var parameter = Toy.Parameters("var @base = \"all\"; // base looked at").Single();
        Assert.Equal(("--base", "@base = \"North\";"), (parameter.Option, parameter.Assign("North")));
    }

    [Theory]
    [InlineData("double radius = 5; // m")]
    [InlineData("var bands = new[] { 0, 5 };")]
    [InlineData("var a = 1, b = 2;")]
    [InlineData("var n = 5L;")]
    [InlineData("var x = null;")]
    [InlineData("Console.WriteLine(1);")]
    [InlineData("var x = 5")]
    public void Anything_else_in_the_cell_is_refused_with_its_line(string line)
    {
        var error = Assert.Throws<NotebookException>(() => Toy.Parameters("var first = 1;\n" + line));
        Assert.StartsWith("toy: line 2 of the parameters cell", error.Message);
    }

    /// <summary>What the help allows; the notebooks' own help has each of the three forms.</summary>
    [Theory]
    [InlineData("\"yd\"; // unit of distances: m, ft, yd or mi", "furlong", "--x 'furlong' is none of m, ft, yd, mi (default yd).")]
    [InlineData("\"yd\"; // unit of distances: m, ft, yd or mi", "MI", "")]
    [InlineData("\"all\"; // seasons looked at: all, or for instance 2026", "2031", "")]
    [InlineData("0.85; // rate to compare with, between 0 and 1; a rule of thumb", "85", "--x '85' is not between 0 and 1 (default 0.85).")]
    [InlineData("0.85; // rate to compare with, between 0 and 1", "1", "--x '1' is not between 0 and 1 (default 0.85).")]
    [InlineData("0.85; // rate to compare with, between 0 and 1", "0.999", "")]
    [InlineData("\"0,5\"; // edges, rising from 0", "0,5,five", "--x \'0,5,five\' is not a list of rising numbers from 0, such as")]
    [InlineData("\"0,5\"; // edges, rising from 0", "0,5,5", "--x \'0,5,5\' is not a list of rising numbers from 0, such as")]
    [InlineData("\"0,5\"; // edges, rising from 0", "-1,5", "--x \'-1,5\' is not a list of rising numbers from 0, such as")]
    [InlineData("\"0,5\"; // edges, rising from 0", "", "--x \'\' is not a list of rising numbers from 0, such as")]
    [InlineData("\"0,5\"; // edges, rising from 0", "3, 7.5", "")]
    public void A_value_that_the_help_does_not_allow_is_refused(string line, string typed, string error)
    {
        Toy.Parameters("var x = " + line).Single().TryRead(typed, out _, out var found);
        Assert.StartsWith(error, found, StringComparison.Ordinal);
        Assert.Equal(error.Length == 0, found.Length == 0);
    }

    /// <summary>Wrong values end before a notebook starts: nothing is run and nothing written.</summary>
    [Theory]
    [InlineData("--bands", "0,ten")]
    [InlineData("--benchmark", "85")]
    [InlineData("--unit", "yards")]
    [InlineData("--speed-unit", "knots")]
    [InlineData("--confidence", "95")]
    public void A_wrong_setting_of_a_report_is_refused_at_once(string option, string value)
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        var outcome = workshop.Report("season-accuracy", option, value);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains($"{option} '{value}' is ", outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(workshop.At("out")));
    }

    [Fact]
    public void Two_parameters_cells_are_refused_and_none_is_fine()
    {
        Assert.Empty(Parameter.Of(Toy.Notebook(Toy.Code("var x = 1;"))));
        Assert.Throws<NotebookException>(() => Parameter.Of(
            Toy.Notebook(Toy.Code("var x = 1;", NotebookCell.ParametersTag), Toy.Code("var y = 1;", NotebookCell.ParametersTag))));
    }

    [Theory]
    [InlineData("var x = \"a\";", "0,5,10", "x = \"0,5,10\";")]
    [InlineData("var x = \"a\";", "say \"hi\"\\", """x = "say \"hi\"\\";""")]
    [InlineData("var x = \"a\";", "two\nlines", """x = "two\nlines";""")]
    [InlineData("var x = 1.5;", "10", "x = 10.0;")]
    [InlineData("var x = 1.5;", "-2", "x = -2.0;")]
    [InlineData("var x = 1.5;", "1e20", "x = 1E+20;")]
    [InlineData("var x = 1;", "-7", "x = -7;")]
    [InlineData("var x = false;", "True", "x = true;")]
    public void A_value_becomes_a_literal_of_the_default_type(string cell, string typed, string statement)
    {
        var parameter = Toy.Parameters(cell)[0];
        Assert.True(parameter.TryRead(typed, out var value, out _));
        Assert.Equal(statement, parameter.Assign(value));
    }

    [Theory]
    [InlineData("var minDrops = 8;", "8.5", "--min-drops '8.5' is not of type whole number (default 8).")]
    [InlineData("var minDrops = 8;", "1,000", "--min-drops '1,000' is not of type whole number (default 8).")]
    [InlineData("var radius = 7.5;", "7,5", "--radius '7,5' is not of type number (default 7.5).")]
    [InlineData("var radius = 7.5;", "NaN", "--radius 'NaN' is not of type number (default 7.5).")]
    [InlineData("var all = false;", "yes", "--all 'yes' is not of type true or false (default false).")]
    public void A_value_of_another_type_is_an_error_that_says_all(string cell, string typed, string message)
    {
        Assert.False(Toy.Parameters(cell)[0].TryRead(typed, out _, out var error));
        Assert.Equal(message, error);
    }
}
