using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>
/// The command line: one command for each notebook, its options made from the notebook's parameters, and one for all of them.
/// Exit codes: 0 the report is written, 1 the notebook failed, 2 the command line is wrong.
/// </summary>
internal static class CommandLine
{
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
            var root = new RootCommand("Runs a notebook and writes its report, the executed notebook and its tables. "
                + $"Without arguments: {DefaultNotebook}.") { Notebooks };
            string[] files = [.. Directory.GetFiles(NotebooksFolder(args), "*.ipynb").Order(StringComparer.Ordinal)];
            foreach (var file in files)
                root.Add(NotebookCommand.For(file));
            if (AllCommand.For(files) is { } all)
                root.Add(all);

            var parsed = root.Parse(args.Length == 0 ? [DefaultNotebook] : args, new ParserConfiguration { ResponseFileTokenReplacer = null });
            if (parsed.Errors.Count == 0)
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
            return 2;
        }
        catch (Exception e) when (e is NotebookException or IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(e.Message);
            return 1;
        }
    }

    /// <summary>The folder asked for, else <c>notebooks</c> beside the solution above this program.</summary>
    private static string NotebooksFolder(string[] args)
    {
        var asked = new RootCommand { Notebooks };
        asked.TreatUnmatchedTokensAsErrors = false;
        if (asked.Parse(args).GetValue(Notebooks) is { } folder)
            return Path.GetFullPath(folder);

        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            var notebooks = Path.Combine(at.FullName, "notebooks");
            if (File.Exists(Path.Combine(at.FullName, "JumpAnalytics.sln")) && Directory.Exists(notebooks))
                return notebooks;
        }

        throw new NotebookException($"No folder 'notebooks' beside a JumpAnalytics.sln above {AppContext.BaseDirectory}.");
    }
}
