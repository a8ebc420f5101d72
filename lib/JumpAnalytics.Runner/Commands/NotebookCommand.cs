using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>The command that runs one notebook.</summary>
internal static class NotebookCommand
{
    /// <summary>
    /// A command named like the file, with an option for each parameter. When the notebook cannot be read, its command
    /// says so, and the others still work.
    /// </summary>
    public static Command For(string file)
    {
        try
        {
            var notebook = Notebook.Read(file);
            return For(file, notebook, Parameter.Of(notebook));
        }
        catch (NotebookException e)
        {
            var broken = new Command(Path.GetFileNameWithoutExtension(file),
                "Cannot be run: " + e.Message) { TreatUnmatchedTokensAsErrors = false };
            broken.SetAction(int (_) => throw e);
            return broken;
        }
    }

    private static Command For(string file, Notebook notebook, IReadOnlyList<Parameter> parameters)
    {
        var command = new Command(notebook.Name, notebook.Title);
        var folder = Path.GetDirectoryName(file)!;
        var options = ParameterOptions.AddTo(command, parameters);
        command.SetAction(async parsed =>
        {
            await Watch.RunAsync(options.IsWatched(parsed), [file, .. options.Paths(parsed, folder)],
                () => RunAsync(Notebook.Read(file), folder, options.Assignments(parsed, parameters, folder), options.Output(parsed),
                    options.Timeout(parsed), Console.Out));
            return 0;
        });
        return command;
    }

    /// <summary>Runs a notebook and writes what comes of it; throws when a cell fails.</summary>
    public static async Task RunAsync(Notebook notebook, string folder, string injected, string path, TimeSpan timeout, TextWriter progress)
    {
        var output = new OutputFolder(path, notebook.Name);
        output.Clear();
        NotebookRun run;
        var starting = Task.Run(() => ChildEngine.StartAsync(folder, timeout)); // takes a second; the notebook is looked through meanwhile
        try
        {
            Lint.Check(notebook, folder);
        }
        catch
        {
            (await starting).Dispose();
            throw;
        }
        using (var engine = await starting)
            run = await NotebookRun.ExecuteAsync(notebook.WithInjectedParameters(injected), engine, progress);

        if (run.Failure is not null)
        {
            output.WriteFailure(run.Notebook);
            throw new NotebookException($"{run.Failure}\nThe notebook up to there: {output.Failed}");
        }

        var tables = Tables.Of(run.Notebook);
        var files = Tables.FilesOf(run.Notebook);
        output.WriteSuccess(run.Notebook, HtmlReport.Of(run.Notebook), tables, files);
        progress.WriteLine($"Report:   {output.Report}\nNotebook: {output.Executed}\nTables:   {tables.Count}");
        foreach (var file in files.Keys)
            progress.WriteLine($"File:     {output.FilePath(file)}");
    }
}
