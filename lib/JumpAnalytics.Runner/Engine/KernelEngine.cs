using System.Reflection;
using System.Text;
using Microsoft.CodeAnalysis.Scripting;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;
using Microsoft.DotNet.Interactive.CSharp;
using Microsoft.DotNet.Interactive.Events;

namespace JumpAnalytics.Runner;

/// <summary>
/// Runs cells in the C# kernel of .NET Interactive, in this process. Console output is captured process-wide and a
/// running cell cannot be stopped: keep one engine to a process (<see cref="ChildEngine"/>).
/// </summary>
internal sealed class KernelEngine : ICellEngine
{
    private readonly CSharpKernel _csharp = new("csharp");
    private readonly CompositeKernel _root = new("root") { DefaultKernelName = "csharp" };
    private readonly List<KernelEvent> _events = [];

    private KernelEngine()
    {
        _csharp.UseKernelHelpers().UseWho().UseValueSharing();
        _root.Add(_csharp, ["C#", "c#", ".net-csharp"]);
        _root.UseImportMagicCommand();

        // Not the result's own events: those lack what an imported file prints.
        _root.KernelEvents.Subscribe(new Listener(_events));
    }

    /// <summary>Starts the kernel and runs a first submission, so that no cell waits for the compiler to load.</summary>
    public static async Task<KernelEngine> StartAsync()
    {
        var engine = new KernelEngine();
        await engine.RunAsync(0, "0");
        return engine;
    }

    public async Task<CellRun> RunAsync(int number, string code)
    {
        lock (_events) _events.Clear();
        ScriptLines.Number(_csharp, number);
        try
        {
            await _root.SendAsync(new SubmitCode(code));
            KernelEvent[] events;
            lock (_events) events = [.. _events];
            var failed = events.OfType<CommandFailed>().LastOrDefault();
            return new CellRun(KernelOutputs.From(events, number), failed is null ? null : KernelErrors.From(failed, events, number));
        }
        catch (Exception e)
        {
            return new CellRun([], KernelErrors.From(e));
        }
    }

    private sealed class Listener(List<KernelEvent> events) : IObserver<KernelEvent>
    {
        public void OnNext(KernelEvent value)
        {
            lock (events) events.Add(value);
        }

        public void OnCompleted() { }

        public void OnError(Exception error) { }
    }
}

/// <summary>
/// Makes the kernel compile each cell with line numbers. The kernel offers no public way, hence its private field.
/// </summary>
internal static class ScriptLines
{
    private static readonly FieldInfo Options =
        typeof(CSharpKernel).GetField("_scriptOptions", BindingFlags.Instance | BindingFlags.NonPublic)
        ?? throw new MissingFieldException(nameof(CSharpKernel), "_scriptOptions");

    public static void Number(CSharpKernel kernel, int cell) =>
        Options.SetValue(kernel, ((ScriptOptions)Options.GetValue(kernel)!)
            .WithEmitDebugInformation(true).WithFilePath($"cell-{cell}").WithFileEncoding(Encoding.UTF8));
}
