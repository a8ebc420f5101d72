using System.Text.Json.Nodes;

namespace JumpAnalytics.Notebooks.Tests.Runner;

public class AllCommandTests
{
    [Fact]
    public void Every_notebook_runs_with_the_settings_that_it_knows()
    {
        using var workshop = new Workshop();
        workshop.Write("first", Toy.Code("var seed = 1; // seed\nvar radius = 5.0; // metres", "parameters"),
            Toy.Code("$\"seed {seed}, radius {radius}\""));
        workshop.Write("second", Toy.Code("var seed = 2; // seed", "parameters"), Toy.Code("$\"seed {seed}\""));
        Tool(workshop, "tool");

        var outcome = workshop.Report("all", "--seed", "9");
        Assert.Equal("", outcome.Error);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("seed 9, radius 5", workshop.Read("out", "first.html"));
        Assert.Contains("seed 9", workshop.Read("out", "second.html"));
        Assert.False(workshop.Has("out", "tool.html"));

        Assert.Equal(0, workshop.Report("all").ExitCode);
        Assert.Contains("seed 1, radius 5", workshop.Read("out", "first.html"));
        Assert.Contains("seed 2", workshop.Read("out", "second.html"));
    }

    [Fact]
    public void One_that_fails_does_not_keep_the_others_from_running()
    {
        using var workshop = new Workshop();
        workshop.Write("broken", Toy.Code("double radius = 5;", "parameters"));
        workshop.Write("failing", Toy.Code("throw new Exception(\"no such season\");"));
        workshop.Write("sound", Toy.Code("40 + 2"));

        var outcome = workshop.Report("all");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("no such season", outcome.Error);
        Assert.Contains("broken: line 1 of the parameters cell", outcome.Error);
        Assert.Contains("42", workshop.Read("out", "sound.html"));
        Assert.True(workshop.Has("out", "failing.failed.ipynb"));
    }

    [Fact]
    public void A_setting_of_two_kinds_is_refused_and_a_notebook_may_have_the_name()
    {
        using var workshop = new Workshop();
        workshop.Write("one", Toy.Code("var limit = 1; // whole", "parameters"));
        workshop.Write("two", Toy.Code("var limit = \"x\"; // text", "parameters"));
        var outcome = workshop.Report("all", "--limit", "3");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("all: --limit is a whole number in one and a text in two; run them one by one.", outcome.Error);

        workshop.Write("all", Toy.Code("\"the notebook itself\""));
        Assert.Equal(0, workshop.Report("all").ExitCode);
        Assert.Contains("the notebook itself", workshop.Read("out", "all.html"));
    }

    /// <summary>A notebook that its metadata keep out.</summary>
    private static void Tool(Workshop workshop, string name)
    {
        var json = JsonNode.Parse(Toy.Json(Toy.Code("1")))!;
        json["metadata"] = new JsonObject { ["jumpanalytics"] = new JsonObject { ["all"] = false } };
        File.WriteAllText(workshop.At("notebooks", name + ".ipynb"), json.ToJsonString());
    }
}
