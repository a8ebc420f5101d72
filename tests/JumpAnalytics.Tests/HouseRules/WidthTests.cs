namespace JumpAnalytics.Tests;

/// <summary>Lines that can be read beside another file.</summary>
public sealed class WidthTests
{
    /// <summary>Letters.</summary>
    private const int Widest = 140;

    private static readonly string[] _folders = ["lib", "tests", "data-demo", "notebooks"];

    [Fact]
    public void No_line_of_code_is_wider_than_140_letters()
    {
        var files = _folders.SelectMany(f => SourceFiles.Below(Path.Combine(ReferenceFiles.Root, f), "*.cs"))
            .Where(f => !f.StartsWith(ReferenceFiles.PathOf(""), StringComparison.Ordinal))
            .ToList();
        Assert.True(files.Count > 500);
        var wide = files.SelectMany(f => File.ReadLines(f).Select((line, i) => (File: f, Number: i + 1, line.Length)))
            .Where(l => l.Length > Widest)
            .Select(l => $"{Path.GetRelativePath(ReferenceFiles.Root, l.File)}:{l.Number}: {l.Length} letters")
            .ToList();
        Assert.True(wide.Count == 0, $"{wide.Count} lines are wider than {Widest} letters:\n{string.Join('\n', wide.Take(100))}");
    }
}
