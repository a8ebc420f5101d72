using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>Runs one notebook, or all that are reports.</summary>
internal static class RunCommand
{
    public const string Name = "run";

    /// <summary>A command for each notebook, and one for all.</summary>
    public static Command For(IReadOnlyList<string> files)
    {
        var command = new Command(Name, "Runs a notebook and writes its report, the executed notebook and its tables.");
        foreach (var file in files) command.Add(NotebookCommand.For(file));
        if (AllCommand.For(files) is { } all) command.Add(all);
        return command;
    }
}
