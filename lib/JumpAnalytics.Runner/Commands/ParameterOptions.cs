using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace JumpAnalytics.Runner;

/// <summary>The options of a command: one for each parameter of its notebooks, where to write, and how long a cell may take.</summary>
internal sealed class ParameterOptions
{
    private readonly Dictionary<Parameter, Option<string>> _options;
    private readonly Argument<string>? _place;
    private readonly Option<string> _output = OutputOption();
    private readonly Option<int> _timeout = TimeoutOption();
    private readonly Option<bool> _watch =
        new("--watch") { Description = "Run again whenever the data or the notebook change, until stopped." };

    private ParameterOptions(Dictionary<Parameter, Option<string>> options, Argument<string>? place) =>
        (_options, _place) = (options, place);

    /// <summary>Gives a command its options; a parameter whose option is taken is refused.</summary>
    public static ParameterOptions AddTo(Command command, IReadOnlyList<Parameter> parameters)
    {
        var options = parameters.ToDictionary(parameter => parameter, OptionFor);
        var path = options.Keys.FirstOrDefault(parameter => parameter.IsPath);
        var made = new ParameterOptions(options, path is null ? null : PlaceArgument(path, options[path]));
        foreach (var option in (IEnumerable<Option>)[.. options.Values, made._output, made._timeout, made._watch])
        {
            if (option.Name is "--help" or "--version" or "--notebooks" || command.Options.Any(other => other.Name == option.Name))
                throw new NotebookException($"{command.Name}: a parameter cannot be called {option.Name}, that option is taken.");
            command.Add(option);
        }

        if (made._place is not null) command.Add(made._place);
        return made;
    }

    /// <summary>Folder for reports, notebooks and tables.</summary>
    public string Output(ParseResult parsed) => parsed.GetRequiredValue(_output);

    /// <summary>The longest that one cell may run; without end unless asked for, for a large log takes what it takes.</summary>
    public TimeSpan Timeout(ParseResult parsed) =>
        parsed.GetRequiredValue(_timeout) is > 0 and var seconds
            ? TimeSpan.FromSeconds(seconds) : System.Threading.Timeout.InfiniteTimeSpan;

    /// <summary>Whether to run again when something changes.</summary>
    public bool IsWatched(ParseResult parsed) => parsed.GetValue(_watch);

    /// <summary>The files and folders that the notebook reads.</summary>
    public IEnumerable<string> Paths(ParseResult parsed, string folder) => _options.Where(o => o.Key.IsPath)
        .Select(o => Typed(parsed, o.Key, o.Value) is { } typed
            ? Path.GetFullPath(typed) : Path.GetFullPath(Path.Combine(folder, (string)o.Key.Default)));

    /// <summary>The statements that set what the user asked for and what differs from a notebook's own default.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="own">Parameters of the notebook; options that it does not know are left alone.</param>
    /// <param name="folder">Folder of the notebook.</param>
    public string Assignments(ParseResult parsed, IReadOnlyList<Parameter> own, string folder)
    {
        var statements = new List<string>();
        foreach (var (parameter, option) in _options)
        {
            var typed = Typed(parsed, parameter, option);
            if (typed is null || own.FirstOrDefault(p => p.Name == parameter.Name) is not { } mine
                || !mine.TryRead(typed, out var value, out _))
                continue;
            if (mine.IsPath)
                value = RelativePath(folder, (string)value);
            if (!value.Equals(mine.Default))
                statements.Add(mine.Assign(value));
        }

        return string.Join("\n", statements);
    }

    private string? Typed(ParseResult parsed, Parameter parameter, Option<string> option) =>
        parsed.GetResult(option) is { Implicit: false } ? parsed.GetRequiredValue(option)
        : parameter.IsPath && _place is not null ? parsed.GetValue(_place) : null;

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
        Description = "The longest that one cell may run; 0 for no limit.",
        HelpName = "seconds",
        DefaultValueFactory = _ => 0,
        CustomParser = result =>
        {
            var text = result.Tokens[0].Value;
            if (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) || seconds is < 0 or > 86_400)
                result.AddError($"--cell-timeout '{text}' is not a whole number of seconds from 0 to 86400 (default 0, no limit).");
            return seconds;
        },
    };
}
