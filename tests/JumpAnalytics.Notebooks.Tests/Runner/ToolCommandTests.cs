using System.Diagnostics;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

/// <summary>The commands beside <c>run</c>, as a user types them.</summary>
public sealed class ToolCommandTests
{
    private static string Demo => Path.Combine(Workshop.Root, "data-demo");

    [Fact]
    public void List_names_each_notebook_with_its_question()
    {
        using var workshop = new Workshop();
        workshop.Write("gusts", Toy.Markdown("# Gusts\n\nWhat do *gusts* do? And then?"));
        workshop.Write("plain", Toy.Code("1"));
        File.WriteAllText(workshop.At("notebooks", "broken.ipynb"), "{");
        var outcome = workshop.Run("list");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("gusts   Gusts. What do gusts do?\n", outcome.Output);
        Assert.Contains("plain   plain\n", outcome.Output);
        Assert.Contains("broken  Cannot be run: ", outcome.Output);
    }

    [Fact]
    public void Help_gives_examples_and_exit_codes()
    {
        using var workshop = new Workshop();
        var root = workshop.Run("--help");
        Assert.Contains("Examples:\n  list\n  run season-accuracy path/to/folder", root.Output);
        Assert.Contains("3 check found rows that would be refused", root.Output);
        Assert.Contains("Examples:\n  check path/to/folder\n", workshop.Run("check", "--help").Output);
        Assert.Contains("  run all path/to/folder --watch\n", workshop.Run("run", "--help").Output);
    }

    [Fact]
    public void Check_names_every_refused_row_of_the_demo_and_writes_nothing()
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        var outcome = workshop.Run("check", Demo);
        Assert.Equal((CommandLine.RowsRefused, ""), (outcome.ExitCode, outcome.Error));
        Assert.Equal(72, outcome.Output.Split('\n').Where(l => l.Contains(" refused. ", StringComparison.Ordinal))
            .Select(l => l.Split(' ')[1]).Distinct().Count());
        Assert.Contains(" checks of the records raised ", outcome.Output);
        Assert.Contains("- drops.csv:86 refused. time: 'after lunch' is not a date and time of ISO 8601 – write it like", outcome.Output);
        Assert.Empty(Directory.GetFileSystemEntries(workshop.Folder));
    }

    [Fact]
    public void Check_of_sound_records_ends_with_0_of_none_with_1_and_of_a_wrong_name_with_2()
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        Directory.CreateDirectory(workshop.At("season"));
        File.WriteAllText(workshop.At("season", "drops.csv"), "drop_id,mission,time,terrain,target_radius_m,wind_speed_mps,"
            + "forecast_drift_m,forecast_to_deg\nd1,m1,2031-07-14T15:20,meadow,40,4,300,90\n");
        File.WriteAllText(workshop.At("season", "landings.csv"), "drop_id,landing_distance_m,landing_bearing_deg\nd1,12,80\n");
        var sound = workshop.Run("check", "season");
        Assert.Equal((0, ""), (sound.ExitCode, sound.Error));
        Assert.Contains("1 mission, 1 drop, 1 landing.", sound.Output);
        Assert.Contains("Nothing to put right.\n\n13 checks of the records raised no flag. ", sound.Output);

        Directory.CreateDirectory(workshop.At("none"));
        var none = workshop.Run("check", "none");
        Assert.Equal(1, none.ExitCode);
        Assert.Contains("holds no log", none.Error);
        Assert.Equal(2, workshop.Run("check", "nowhere").ExitCode);
        Assert.Equal(2, workshop.Run("check").ExitCode);
    }

    [Fact]
    public void Explain_knows_headers_columns_and_slips()
    {
        using var workshop = new Workshop(Path.Combine(Workshop.Root, "notebooks"));
        Assert.Contains("In the log (drops; may be left out): Height of the exit above the spot.",
            workshop.Run("explain", "Exit_Height_ft").Output);
        Assert.Contains("Variance of the rate over that of as many independent landings.", workshop.Run("explain", "design_effect").Output);
        var slip = workshop.Run("explain", "exit_hight\"); //");
        Assert.Equal(1, slip.ExitCode);
        Assert.Contains("is no column of the log or of a table.", slip.Output);
        var all = workshop.Run("explain");
        Assert.Equal(0, all.ExitCode);
        Assert.Contains("streamer_minutes", all.Output);
        Assert.Contains("pooled_rate", all.Output);
    }

    [Fact]
    public void A_new_notebook_runs_as_it_is_and_takes_no_place_of_another()
    {
        using var workshop = new Workshop(withLibrary: true);
        var made = workshop.Run("new", "windy-days", Demo);
        Assert.Equal((0, ""), (made.ExitCode, made.Error));
        Assert.StartsWith("Notebook: notebooks/windy-days.ipynb\n", made.Output);
        Assert.Contains("# Windy days", workshop.Read("notebooks", "windy-days.ipynb"));

        var run = workshop.Report("windy-days");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains("of landings came down inside the target radius", workshop.Read("out", "windy-days.html"));
        Assert.True(workshop.Has("out", "tables", "rates-by-cell.csv"));

        Directory.CreateDirectory(workshop.At("my \"own\" records"));
        Assert.Equal(0, workshop.Run("new", "quoted", "my \"own\" records").ExitCode);
        Assert.Equal("../my \"own\" records",
            Parameter.Of(Notebook.Parse("quoted", workshop.Read("notebooks", "quoted.ipynb")))[0].Default);

        var again = workshop.Run("new", "windy-days", Demo);
        Assert.Equal(1, again.ExitCode);
        Assert.Contains("is there already", again.Error);
        Assert.Equal(2, workshop.Run("new", "Windy Days").ExitCode);
        Assert.Equal(2, workshop.Run("new", "all").ExitCode);
        Assert.Equal(2, workshop.Run("new", "other", "nowhere").ExitCode);
    }

    [Fact]
    public async Task Watch_runs_again_when_the_data_change_and_survives_a_failure()
    {
        using var workshop = new Workshop();
        workshop.Write("toy", Toy.Code("var data = \"../season\"; // where", "parameters"),
            Toy.Code("int.Parse(System.IO.File.ReadAllText(data + \"/n.txt\"))"));
        Directory.CreateDirectory(workshop.At("season"));
        File.WriteAllText(workshop.At("season", "n.txt"), "1");
        using var process = workshop.Start("run", "toy", "--watch");
        try
        {
            await Until(process.StandardOutput, "Waiting for a change of toy.ipynb, season.");
            Assert.Contains(">1<", workshop.Read("out", "toy.html"));
            File.WriteAllText(workshop.At("season", "n.txt"), "no number");
            Assert.Contains("FormatException", await Until(process.StandardError, "FormatException"));
            await Until(process.StandardOutput, "Waiting");
            File.WriteAllText(workshop.At("season", "n.txt"), "22");
            await Until(process.StandardOutput, "Waiting");
            Assert.Contains(">22<", workshop.Read("out", "toy.html"));
        }
        finally
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        static async Task<string> Until(StreamReader reader, string text)
        {
            var limit = Stopwatch.StartNew();
            while (limit.Elapsed < TimeSpan.FromMinutes(10)) // so that the run ends; how fast it is is no matter here
            {
                var line = await reader.ReadLineAsync().WaitAsync(TimeSpan.FromMinutes(10))
                    ?? throw new EndOfStreamException($"'{text}' never came.");
                if (line.Contains(text, StringComparison.Ordinal)) return line;
            }
            throw new TimeoutException($"'{text}' did not come.");
        }
    }
}
