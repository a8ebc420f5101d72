using System.Text.RegularExpressions;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace JumpAnalytics.Runner;

/// <summary>What is checked before a notebook runs, because the host would hang, skip or misnumber it.</summary>
internal static partial class Lint
{
    private static readonly string[] Magics = ["#!import", "#!set", "#!csharp", "#!who", "#!whos"];

    /// <summary>Refuses a notebook that cannot run well; every objection is in the message.</summary>
    public static void Check(Notebook notebook, string folder)
    {
        var objections = notebook.CodeCells.SelectMany((cell, i) => Code(cell, i + 1, folder))
            .Concat(notebook.Cells.Where(cell => cell.IsMarkdown).SelectMany(Images)).ToList();
        if (objections.Count > 0)
            throw new NotebookException($"{notebook.Name}.ipynb cannot run:\n  " + string.Join("\n  ", objections));
    }

    private static IEnumerable<string> Code(NotebookCell cell, int number, string folder)
    {
        var lines = cell.Source.Split('\n').Select(line => line.TrimEnd()).ToList();
        var hasCode = lines.Any(line => line.Length > 0 && !line.StartsWith("#!", StringComparison.Ordinal));
        for (var i = 0; i < lines.Count; i++)
        {
            if (Directive().Match(lines[i]) is { Success: true } match
                && Objection(match.Value, lines[i], number, hasCode, folder) is { } objection)
                yield return $"cell {number}, line {i + 1}: {objection}";
        }
    }

    private static string? Objection(string directive, string line, int number, bool hasCode, string folder)
    {
        if (directive != "#r")
            return !Magics.Contains(directive) ? $"'{directive}' is not understood here; known are #r, {string.Join(", ", Magics)}."
                : hasCode ? $"'{directive}' must stand in a cell without code, else line numbers in errors are wrong." : null;

        if (Reference().Match(line) is not { Success: true } reference)
            return """write #r "relative/path.dll" and nothing behind it: a comment there stops the host.""";
        if (number > 1)
            return "all #r belong into the first code cell.";

        var path = reference.Groups["path"].Value;
        if (path.Contains(':', StringComparison.Ordinal) || Path.IsPathRooted(path))
            return $"'{path}' is not a relative path; packages cannot be restored here.";
        return File.Exists(Path.Combine(folder, path)) ? null
            : $"'{path}' is not there; build the solution first: dotnet build JumpAnalytics.sln -c Release";
    }

    private static IEnumerable<string> Images(NotebookCell cell) =>
        MarkdownText.Parse(cell.Source).Descendants<LinkInline>()
            .Where(link => link.IsImage && AttachedImage(cell, link) is null)
            .Select(link => $"image '{link.Url}': attach it to its markdown cell, the report stands alone.");

    /// <summary>The data address of an image that is attached to its cell, or null.</summary>
    public static string? AttachedImage(NotebookCell cell, LinkInline link) =>
        link.Url?.Split("attachment:") is ["", var name] ? cell.Attachment(Uri.UnescapeDataString(name)) : null;

    [GeneratedRegex(@"^\s*(#!\S*|#r\b|#i\b|#load\b)")]
    private static partial Regex Directive();

    [GeneratedRegex("""^\s*#r "(?<path>[^"]+)"$""")]
    private static partial Regex Reference();
}
