using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace JumpAnalytics.Runner;

/// <summary>A notebook that ran, to its end or to the cell that failed.</summary>
internal sealed record NotebookRun(Notebook Notebook, string? Failure)
{
    /// <summary>After so long a cell that still runs is named, and after each such time again.</summary>
    private static readonly TimeSpan _patience = TimeSpan.FromSeconds(60);

    /// <summary>Runs the code cells in order until one fails; one line of progress for each, and more for one that takes minutes.</summary>
    public static async Task<NotebookRun> ExecuteAsync(Notebook notebook, ICellEngine engine, TextWriter progress)
    {
        var executed = notebook.WithoutOutputs();
        var cells = executed.CodeCells;
        for (var i = 0; i < cells.Count; i++)
        {
            var number = i + 1;
            var clock = Stopwatch.StartNew();
            var running = engine.RunAsync(number, cells[i].Source);
            while (await Task.WhenAny(running, Task.Delay(_patience)) != running)
                progress.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"[{number}/{cells.Count}] {executed.TitleOf(cells[i])} … still running after {clock.Elapsed.TotalSeconds:0} s"));
            var run = await running;
            cells[i].SetOutputs(number, run.Outputs!);
            var error = run.Error ?? TableError(executed);
            progress.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"[{number}/{cells.Count}] {executed.TitleOf(cells[i])} … "
                    + $"{(error is null ? "" : "failed after ")}{clock.Elapsed.TotalSeconds:0.0} s"));
            if (error is null) continue;

            cells[i].SetOutputs(number, [.. run.Outputs!, error.ToOutput()]);
            return new NotebookRun(executed, Describe(executed, number, error));
        }

        return new NotebookRun(executed, null);
    }

    /// <summary>A table against the contract is an error of the cell that gave it.</summary>
    private static CellError? TableError(Notebook notebook)
    {
        try
        {
            Tables.Of(notebook);
            Tables.FilesOf(notebook);
            return null;
        }
        catch (NotebookException e)
        {
            return CellError.Of("TableError", e.Message);
        }
    }

    private static string Describe(Notebook notebook, int number, CellError error)
    {
        var text = new StringBuilder($"{notebook.Name}.ipynb, cell {number} ({notebook.TitleOf(notebook.CodeCells[number - 1])})");
        var place = error.Places.FirstOrDefault();
        if (place is not null)
            text.Append($", line {place.Line}{(place.Cell == number ? "" : $" of cell {place.Cell}")}");
        if (place?.Cell != number && error.Places.FirstOrDefault(outer => outer.Cell == number) is { } caller)
            text.Append($", called from its line {caller.Line}");
        if (place is not null)
            text.Append($"\n  {place.Line} | {SourceLine(notebook, place)}");
        return $"{error.Message}\n\n{error.Type} in {text}";
    }

    private static string SourceLine(Notebook notebook, CellPlace place) =>
        notebook.CodeCells[place.Cell - 1].Source.Split('\n').ElementAtOrDefault(place.Line - 1)?.Trim() ?? "";
}
