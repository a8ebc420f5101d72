using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests;

/// <summary>The source files of the library, and what they declare and name.</summary>
internal static partial class SourceFiles
{
    public static string Lib { get; } = Path.Combine(ReferenceFiles.Root, "lib");

    /// <summary>Files below lib with an extension, without what a build makes.</summary>
    public static IEnumerable<string> Below(string folder, string pattern) => Directory
        .EnumerateFiles(folder, pattern, SearchOption.AllDirectories)
        .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(p => p is "obj" or "bin"))
        .Order(StringComparer.Ordinal);

    /// <summary>Code without comments and texts; what stands in the braces of an interpolated text stays.</summary>
    public static string Code(string file) =>
        Plain().Replace(Interpolated().Replace(Comment().Replace(File.ReadAllText(file), ""), m => " " + string.Join(' ', Hole().Matches(m.Value).Select(h => h.Value)) + " "), "\"\"");

    /// <summary>Names of the types that a piece of code declares, private ones apart: no other file can name them.</summary>
    public static IEnumerable<string> Declared(string code) => Declaration().Matches(code).Select(m => m.Groups["name"].Value);

    public static HashSet<string> Words(string code) => [.. Word().Matches(code).Select(m => m.Value)];

    [GeneratedRegex(@"//[^\n]*|/\*.*?\*/", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex("\\$\"(?:\\\\.|[^\"\\\\\\n{]|\\{\\{|\\{[^{}]*\\})*\"")]
    private static partial Regex Interpolated();

    [GeneratedRegex("(?<!\\{)\\{[^{}]*\\}")]
    private static partial Regex Hole();

    [GeneratedRegex("\"(?:\\\\.|[^\"\\\\\\n])*\"")]
    private static partial Regex Plain();

    [GeneratedRegex(@"(?<!\bprivate\s+(?:(?:sealed|static|readonly|abstract|record)\s+)*)\b(?:class|record\s+struct|record|struct|enum|interface)\s+(?<name>[A-Z]\w*)")]
    private static partial Regex Declaration();

    [GeneratedRegex(@"(?<![\w.])[A-Z]\w*|(?<=\bJumpAnalytics\.)[A-Z]\w*")]
    private static partial Regex Word();
}
