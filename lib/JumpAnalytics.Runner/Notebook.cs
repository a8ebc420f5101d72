using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace JumpAnalytics.Runner;

/// <summary>
/// A notebook document, nbformat 4.5. It is kept as the JSON it was read from, so that whatever this program does not
/// know (other metadata, attachments, raw cells) is written back as it was.
/// </summary>
internal sealed class Notebook
{
    private const int LongestTitle = 60;

    private static readonly JsonSerializerOptions Format = new()
    {
        WriteIndented = true,
        IndentSize = 1,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly JsonObject _json;

    private Notebook(string name, JsonObject json)
    {
        Name = name;
        _json = json;
        Cells = [.. json["cells"]!.AsArray().Select(cell => new NotebookCell(cell!.AsObject()))];
        CodeCells = [.. Cells.Where(cell => cell.IsCode)];
    }

    /// <summary>The file's name without its extension.</summary>
    public string Name { get; }

    /// <summary>Whether the command for all notebooks runs it.</summary>
    public bool IsInAll =>
        (_json["metadata"] as JsonObject)?["jumpanalytics"] is not JsonObject own || own["all"]?.GetValueKind() != JsonValueKind.False;

    /// <summary>All cells, in order.</summary>
    public IReadOnlyList<NotebookCell> Cells { get; }

    /// <summary>The code cells, in order. Cell 1 in a message is the first of them.</summary>
    public IReadOnlyList<NotebookCell> CodeCells { get; }

    /// <summary>The first heading of level one, else the first heading, else the name.</summary>
    public string Title
    {
        get
        {
            var headings = Cells.Where(cell => cell.IsMarkdown).SelectMany(cell => MarkdownText.Headings(cell.Source)).ToList();
            return (headings.Find(heading => heading.Level == 1) ?? headings.FirstOrDefault())?.PlainText() ?? Name;
        }
    }

    /// <summary>The first sentence of the text below the title; null when there is none.</summary>
    public string? FirstSentence =>
        Cells.Where(cell => cell.IsMarkdown).Select(cell => MarkdownText.FirstSentence(cell.Source)).FirstOrDefault();

    /// <summary>The one cell tagged <c>parameters</c>, or null.</summary>
    public NotebookCell? ParametersCell =>
        CodeCells.Where(cell => cell.Tags.Contains(NotebookCell.ParametersTag)).Take(2).ToList() switch
        {
            [] => null,
            [var only] => only,
            _ => throw new NotebookException($"{Name}: more than one cell is tagged '{NotebookCell.ParametersTag}'."),
        };

    /// <summary>Reads a notebook file.</summary>
    public static Notebook Read(string path) =>
        Parse(Path.GetFileNameWithoutExtension(path), File.ReadAllText(path));

    /// <summary>Reads a notebook from its JSON text.</summary>
    public static Notebook Parse(string name, string text)
    {
        try
        {
            var json = JsonNode.Parse(text)!.AsObject();
            if ((int?)json["nbformat"] != 4 || json["cells"] is not JsonArray cells)
                throw new NotebookException($"{name}: not a notebook of format 4.");

            for (var i = 0; i < cells.Count; i++)
                cells[i]!["id"] ??= $"cell-{i + 1}";
            json["nbformat_minor"] = Math.Max(5, (int?)json["nbformat_minor"] ?? 0);
            return new Notebook(name, json);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or NullReferenceException or FormatException)
        {
            throw new NotebookException($"{name}: not a notebook: {e.Message}");
        }
    }

    /// <summary>A copy without outputs.</summary>
    public Notebook WithoutOutputs()
    {
        var copy = new Notebook(Name, _json.DeepClone().AsObject());
        foreach (var cell in copy.CodeCells)
            cell.Clear();
        return copy;
    }

    /// <summary>
    /// A copy in which the code cell <paramref name="source"/>, tagged <c>injected-parameters</c>, follows the
    /// parameters cell and replaces any earlier one. An empty source only removes.
    /// </summary>
    public Notebook WithInjectedParameters(string source)
    {
        var json = _json.DeepClone().AsObject();
        var cells = json["cells"]!.AsArray();
        cells.RemoveAll(cell => new NotebookCell(cell!.AsObject()).Tags.Contains(NotebookCell.InjectedTag));
        if (source.Length > 0)
        {
            var parameters = cells.ToList().FindIndex(cell => new NotebookCell(cell!.AsObject()).Tags.Contains(NotebookCell.ParametersTag));
            cells.Insert(parameters + 1, NotebookCell.Injected(source));
        }

        return new Notebook(Name, json);
    }

    /// <summary>
    /// What to call a code cell: the nearest heading above it, else its first line of comment or code.
    /// </summary>
    public string TitleOf(NotebookCell cell)
    {
        var heading = Cells.TakeWhile(other => other != cell).Where(other => other.IsMarkdown)
            .SelectMany(other => MarkdownText.Headings(other.Source)).LastOrDefault();
        var title = heading?.PlainText()
            ?? cell.Source.Split('\n').Select(line => line.TrimStart('/', ' ').Trim()).FirstOrDefault(line => line.Length > 0)
            ?? "(empty)";
        return title.Length <= LongestTitle ? title : title[..LongestTitle] + "…";
    }

    /// <summary>The file's text: line feeds, indent one, a closing line feed.</summary>
    public override string ToString() => _json.ToJsonString(Format) + "\n";
}
