using System.Diagnostics;
using JumpAnalytics.Notebooks.Tests.Runner;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>The analysis lives without a notebook: a plain program gives the same tables.</summary>
public sealed class SeasonProgramTests
{
    [Fact]
    public async Task The_program_gives_the_tables_of_the_notebook_to_the_last_byte()
    {
        var notebook = ReportRun.OnceAsync("season-accuracy");
        var folder = Directory.CreateTempSubdirectory("jump-program-").FullName;
        try
        {
            var configuration = new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name;
            var start = new ProcessStartInfo("dotnet",
                ["run", "-c", configuration, Path.Combine("notebooks", "season.cs"), "--", "data-demo", folder])
            {
                WorkingDirectory = Workshop.Root, RedirectStandardOutput = true, RedirectStandardError = true,
            };
            start.Environment["DOTNET_NOLOGO"] = "1";
            foreach (var name in start.Environment.Keys.Where(k => k.StartsWith("MSBUILD", StringComparison.OrdinalIgnoreCase)).ToList())
                start.Environment.Remove(name);
            using var process = Process.Start(start)!;
            var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            var output = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.True(process.ExitCode == 0, $"{output}\n{await error}");
            Assert.StartsWith("As written, 84 % (81 to 86 %) of landings came down inside the target radius", output);

            var expected = (await notebook).Files.Where(f => f.Key.StartsWith("tables/", StringComparison.Ordinal))
                .ToDictionary(f => f.Key["tables/".Length..], f => f.Value);
            var actual = Directory.GetFiles(Path.Combine(folder, "tables")).ToDictionary(f => Path.GetFileName(f), File.ReadAllText);
            Assert.Equal(expected.Keys.Order(StringComparer.Ordinal), actual.Keys.Order(StringComparer.Ordinal));
            Assert.All(expected, t => Assert.Equal(t.Value, actual[t.Key]));
            Assert.Contains("<div class=\"ja-plot\" role=\"img\"",
                await File.ReadAllTextAsync(Path.Combine(folder, "season.html"), TestContext.Current.CancellationToken));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
