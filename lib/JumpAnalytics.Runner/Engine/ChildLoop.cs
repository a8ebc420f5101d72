using System.Text.Json;

namespace JumpAnalytics.Runner;

/// <summary>A cell to run, as sent to the child process.</summary>
internal sealed record CellRequest(int Number, string Code);

/// <summary>
/// The child process: takes one cell a line from standard input and answers each with one line on standard output.
/// Answers start with <see cref="Mark"/>, so that what a cell writes past the console is not taken for one.
/// </summary>
internal static class ChildLoop
{
    public const string Command = "run-cells";
    public const char Mark = '\u0001';

    /// <summary>Serves until the input ends, then ends the process, also when a cell is still running.</summary>
    public static async Task RunAsync()
    {
        // The kernel redirects the console for good, and a cell must not read our requests.
        var requests = new StreamReader(Console.OpenStandardInput());
        var answers = new StreamWriter(Console.OpenStandardOutput()) { AutoFlush = true, NewLine = "\n" };
        Console.SetIn(TextReader.Null);

        var engine = await KernelEngine.StartAsync();
        answers.WriteLine(Mark);
        var running = Task.CompletedTask;
        while (await requests.ReadLineAsync() is { } line)
        {
            await running;
            running = Task.Run(async () =>
            {
                var request = JsonSerializer.Deserialize<CellRequest>(line)!;
                var run = await engine.RunAsync(request.Number, request.Code);
                answers.WriteLine($"\n{Mark}{JsonSerializer.Serialize(run)}");
            });
        }

        Environment.Exit(0);
    }
}
