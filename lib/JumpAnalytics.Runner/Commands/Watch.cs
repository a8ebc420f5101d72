namespace JumpAnalytics.Runner;

/// <summary>Runs something, and again whenever files change.</summary>
internal static class Watch
{
    private static readonly TimeSpan _look = TimeSpan.FromMilliseconds(500);

    /// <summary>Runs once, or for ever; then a failure is told and the next change waited for.</summary>
    /// <param name="forever">Whether to go on.</param>
    /// <param name="paths">Files, and folders with all below them.</param>
    /// <param name="run">What to run.</param>
    public static async Task RunAsync(bool forever, IReadOnlyList<string> paths, Func<Task> run)
    {
        if (!forever)
        {
            await run();
            return;
        }

        while (true)
        {
            var before = Seen(paths);
            try
            {
                await run();
            }
            catch (Exception e) when (e is NotebookException or IOException or UnauthorizedAccessException)
            {
                await Console.Error.WriteLineAsync(e.Message);
            }

            Console.WriteLine($"Waiting for a change of {string.Join(", ", paths.Select(Path.GetFileName))}. Ctrl-C ends.");
            while (Seen(paths) == before) await Task.Delay(_look);
            for (var last = Seen(paths); ; last = Seen(paths)) // a file may still be growing
            {
                await Task.Delay(_look);
                if (Seen(paths) == last) break;
            }
        }
    }

    /// <summary>Name, length and time of every file, in one text.</summary>
    private static string Seen(IReadOnlyList<string> paths)
    {
        try
        {
            var files = paths.SelectMany(p =>
                Directory.Exists(p) ? new DirectoryInfo(p).EnumerateFiles("*", SearchOption.AllDirectories) : [new FileInfo(p)]);
            return string.Join('\n', files.Where(f => f.Exists).Select(f => $"{f.FullName} {f.Length} {f.LastWriteTimeUtc.Ticks}")
                .Order(StringComparer.Ordinal));
        }
        catch (IOException)
        {
            return ""; // a file went while it was looked at
        }
    }
}
