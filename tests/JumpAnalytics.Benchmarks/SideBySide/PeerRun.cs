using System.Diagnostics;
using System.Text.Json;

namespace JumpAnalytics.Benchmarks;

/// <summary>A result of a peer: seconds of each run, and its figures.</summary>
internal sealed record PeerResult(string Label, double[] Seconds, IReadOnlyDictionary<string, double> Figures);

/// <summary>Runs peers' scripts.</summary>
internal static class PeerRun
{
    private static string Folder => Path.Combine(AppContext.BaseDirectory, "peers");

    /// <summary>Why a peer can't be run here; null when it can.</summary>
    public static string? Missing(Peer peer)
    {
        var isR = peer.Script.EndsWith(".R", StringComparison.Ordinal);
        var tool = isR ? "Rscript" : Python;
        var test = isR
            ? string.Concat(peer.Packages.Select(p => $"library({p});")) : string.Join(';', peer.Packages.Select(p => $"import {p}"));
        var asked = Run(tool, ["-e", test], isR ? null : ["-c", test]);
        return asked.Code == 0 ? null
            : $"needs {tool} with {string.Join(", ", peer.Packages)} (Debian: " + string.Join(' ',
                peer.Packages.Select(p => isR ? p == "stats" ? "r-base-core" : $"r-cran-{p.ToLowerInvariant()}" : $"python3-{p}")) + ")";
    }

    /// <summary>Runs a script on an input.</summary>
    public static IReadOnlyList<PeerResult> Results(Peer peer, string input, int runs)
    {
        var script = Path.Combine(Folder, peer.Script);
        var (code, output, error) = peer.Script.EndsWith(".R", StringComparison.Ordinal)
            ? Run("Rscript", [script, input, $"{runs}"]) : Run(Python, [script, input, $"{runs}"]);
        if (code != 0) throw new InvalidOperationException($"{peer.Script} failed: {error}");
        return [.. output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(l => l.StartsWith('{')).Select(Read)];
    }

    /// <summary>The Python to use, where it is not the first one found.</summary>
    private static string Python => Environment.GetEnvironmentVariable("JUMPANALYTICS_PYTHON") is { Length: > 0 } named ? named : "python3";

    private static PeerResult Read(string line)
    {
        var json = JsonDocument.Parse(line).RootElement;
        return new PeerResult(json.GetProperty("label").GetString()!,
            [.. json.GetProperty("seconds").EnumerateArray().Select(s => s.GetDouble())],
            json.GetProperty("figures").EnumerateObject().ToDictionary(p => p.Name, p => p.Value.GetDouble()));
    }

    private static (int Code, string Output, string Error) Run(string tool, string[] arguments, string[]? instead = null)
    {
        try
        {
            using var process = Process.Start(
                new ProcessStartInfo(tool, instead ?? arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var error = process.StandardError.ReadToEndAsync();
            var output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return (process.ExitCode, output, error.Result);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return (127, "", $"{tool} is not there");
        }
    }
}
