using System.Reflection;
using System.Runtime.CompilerServices;
using System.Runtime.Loader;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;

namespace JumpAnalytics;

/// <summary>
/// The first call of a notebook: makes the chart and frame packages load in any host and brings the page its style and charts.
/// </summary>
public static class NotebookHost
{
    /// <summary>The packages written in F#, and what they lean on; they must load together or not at all.</summary>
    private static readonly string[] _family =
        ["FSharp.Core", "Fable.Core", "DynamicObj", "Giraffe.ViewEngine", "Newtonsoft.Json", "Plotly.NET", "Plotly.NET.CSharp", "Deedle"];

    private static AssemblyLoadContext? _context;

    /// <summary>Prepares the host and returns what the page needs; make it the last expression of the first cell.</summary>
    /// <exception cref="FileNotFoundException">The folder of the library is not complete; the message says how to build it.</exception>
    public static PageAssets Init()
    {
        var folder = Path.GetDirectoryName(typeof(NotebookHost).Assembly.Location)!;
        if (_family.FirstOrDefault(name => !File.Exists(Path.Combine(folder, name + ".dll"))) is { } missing)
            throw new FileNotFoundException($"{missing}.dll is not beside JumpAnalytics.Notebooks.dll. In the sources, build first: "
                + "dotnet build JumpAnalytics.sln -c Release; elsewhere, jumpanalytics new <name> brings the whole folder.");
        LoadFamily(folder);
        RegisterFormatters();
        BringStatistics();
        return new PageAssets();
    }

    /// <summary>
    /// Some notebook hosts carry an older FSharp.Core than the chart and frame packages were built for. There the whole family is loaded
    /// into a context of its own and the default context is pointed at it.
    /// </summary>
    private static void LoadFamily(string folder)
    {
        if (_context is not null) return;
        var needed = AssemblyName.GetAssemblyName(Path.Combine(folder, "FSharp.Core.dll")).Version!;
        if (HostVersion("FSharp.Core") >= needed) return;
        _context = new AssemblyLoadContext("JumpAnalytics charts and frames");
        foreach (var name in _family) _context.LoadFromAssemblyPath(Path.Combine(folder, name + ".dll"));
        AssemblyLoadContext.Default.Resolving += (_, wanted) =>
            _context.Assemblies.FirstOrDefault(a => a.GetName().Name == wanted.Name && a.GetName().Version >= wanted.Version);
    }

    private static Version? HostVersion(string name)
    {
        var loaded = AppDomain.CurrentDomain.GetAssemblies()
            .FirstOrDefault(a => a.GetName().Name == name && AssemblyLoadContext.GetLoadContext(a) == AssemblyLoadContext.Default);
        if (loaded is not null) return loaded.GetName().Version;
        var trusted = (AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES") as string ?? "").Split(Path.PathSeparator)
            .FirstOrDefault(p => Path.GetFileNameWithoutExtension(p).Equals(name, StringComparison.OrdinalIgnoreCase));
        return trusted is null ? null : AssemblyName.GetAssemblyName(trusted).Version;
    }

    /// <summary>
    /// Lets the next cells use the types of statistics by their names. A running cell can't add to the session that it runs in, so the
    /// kernel is asked to do it before the next one.
    /// </summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void BringStatistics() =>
        KernelInvocationContext.Current?.HandlingKernel?.DeferCommand(new SubmitCode($"using {typeof(ShownResult).Namespace};"));

    // Kept apart so that no type of the family is touched before it is loaded.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void RegisterFormatters()
    {
        ForeignFormatters.Register();
        Illustrations.Register();
    }
}
