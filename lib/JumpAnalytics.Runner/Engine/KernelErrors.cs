using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Events;

namespace JumpAnalytics.Runner;

/// <summary>Says of a failed submission what went wrong and in which line of which cell.</summary>
internal static partial class KernelErrors
{
    private const int MostDiagnostics = 5;

    public static CellError From(CommandFailed failed, IEnumerable<KernelEvent> events, int number)
    {
        var diagnostics = events.OfType<DiagnosticsProduced>().SelectMany(produced => produced.Diagnostics)
            .Where(diagnostic => diagnostic.Severity == DiagnosticSeverity.Error).ToList();
        if (failed.Exception is CodeSubmissionCompilationErrorException && diagnostics.Count > 0)
            return FromCompiler(diagnostics, number);

        return failed.Exception is { } exception ? From(exception) : CellError.Of("Error", failed.Message);
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
        static int Line(Microsoft.DotNet.Interactive.Diagnostic diagnostic) => diagnostic.LinePositionSpan.Start.Line + 1;
        var messages = diagnostics.Take(MostDiagnostics)
            .Select(diagnostic => $"{diagnostic.Code} in line {Line(diagnostic)}: {diagnostic.Message}");
        var more = diagnostics.Count > MostDiagnostics ? $"\nand {diagnostics.Count - MostDiagnostics} more" : "";
        return new CellError("CompilationError", string.Join("\n", messages) + more, [new CellPlace(number, Line(diagnostics[0]))], []);
    }

    [GeneratedRegex(@" in [^\r\n]*cell-(?<cell>\d+):line (?<line>\d+)")]
    private static partial Regex CellFrame();
}
