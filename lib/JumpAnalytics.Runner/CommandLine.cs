using System.CommandLine;
using System.CommandLine.Help;

namespace JumpAnalytics.Runner;

/// <summary>
/// The command line. Exit codes: 0 done, 1 it failed (a notebook, or records that can't be read), 2 the command line is wrong,
/// 3 <c>check</c> found rows that would be refused.
/// </summary>
internal static class CommandLine
{
    public const int Failed = 1, Wrong = 2, RowsRefused = 3;
    private const string DefaultNotebook = "season-accuracy";

    private static readonly Option<string> Notebooks = new("--notebooks")
    {
        Description = "Folder of the notebooks.",
        Hidden = true,
        Recursive = true,
    };

    public static async Task<int> RunAsync(string[] args)
    {
        try
        {
            var root = Root(Places.Find(FolderAsked(args)));
            var parsed = root.Parse(args.Length == 0 ? [RunCommand.Name, DefaultNotebook] : args,
                new ParserConfiguration { ResponseFileTokenReplacer = null });
            if (parsed.Errors.Count == 0 || parsed.Action is HelpWithExamples)
            {
                // Ctrl-C ends this process at once; the child sees its input end and follows.
                return await parsed.InvokeAsync(new InvocationConfiguration
                {
                    EnableDefaultExceptionHandler = false,
                    ProcessTerminationTimeout = null,
                });
            }

            foreach (var error in parsed.Errors)
                Console.Error.WriteLine(error.Message);
            Console.Error.WriteLine("Add --help to see what is understood.");
            return Wrong;
        }
        catch (Exception e) when (e is NotebookException or IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(e.Message);
            return Failed;
        }
    }

    private static RootCommand Root(Places places)
    {
        var root = new RootCommand("Runs notebooks over the records of finished jumps and writes their reports. "
            + $"Without arguments: {RunCommand.Name} {DefaultNotebook}.")
        {
            Notebooks,
            ListCommand.For(places),
            RunCommand.For(places.Notebooks),
            NewCommand.For(places),
            CheckCommand.For(places),
            ExplainCommand.For(places),
        };
        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new HelpWithExamples((HelpAction)help.Action!);
        return root;
    }

    private static string? FolderAsked(string[] args) =>
        new RootCommand { Notebooks }.Parse(args).GetValue(Notebooks);
}
