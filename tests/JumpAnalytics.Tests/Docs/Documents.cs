using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests.Docs;

/// <summary>The documents of the project, and what is written in them as code.</summary>
internal static partial class Documents
{
    /// <summary>The four documents, by their paths below the folder of the solution.</summary>
    public static IReadOnlyList<string> All { get; } = ["README.md", "DEVELOPERS.md", "notebooks/README.md", "tests/EVIDENCE.md"];

    /// <summary>Absolute path of a file named by its path below the folder of the solution.</summary>
    public static string At(string path) => Path.Combine([ReferenceFiles.Root, .. path.Split('/')]);

    /// <summary>Text of a file.</summary>
    public static string Text(string path) => File.ReadAllText(At(path));

    /// <summary>Lines of the blocks of code that name no language: commands.</summary>
    public static IEnumerable<string> Blocks(string document) => Lines(document).Where(l => l.Block == "").Select(l => l.Text);

    /// <summary>What is written between single backticks outside of blocks.</summary>
    public static IEnumerable<string> Spans(string document) =>
        Lines(document).Where(l => l.Block is null).SelectMany(l => Span().Matches(l.Text)).Select(m => m.Groups[1].Value);

    /// <summary>The commands of a document, each in its plain form (see <see cref="Plain"/>).</summary>
    public static IEnumerable<string> Commands(string document) => Blocks(document).Concat(Spans(document).Where(IsCommand)).Select(Plain);

    /// <summary>Whether what is written between backticks is a command.</summary>
    public static bool IsCommand(string span) => span is "list" or "explain" || Command().IsMatch(span);

    /// <summary>
    /// A command in one form, however it was written: the runner's begin with <c>jumpanalytics</c>, and a folder of the user
    /// is the demo season.
    /// </summary>
    public static string Plain(string command)
    {
        var plain = command.Trim().Replace(@"\|", "|", StringComparison.Ordinal) // as a table has it
            .Replace("path/to/folder", "data-demo", StringComparison.Ordinal);
        return RunnerStart().Replace(RunnerWord().Replace(plain, "jumpanalytics $1"), "jumpanalytics ").Trim();
    }

    /// <summary>Lines that are not empty, each with the language of the block of code it is in, null outside of blocks.</summary>
    private static List<(string? Block, string Text)> Lines(string document)
    {
        const string Fence = "```";
        var lines = new List<(string?, string)>();
        string? block = null;
        foreach (var line in Text(document).Split('\n').Where(l => l.Length > 0))
        {
            if (line.StartsWith(Fence, StringComparison.Ordinal)) block = block is null ? line[Fence.Length..] : null;
            else lines.Add((block, line));
        }
        return lines;
    }

    /// <summary>The words of a command; what is between quotes is one word.</summary>
    public static string[] Words(string command) => [.. Word().Matches(command).Select(m => m.Value.Trim('"', '\''))];

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Span();

    [GeneratedRegex(@"^([A-Z_]+=\S+ )?(dotnet |\.ci/|jumpanalytics |(-- )?run [a-z]|check \S|explain \S|new [a-z])")]
    private static partial Regex Command();

    [GeneratedRegex(@"^(?:-- )?((?:run|check|explain|new|list)\b)")]
    private static partial Regex RunnerWord();

    [GeneratedRegex(@"^(runner |dotnet run --project lib/JumpAnalytics\.Runner -c Release( -- )?)")]
    private static partial Regex RunnerStart();

    [GeneratedRegex("(?:[^\\s\"']|\"[^\"]*\"|'[^']*')+")]
    private static partial Regex Word();
}
