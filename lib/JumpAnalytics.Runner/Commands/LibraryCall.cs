using System.Text.Json.Nodes;
using Microsoft.CodeAnalysis.CSharp;

namespace JumpAnalytics.Runner;

/// <summary>
/// Asks the library something and gives what it prints. It runs where notebooks run, in a process of its own: this
/// program never loads the library.
/// </summary>
internal static class LibraryCall
{
    private static readonly TimeSpan _longest = TimeSpan.FromMinutes(10);

    /// <summary>Runs statements that print.</summary>
    /// <param name="places">Where the library is found.</param>
    /// <param name="code">The statements; the library's names are known.</param>
    /// <exception cref="NotebookException">The library is not built, or the statements failed; the message is the library's.</exception>
    public static async Task<string> PrintAsync(Places places, string code)
    {
        var library = Places.LibraryOf(places.Home);
        if (!File.Exists(Path.Combine(library, "JumpAnalytics.dll")))
            throw new NotebookException($"The library is not in {library}; build it first: dotnet build JumpAnalytics.sln -c Release");
        using var engine = await ChildEngine.StartAsync(library, _longest);
        var loaded = await engine.RunAsync(1, "#r \"JumpAnalytics.dll\"\nusing JumpAnalytics;");
        var run = loaded.Error is null ? await engine.RunAsync(2, code) : loaded;
        return run.Error is { } error ? throw new NotebookException(error.Message)
            : string.Concat(run.Outputs.OfType<JsonObject>().Where(o => (string?)o["name"] == "stdout")
                .Select(o => NotebookCell.Text(o["text"])));
    }

    /// <summary>A text as a literal of the language.</summary>
    public static string Literal(string text) => SymbolDisplay.FormatLiteral(text, quote: true);
}
