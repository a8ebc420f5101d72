using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

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
            return For(notebook, Path.GetDirectoryName(file)!, Parameter.Of(notebook));
        }
        catch (NotebookException e)
        {
            var broken = new Command(Path.GetFileNameWithoutExtension(file), "Cannot be run: " + e.Message) { TreatUnmatchedTokensAsErrors = false };
            broken.SetAction(int (_) => throw e);
            return broken;
        }
    }

    private static Command For(Notebook notebook, string folder, IReadOnlyList<Parameter> parameters)
    {
        var output = OutputOption();
        var timeout = TimeoutOption();
        var options = parameters.ToDictionary(parameter => parameter, OptionFor);
        var path = options.Keys.FirstOrDefault(parameter => parameter.IsPath);
        var place = path is null ? null : PlaceArgument(path, options[path]);
        var command = new Command(notebook.Name, notebook.Title);
        foreach (var option in (IEnumerable<Option>)[.. options.Values, output, timeout])
        {
            if (option.Name is "--help" or "--version" or "--notebooks" || command.Options.Any(other => other.Name == option.Name))
                throw new NotebookException($"{notebook.Name}: a parameter cannot be called {option.Name}, that option is taken.");
            command.Add(option);
        }

        if (place is not null) command.Add(place);
        command.SetAction(parsed => RunAsync(notebook, folder,
            string.Join("\n", Assignments(parsed, options, place, folder)),
            parsed.GetRequiredValue(output),
            TimeSpan.FromSeconds(parsed.GetRequiredValue(timeout))));
        return command;
    }

    private static async Task<int> RunAsync(Notebook notebook, string folder, string injected, string path, TimeSpan timeout)
    {
        var output = new OutputFolder(path, notebook.Name);
        output.Clear();
        Lint.Check(notebook, folder);

        NotebookRun run;
        using (var engine = await ChildEngine.StartAsync(folder, timeout))
            run = await NotebookRun.ExecuteAsync(notebook.WithInjectedParameters(injected), engine, Console.Out);

        if (run.Failure is not null)
        {
            output.WriteFailure(run.Notebook);
            throw new NotebookException($"{run.Failure}\nThe notebook up to there: {output.Failed}");
        }

        var tables = Tables.Of(run.Notebook);
        var files = Tables.FilesOf(run.Notebook);
        output.WriteSuccess(run.Notebook, HtmlReport.Of(run.Notebook), tables, files);
        Console.WriteLine($"Report:   {output.Report}\nNotebook: {output.Executed}\nTables:   {tables.Count}");
        foreach (var file in files.Keys)
            Console.WriteLine($"File:     {output.FilePath(file)}");
        return 0;
    }

    /// <summary>The statements that set what the user asked for and what differs from the default.</summary>
    private static IEnumerable<string> Assignments(ParseResult parsed, Dictionary<Parameter, Option<string>> options, Argument<string>? place, string folder)
    {
        foreach (var (parameter, option) in options)
        {
            var typed = parsed.GetResult(option) is { Implicit: false } ? parsed.GetRequiredValue(option)
                : parameter.IsPath && place is not null ? parsed.GetValue(place) : null;
            if (typed is null || !parameter.TryRead(typed, out var value, out _))
                continue;
            if (parameter.IsPath)
                value = RelativePath(folder, (string)value);
            if (!value.Equals(parameter.Default))
                yield return parameter.Assign(value);
        }
    }

    /// <summary>A path typed in the current folder as the notebook names it, so that its outputs name no machine's folders.</summary>
    private static string RelativePath(string folder, string path) =>
        Path.GetRelativePath(folder, Path.TrimEndingDirectorySeparator(Path.GetFullPath(path))).Replace('\\', '/');

    private static Option<string> OptionFor(Parameter parameter) => new(parameter.Option)
    {
        Description = parameter.Help,
        HelpName = parameter.Kind,
        DefaultValueFactory = _ => parameter.DefaultText,
        Validators = { result => Validate(parameter, result) },
    };

    private static void Validate(Parameter parameter, OptionResult result)
    {
        if (result.Implicit || result.Tokens is not [var token]) return;
        if (!parameter.TryRead(token.Value, out _, out var error))
            result.AddError(error);
        else if (parameter.IsPath && !Path.Exists(token.Value))
            result.AddError(NotThere(parameter, token.Value));
    }

    private static string NotThere(Parameter parameter, string path) =>
        $"{parameter.Option} '{path}' is not there (default {parameter.DefaultText}, as the notebook sees it).";

    /// <summary>The file or folder may also be typed without its option's name.</summary>
    private static Argument<string> PlaceArgument(Parameter parameter, Option<string> option) => new(parameter.Name)
    {
        Description = $"The same as {parameter.Option}.",
        Arity = ArgumentArity.ZeroOrOne,
        Validators =
        {
            result =>
            {
                if (result.Tokens is not [var token]) return;
                if (token.Value.StartsWith('-'))
                    result.AddError($"'{token.Value}' is not an option.");
                else if (result.GetResult(option) is { Implicit: false })
                    result.AddError($"'{token.Value}' comes beside {parameter.Option}; give the file or folder once.");
                else if (!Path.Exists(token.Value))
                    result.AddError(NotThere(parameter, token.Value));
            },
        },
    };

    private static Option<string> OutputOption() => new("--out")
    {
        Description = "Folder for the report, the executed notebook and the tables.",
        HelpName = "folder",
        DefaultValueFactory = _ => "out",
    };

    private static Option<int> TimeoutOption() => new("--cell-timeout")
    {
        Description = "The longest that one cell may run.",
        HelpName = "seconds",
        DefaultValueFactory = _ => 300,
        CustomParser = result =>
        {
            var text = result.Tokens[0].Value;
            if (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) || seconds is < 1 or > 86_400)
                result.AddError($"--cell-timeout '{text}' is not a whole number of seconds from 1 to 86400 (default 300).");
            return seconds;
        },
    };
}
