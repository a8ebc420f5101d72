using System.Diagnostics;
using JumpAnalytics.Notebooks.Tests.Runner;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The notebooks in real Jupyter with the .NET kernel. Needs both, so it runs by its own command alone (DEVELOPERS.md).</summary>
[Trait("Category", "Long")]
public sealed class JupyterTests
{
    public static TheoryData<string> All =>
        [.. Directory.GetFiles(Path.Combine(Workshop.Root, "notebooks"), "*.ipynb").Select(f => Path.GetFileNameWithoutExtension(f))
            .Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(All))]
    public async Task Tables_and_files_are_those_of_the_runner(string notebook)
    {
        var runner = ReportRun.OnceAsync(notebook);
        var folder = Directory.CreateTempSubdirectory("jump-jupyter-").FullName;
        try
        {
            var start = new ProcessStartInfo("jupyter", ["nbconvert", "--to", "notebook", "--execute", "--ExecutePreprocessor.timeout=600",
                $"{notebook}.ipynb", "--output-dir", folder])
            {
                WorkingDirectory = Path.Combine(Workshop.Root, "notebooks"), RedirectStandardOutput = true, RedirectStandardError = true,
            };
            var tools = Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".dotnet", "tools");
            start.Environment["PATH"] = $"{start.Environment["PATH"]}{Path.PathSeparator}{tools}";
            using var process = Process.Start(start)!;
            var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.True(process.ExitCode == 0, await error);

            var executed = Notebook.Read(Path.Combine(folder, notebook + ".ipynb"));
            var expected = (await runner).Files;
            Assert.Equal(expected.Where(f => f.Key.StartsWith("tables/", StringComparison.Ordinal))
                .Select(f => (f.Key["tables/".Length..^".csv".Length], f.Value)).OrderBy(t => t.Item1, StringComparer.Ordinal),
                Tables.Of(executed).Select(t => (t.Key, t.Value)));
            Assert.All(Tables.FilesOf(executed), f => Assert.Equal(expected[f.Key], f.Value));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
