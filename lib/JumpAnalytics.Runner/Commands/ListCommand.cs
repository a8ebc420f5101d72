using System.CommandLine;

namespace JumpAnalytics.Runner;

/// <summary>Names the notebooks.</summary>
internal static class ListCommand
{
    public const string Name = "list";

    public static Command For(Places places)
    {
        var command = new Command(Name, "Names the notebooks and what each answers.");
        command.SetAction(parsed =>
        {
            var lines = places.Notebooks.Select(file => (Name: Path.GetFileNameWithoutExtension(file), Words: Words(file),
                IsOwn: places.Own is { } own && file.StartsWith(own, StringComparison.Ordinal))).ToList();
            var width = lines.Select(l => l.Name.Length).DefaultIfEmpty().Max();
            if (lines.Count == 0) Console.WriteLine("There is no notebook.");
            foreach (var line in lines) Console.WriteLine($"{line.Name.PadRight(width)}  {line.Words}{(line.IsOwn ? " (yours)" : "")}");
            return 0;
        });
        return command;
    }

    private static string Words(string file)
    {
        try
        {
            var notebook = Notebook.Read(file);
            return notebook.Title + (notebook.FirstSentence is { } first ? $". {first}" : "")
                + (notebook.IsInAll ? "" : " (not in 'run all')");
        }
        catch (NotebookException e)
        {
            return "Cannot be run: " + e.Message;
        }
    }
}
