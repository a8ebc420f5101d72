namespace JumpAnalytics.Tests;

/// <summary>
/// Texts that a person has read and approved, below <c>tests/reference</c>. With <c>JUMPANALYTICS_APPROVE=1</c> a test writes
/// what it finds instead of comparing; the change is then reviewed like any other.
/// </summary>
internal static class Approved
{
    private const string Variable = "JUMPANALYTICS_APPROVE";

    /// <summary>Lines of differences that a message shows.</summary>
    private const int MostShown = 80;

    /// <summary>Compares a text with the approved one and fails with the lines that differ.</summary>
    public static void Compare(string relative, string text)
    {
        var path = ReferenceFiles.PathOf(relative);
        if (Environment.GetEnvironmentVariable(Variable) == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, text);
            return;
        }
        var before = File.Exists(path) ? File.ReadAllText(path).ReplaceLineEndings("\n") : "";
        if (before == text) return;
        var changes = Changes(before.Split('\n'), text.Split('\n')).ToList();
        var more = changes.Count > MostShown ? $"\n… and {changes.Count - MostShown} lines more" : "";
        Assert.Fail($"tests/reference/{relative} differs from what was found (- approved, + found); {Variable}=1 approves it:\n"
            + string.Join('\n', changes.Take(MostShown)) + more);
    }

    /// <summary>
    /// The lines that are gone and those that are new, in order (longest common subsequence), each run of them below the last line
    /// without an indent before it.
    /// </summary>
    public static IEnumerable<string> Changes(string[] before, string[] after)
    {
        var start = before.Zip(after).TakeWhile(p => p.First == p.Second).Count();
        var end = before.Skip(start).Reverse().Zip(after.Skip(start).Reverse()).TakeWhile(p => p.First == p.Second).Count();
        var (rows, columns) = (before.Length - start - end, after.Length - start - end);
        var common = new int[rows + 1, columns + 1];
        for (var i = rows - 1; i >= 0; i--)
        {
            for (var j = columns - 1; j >= 0; j--)
            {
                common[i, j] = before[start + i] == after[start + j]
                    ? common[i + 1, j + 1] + 1
                    : Math.Max(common[i + 1, j], common[i, j + 1]);
            }
        }
        string? heading = null;
        for (var (i, j) = (0, 0); i < rows || j < columns;)
        {
            if (i < rows && j < columns && before[start + i] == after[start + j])
            {
                (i, j) = (i + 1, j + 1);
                continue;
            }
            var above = after.Take(start + j).LastOrDefault(IsHeading);
            if (above is not null && above != heading) yield return "  " + (heading = above);
            if (i < rows && (j == columns || common[i + 1, j] >= common[i, j + 1]))
            {
                yield return "- " + before[start + i++];
                continue;
            }
            var line = after[start + j++];
            if (IsHeading(line)) heading = line;
            yield return "+ " + line;
        }
    }

    private static bool IsHeading(string line) => line.Length > 0 && line[0] != ' ';
}
