using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Events;

namespace JumpAnalytics.Runner;

/// <summary>Says of a failed submission what went wrong and in which line of which cell.</summary>
internal static partial class KernelErrors
{
    public static CellError From(CommandFailed failed, IEnumerable<KernelEvent> events, int number)
    {
        var diagnostics = events.OfType<DiagnosticsProduced>().SelectMany(produced => produced.Diagnostics)
            .Where(diagnostic => diagnostic.Severity == DiagnosticSeverity.Error).ToList();
        if (failed.Exception is CodeSubmissionCompilationErrorException && diagnostics.Count > 0)
            return FromCompiler(diagnostics, number);

        return failed.Exception is { } exception ? From(exception) : new CellError("Error", failed.Message);
    }

    public static CellError From(Exception exception)
    {
        var stack = CellFrame().Replace(exception.StackTrace ?? "", " in cell ${cell}, line ${line}");
        var places = CellFrame().Matches(exception.StackTrace ?? "").Select(match => new CellPlace(
            int.Parse(match.Groups["cell"].Value, CultureInfo.InvariantCulture),
            int.Parse(match.Groups["line"].Value, CultureInfo.InvariantCulture)));
        var message = exception.Message;
        for (var cause = exception.InnerException; cause is not null; cause = cause.InnerException)
            message += $"\ncaused by {cause.GetType().FullName}: {cause.Message}";
        return new CellError(exception.GetType().FullName!, message, [.. places], stack.ReplaceLineEndings("\n").Split('\n'));
    }

    private static CellError FromCompiler(List<Microsoft.DotNet.Interactive.Diagnostic> diagnostics, int number)
    {
        var lines = diagnostics.Select(diagnostic => diagnostic.LinePositionSpan.Start.Line + 1).ToList();
        var messages = diagnostics.Select((diagnostic, i) => $"{diagnostic.Code} in line {lines[i]}: {diagnostic.Message}");
        return new CellError("CompilationError", string.Join("\n", messages), [new CellPlace(number, lines[0])], []);
    }

    [GeneratedRegex(@" in [^\r\n]*cell-(?<cell>\d+):line (?<line>\d+)")]
    private static partial Regex CellFrame();
}
