using System.Diagnostics;
using System.Text.Json.Nodes;

namespace JumpAnalytics.Notebooks.Tests.Runner;

/// <summary>A folder of its own for notebooks and what the built runner, started as a user would, makes of them.</summary>
internal sealed class Workshop : IDisposable
{
    private readonly string _notebooks;

    /// <param name="notebooks">The folder of notebooks; without it, one to <see cref="Write"/> into.</param>
    public Workshop(string? notebooks = null)
    {
        Folder = Directory.CreateTempSubdirectory("jump-runner-").FullName;
        _notebooks = notebooks ?? Directory.CreateDirectory(Path.Combine(Folder, "notebooks")).FullName;
    }

    /// <param name="withLibrary">Whether the notebooks find the built library as those of the project do.</param>
    public Workshop(bool withLibrary) : this()
    {
        if (withLibrary) Directory.CreateSymbolicLink(Path.Combine(Folder, "lib"), Path.Combine(Root, "lib"));
    }

    public string Folder { get; }

    public static string Root { get; } = FindRoot();

    public static string Fixtures { get; } =
        Path.Combine(Root, "tests", "JumpAnalytics.Notebooks.Tests", "Runner", "Fixtures");

    /// <summary>The runner of the same configuration as these tests.</summary>
    private static string RunnerPath { get; } = Path.Combine(Root, "lib", "JumpAnalytics.Runner", "bin",
        new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name, "net10.0", "JumpAnalytics.Runner.dll");

    public void Write(string name, params JsonObject[] cells) =>
        File.WriteAllText(Path.Combine(_notebooks, name + ".ipynb"), Toy.Json(cells));

    public string Read(params string[] path) => File.ReadAllText(At(path));

    public bool Has(params string[] path) => File.Exists(At(path));

    public string At(params string[] path) => Path.Combine([Folder, .. path]);

    /// <summary>Runs a notebook.</summary>
    public Outcome Report(params string[] arguments) => Run(["run", .. arguments]);

    /// <summary>Starts the runner in <see cref="Folder"/>.</summary>
    public Outcome Run(params string[] arguments)
    {
        using var process = Start(arguments);
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Outcome(process.ExitCode, output, error.Result);
    }

    /// <summary>Starts the runner and leaves it running.</summary>
    public Process Start(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [RunnerPath, .. arguments, "--notebooks", _notebooks])
        {
            WorkingDirectory = Folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        return Process.Start(start)!;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true); // a link in it is removed, not followed

    private static string FindRoot()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "JumpAnalytics.sln")))
                return at.FullName;
        }

        throw new DirectoryNotFoundException("No JumpAnalytics.sln above the tests.");
    }
}

internal sealed record Outcome(int ExitCode, string Output, string Error);
