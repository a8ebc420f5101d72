using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace JumpAnalytics.Runner;

/// <summary>
/// Runs the cells in a child process, so that a cell that ends, hangs or breaks its process is an error of that cell
/// and of nothing else. Disposing ends the child.
/// </summary>
internal sealed class ChildEngine : ICellEngine, IDisposable
{
    private readonly Process _child;
    private readonly TimeSpan _timeout;
    private readonly Task<string> _firstError;

    private ChildEngine(Process child, TimeSpan timeout)
    {
        _child = child;
        _timeout = timeout;
        _firstError = FirstLineAsync(child.StandardError);
    }

    /// <summary>Starts a child in the folder that the notebook's relative paths start from.</summary>
    public static async Task<ChildEngine> StartAsync(string folder, TimeSpan timeout)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!)
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = new UTF8Encoding(false),
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
            Environment = { ["TZ"] = "UTC" },
        };
        if (Path.GetFileNameWithoutExtension(start.FileName) == "dotnet")
            start.ArgumentList.Add(typeof(ChildEngine).Assembly.Location);
        start.ArgumentList.Add(ChildLoop.Command);

        var engine = new ChildEngine(Process.Start(start)!, timeout);
        if (await engine.AnswerAsync() is null)
            throw new NotebookException($"The process for the notebook did not start: {await engine.EndAsync()}");
        return engine;
    }

    public async Task<CellRun> RunAsync(int number, string code)
    {
        _child.StandardInput.WriteLine(JsonSerializer.Serialize(new CellRequest(number, code)));
        _child.StandardInput.Flush();
        try
        {
            return await AnswerAsync().WaitAsync(_timeout) is { } answer
                ? JsonSerializer.Deserialize<CellRun>(answer)!
                : new CellRun([], CellError.Of("ProcessEnded", $"the cell ended its process ({await EndAsync()})"));
        }
        catch (TimeoutException)
        {
            return new CellRun([], CellError.Of("Timeout", $"the cell ran longer than the {_timeout.TotalSeconds} s of --cell-timeout "
                + "and was stopped; 0 sets no limit. Large logs take longest where missions are resampled: fewer --replicates "
                + "are faster."));
        }
    }

    public void Dispose()
    {
        if (!_child.HasExited)
            _child.Kill(entireProcessTree: true);
        _child.Dispose();
    }

    /// <summary>The next answer, or null when the child has ended.</summary>
    private async Task<string?> AnswerAsync()
    {
        while (await _child.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.StartsWith(ChildLoop.Mark))
                return line[1..];
        }

        return null;
    }

    private async Task<string> EndAsync()
    {
        await _child.WaitForExitAsync();
        return $"exit code {_child.ExitCode} {await _firstError}".Trim();
    }

    private static async Task<string> FirstLineAsync(StreamReader reader)
    {
        var first = await reader.ReadLineAsync() ?? "";
        while (await reader.ReadLineAsync() is not null) { }
        return first;
    }
}
