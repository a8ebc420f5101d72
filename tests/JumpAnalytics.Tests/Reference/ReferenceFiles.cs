namespace JumpAnalytics.Tests;

/// <summary>Finds and reads the reference values below <c>tests/reference</c>.</summary>
internal static class ReferenceFiles
{
    private static readonly Lazy<string> _root = new(FindRoot);

    /// <summary>Folder that holds the solution.</summary>
    public static string Root => _root.Value;

    /// <summary>Absolute path of a file or folder below <c>tests/reference</c>.</summary>
    public static string PathOf(string relative) => Path.Combine(Root, "tests", "reference", relative);

    /// <summary>
    /// Rows of a plain comma-separated file without quotes, by the names of its header; lines that begin with # are comments.
    /// </summary>
    public static IEnumerable<IReadOnlyDictionary<string, string>> Rows(string relative)
    {
        string[]? header = null;
        foreach (var line in File.ReadLines(PathOf(relative)))
        {
            if (line.Length == 0 || line[0] == '#') continue;
            var fields = line.Split(',');
            if (header is null)
            {
                header = fields;
                continue;
            }
            if (fields.Length != header.Length)
                throw new FormatException($"{relative}: {fields.Length} fields under {header.Length} headers: {line}");
            yield return header.Zip(fields).ToDictionary(p => p.First, p => p.Second);
        }
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "JumpAnalytics.sln"))) return folder.FullName;
        }
        throw new DirectoryNotFoundException($"No JumpAnalytics.sln above {AppContext.BaseDirectory}.");
    }
}
