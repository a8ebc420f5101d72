namespace JumpAnalytics.Tests.Reference;

/// <summary>The reference values under <c>tests/reference</c>.</summary>
internal static class ReferenceFiles
{
    private static readonly string Root = FindRoot();

    public static string PathOf(string relative) => Path.Combine(Root, relative);

    /// <summary>Rows of a comma table without quotes, by the names in its first line, without blank lines.</summary>
    public static IEnumerable<IReadOnlyDictionary<string, string>> Rows(string relative)
    {
        string[]? names = null;
        var number = 0;
        foreach (var line in File.ReadLines(PathOf(relative)))
        {
            number++;
            if (string.IsNullOrWhiteSpace(line))
                continue;

            var cells = line.Split(',');
            if (names is null)
            {
                names = cells;
                continue;
            }

            if (cells.Length != names.Length)
                throw new InvalidDataException($"{relative} line {number}: {cells.Length} cells, not {names.Length}.");

            yield return names.Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second);
        }
    }

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "JumpAnalytics.sln")))
                return Path.Combine(folder.FullName, "tests", "reference");
        }

        throw new DirectoryNotFoundException($"No JumpAnalytics.sln above {AppContext.BaseDirectory}.");
    }
}
