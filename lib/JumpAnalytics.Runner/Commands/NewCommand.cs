using System.CommandLine;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Runner;

/// <summary>Writes a starter notebook for a question of one's own.</summary>
internal static partial class NewCommand
{
    public const string Name = "new";
    private const string DemoData = "../data-demo";

    private static readonly Argument<string> _name = new("name")
    {
        Description = "Name of the notebook: lower case letters, digits and hyphens.",
        Validators = { result => { if (result.Tokens is [var token] && (!NotebookName().IsMatch(token.Value) || token.Value == "all"))
            result.AddError($"'{token.Value}' is no name for a notebook: lower case letters, digits and hyphens, and not 'all'."); } },
    };

    private static readonly Argument<string?> _data = new("data")
    {
        Description = "Folder of the records; the demo season when left out.",
        Arity = ArgumentArity.ZeroOrOne,
        Validators = { result => { if (result.Tokens is [var token] && !Path.Exists(token.Value))
            result.AddError($"'{token.Value}' is not there."); } },
    };

    public static Command For(Places places)
    {
        var command = new Command(Name, "Writes a starter notebook for a question of your own.") { _name, _data };
        command.SetAction(parsed =>
        {
            var folder = places.ForNew;
            var file = Path.Combine(folder, parsed.GetRequiredValue(_name) + ".ipynb");
            if (File.Exists(file)) throw new NotebookException($"{file} is there already; take another name.");
            var data = parsed.GetValue(_data) is { } typed
                ? Path.GetRelativePath(folder, Path.GetFullPath(typed)).Replace('\\', '/') : DemoData;
            Directory.CreateDirectory(folder);
            if (!places.IsCheckout) BringAlong(places.Home, folder, withDemo: data == DemoData);
            File.WriteAllText(file, Starter(parsed.GetRequiredValue(_name), data));
            Console.WriteLine($"Notebook: {Path.GetRelativePath(".", file)}\n"
                + $"Open it in Jupyter, or: {RunCommand.Name} {parsed.GetRequiredValue(_name)}");
            return 0;
        });
        return command;
    }

    /// <summary>
    /// An installed program gives the library, and the demo season where it is asked for, to the folder that the notebook looks into.
    /// </summary>
    private static void BringAlong(string home, string folder, bool withDemo)
    {
        Copy(Places.LibraryOf(home), Places.LibraryOf(folder));
        if (withDemo && !Directory.Exists(Path.Combine(folder, DemoData)))
            Copy(Path.Combine(home, DemoData), Path.Combine(folder, DemoData));

        static void Copy(string from, string to)
        {
            foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
            {
                var place = Path.Combine(to, Path.GetRelativePath(from, file));
                Directory.CreateDirectory(Path.GetDirectoryName(place)!);
                File.Copy(file, place, overwrite: true);
            }
        }
    }

    private static string Starter(string name, string data)
    {
        using var reader = new StreamReader(typeof(NewCommand).Assembly.GetManifestResourceStream("starter.ipynb")!);
        var title = char.ToUpperInvariant(name[0]) + name[1..].Replace('-', ' ');
        return reader.ReadToEnd().Replace("STARTER-TITLE", title, StringComparison.Ordinal)
            .Replace($"\\\"{DemoData}\\\"", JsonEncodedText.Encode(LibraryCall.Literal(data)).ToString(), StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\A[a-z0-9][a-z0-9-]{0,59}\z")]
    private static partial Regex NotebookName();
}
