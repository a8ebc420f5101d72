using System.Diagnostics;

namespace JumpAnalytics;

/// <summary>A Chromium-like browser on this machine, which draws figures for slides and is driven without a window.</summary>
internal static class Browser
{
    /// <summary>Names the program to use instead of those looked for.</summary>
    public const string Variable = "JUMPANALYTICS_BROWSER";

    private static readonly string[] _names =
        ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge", "msedge"];

    private static readonly TimeSpan _longest = TimeSpan.FromMinutes(1);

    /// <summary>The program, or null when there is none.</summary>
    public static string? Find()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } named) return File.Exists(named) ? named : null;
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);
        var endings = OperatingSystem.IsWindows() ? new[] { ".exe" } : [""];
        return folders.SelectMany(f => _names.SelectMany(n => endings.Select(e => Path.Combine(f, n + e))))
            .Concat(Usual()).FirstOrDefault(File.Exists);
    }

    /// <summary>The document of a page after its scripts ran.</summary>
    /// <exception cref="FileNotFoundException">There is no browser.</exception>
    /// <exception cref="IOException">The browser did not answer.</exception>
    public static string Document(string page)
    {
        var browser = Find() ?? throw new FileNotFoundException(
            $"No Chromium, Chrome or Edge was found to draw the figure. Install one, or name it in the environment variable {Variable}.");
        var profile = Directory.CreateTempSubdirectory("jump-browser-").FullName;
        try
        {
            string[] arguments = ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
                "--disable-background-networking", "--disable-dev-shm-usage", $"--user-data-dir={profile}", "--virtual-time-budget=20000",
                "--dump-dom", new Uri(page).AbsoluteUri];
            using var process =
                Process.Start(new ProcessStartInfo(browser, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var (output, _) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            if (process.WaitForExit(_longest) && process.ExitCode == 0) return output.GetAwaiter().GetResult();
            if (!process.HasExited) process.Kill(entireProcessTree: true);
            throw new IOException($"{browser} gave no page within {_longest.TotalSeconds:0} s or ended with an error.");
        }
        finally
        {
            Remove(profile);
        }
    }

    private static IEnumerable<string> Usual() =>
    [
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium",
        .. new[] { Environment.SpecialFolder.ProgramFiles, Environment.SpecialFolder.ProgramFilesX86 }.Select(Environment.GetFolderPath)
            .Where(f => f.Length > 0)
            .SelectMany(f => new[] { Path.Combine(f, "Google", "Chrome", "Application", "chrome.exe"), Path.Combine(f, "Microsoft",
                "Edge", "Application", "msedge.exe") }),
    ];

    private static void Remove(string folder)
    {
        try
        {
            Directory.Delete(folder, recursive: true);
        }
        catch (IOException)
        {
            // A process of the browser still holds it; it lies among temporary files.
        }
    }
}
