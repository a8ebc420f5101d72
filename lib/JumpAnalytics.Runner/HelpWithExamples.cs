using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace JumpAnalytics.Runner;

/// <summary>The help of a command, with examples below it.</summary>
internal sealed class HelpWithExamples(HelpAction help) : SynchronousCommandLineAction
{
    private static readonly Dictionary<string, string[]> _examples = new()
    {
        [ListCommand.Name] = ["list"],
        [RunCommand.Name] = ["run season-accuracy path/to/folder --bands 0,5,10,15 --out path/to/report",
            "run debrief path/to/folder --mission 2031-017", "run all path/to/folder --watch"],
        [NewCommand.Name] = ["new windy-days", "new windy-days path/to/folder"],
        [CheckCommand.Name] = ["check path/to/folder"],
        [ExplainCommand.Name] = ["explain streamer_minutes", "explain design_effect", "explain"],
    };

    public override int Invoke(ParseResult parsed)
    {
        var code = help.Invoke(parsed);
        var command = parsed.CommandResult.Command;
        var examples = command is RootCommand ? _examples.Values.Select(e => e[0]) : _examples.GetValueOrDefault(command.Name) ?? [];
        var output = parsed.InvocationConfiguration.Output;
        if (examples.Any()) output.WriteLine($"Examples:\n  {string.Join("\n  ", examples)}\n");
        if (command is RootCommand)
            output.WriteLine($"Exit codes:\n  0 done   {CommandLine.Failed} it failed   {CommandLine.Wrong} the command line is wrong   "
                + $"{CommandLine.RowsRefused} check found rows that would be refused");
        return code;
    }
}
