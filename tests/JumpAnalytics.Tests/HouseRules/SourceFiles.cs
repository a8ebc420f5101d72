namespace JumpAnalytics.Tests;

/// <summary>The source files of the library and of its tests.</summary>
internal static class SourceFiles
{
    public static string Lib { get; } = Path.Combine(ReferenceFiles.Root, "lib");

    /// <summary>Files below a folder that match a pattern, in order of path, without what a build makes.</summary>
    public static IEnumerable<string> Below(string folder, string pattern) => Directory
        .EnumerateFiles(folder, pattern, SearchOption.AllDirectories)
        .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(p => p is "obj" or "bin"))
        .Order(StringComparer.Ordinal);
}
