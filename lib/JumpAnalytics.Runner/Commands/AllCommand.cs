using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>The command that runs every notebook of the folder that is a report.</summary>
/// <remarks>A notebook stays out when its metadata hold <c>"jumpanalytics": { "all": false }</c>: a tool rather than a report.</remarks>
internal static class AllCommand
{
    private const string Name = "all";
    private const int AtOnce = 2;

    /// <summary>
    /// The command with the parameters of all notebooks; a setting goes to each notebook that knows it. Null when a notebook has taken the
    /// name. One that cannot be read is told of when the command runs.
    /// </summary>
    public static Command? For(IReadOnlyList<string> files)
    {
        if (files.Any(file => Path.GetFileNameWithoutExtension(file) == Name)) return null;

        var (notebooks, broken) = (new List<(string File, Notebook Notebook, IReadOnlyList<Parameter> Own)>(), new List<string>());
        foreach (var file in files)
        {
            try
            {
                var notebook = Notebook.Read(file);
                if (notebook.IsInAll) notebooks.Add((file, notebook, Parameter.Of(notebook)));
            }
            catch (NotebookException e)
            {
                broken.Add(e.Message);
            }
        }

        if (notebooks.Count + broken.Count == 0) return null;
        var command =
            new Command(Name, $"Runs {string.Join(", ", notebooks.Select(n => n.Notebook.Name))}; a setting goes to each that knows it.");
        try
        {
            var options = ParameterOptions.AddTo(command, Union(notebooks.Select(n => (n.Notebook.Name, n.Own))));
            command.SetAction(async parsed =>
            {
                var paths = notebooks.SelectMany(n => options.Paths(parsed, Path.GetDirectoryName(n.File)!).Append(n.File))
                    .Distinct().ToList();
                await Watch.RunAsync(options.IsWatched(parsed), paths, () => RunAsync(notebooks, broken, options, parsed));
                return 0;
            });
        }
        catch (NotebookException e)
        {
            command.TreatUnmatchedTokensAsErrors = false;
            command.SetAction(int (_) => throw e);
        }
        return command;
    }

    private static async Task RunAsync(List<(string File, Notebook Notebook, IReadOnlyList<Parameter> Own)> notebooks, List<string> broken,
        ParameterOptions options, ParseResult parsed)
    {
        // Two at once: each has one core a good part of its time, and more would hold as many archives in memory. What each tells is shown
        // in order, as soon as it is done.
        using var free = new SemaphoreSlim(Math.Min(AtOnce, Environment.ProcessorCount));
        var runs = notebooks.Select(n => Task.Run(() => RunOneAsync(n.File, n.Notebook, n.Own))).ToList();
        var failures = new List<string>(broken);
        foreach (var run in runs)
        {
            var (told, failure) = await run;
            Console.Write(told);
            if (failure is not null) failures.Add(failure);
        }

        if (failures.Count > 0) throw new NotebookException(string.Join("\n\n", failures));

        async Task<(string Told, string? Failure)> RunOneAsync(string file, Notebook notebook, IReadOnlyList<Parameter> own)
        {
            await free.WaitAsync();
            var (folder, told) = (Path.GetDirectoryName(file)!, new StringWriter { NewLine = "\n" });
            told.WriteLine($"{notebook.Name}:");
            try
            {
                await NotebookCommand.RunAsync(Notebook.Read(file), folder, options.Assignments(parsed, own, folder),
                    options.Output(parsed), options.Timeout(parsed), told);
                return (told.ToString(), null);
            }
            catch (NotebookException e)
            {
                return (told.ToString(), e.Message);
            }
            finally
            {
                free.Release();
            }
        }
    }

    /// <summary>Every parameter once; of one that several notebooks have, the first default is shown.</summary>
    private static List<Parameter> Union(IEnumerable<(string Notebook, IReadOnlyList<Parameter> Own)> notebooks)
    {
        var union = new Dictionary<string, (Parameter Parameter, string Notebook)>(StringComparer.Ordinal);
        foreach (var (name, own) in notebooks)
        {
            foreach (var parameter in own)
            {
                if (union.TryAdd(parameter.Name, (parameter, name)) || union[parameter.Name].Parameter.Kind == parameter.Kind) continue;
                throw new NotebookException($"{Name}: {parameter.Option} is a {union[parameter.Name].Parameter.Kind} in "
                    + $"{union[parameter.Name].Notebook} and a {parameter.Kind} in {name}; run them one by one.");
            }
        }
        return [.. union.Values.Select(p => p.Parameter)];
    }
}
