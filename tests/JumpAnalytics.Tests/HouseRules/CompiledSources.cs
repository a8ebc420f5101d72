using System.Xml.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace JumpAnalytics.Tests;

/// <summary>
/// The sources of one project, compiled in memory: every name in them is bound to what it means.
/// What the project refers to is taken from the assemblies that lie beside the test.
/// </summary>
internal sealed class CompiledSources
{
    /// <summary>The projects of the library that stand on each other, from the bottom up: each sees those before it.</summary>
    private static readonly string[] _projects = ["JumpAnalytics.Statistics", "JumpAnalytics", "JumpAnalytics.Notebooks"];

    private static readonly string[] _implicitUsings =
    [
        "System", "System.Collections.Generic", "System.IO", "System.Linq", "System.Net.Http", "System.Threading", "System.Threading.Tasks",
    ];

    private static readonly Dictionary<string, Lazy<CompiledSources>> _compiled = _projects.ToDictionary(
        p => p, p => new Lazy<CompiledSources>(() => Compile(p)));

    private readonly Lazy<SymbolUses> _uses;

    private CompiledSources(CSharpCompilation compilation) =>
        (Compilation, _uses) = (compilation, new(() => new SymbolUses(compilation)));

    public CSharpCompilation Compilation { get; }

    /// <summary>What each file uses of the others; found once for all tests.</summary>
    public SymbolUses Uses => _uses.Value;

    /// <summary>Paths of the sources, relative to the project, with forward slashes.</summary>
    public IEnumerable<string> Files => Compilation.SyntaxTrees.Select(t => t.FilePath).Where(p => p.Length > 0);

    /// <summary>The sources of a project below lib; compiled once for all tests.</summary>
    public static CompiledSources OfProject(string name) => _compiled[name].Value;

    /// <summary>Sources made up by a test: a path relative to the project, and its text.</summary>
    public static CompiledSources Of(params (string Path, string Text)[] files) =>
        Compile("Made", files, ["global using System;", "global using System.Collections.Generic;"], References(_ => false));

    private static CompiledSources Compile(string project)
    {
        var folder = Path.Combine(SourceFiles.Lib, project);
        var files = SourceFiles.Below(folder, "*.cs")
            .Select(f => (Path.GetRelativePath(folder, f).Replace(Path.DirectorySeparatorChar, '/'), File.ReadAllText(f)));
        var below = _projects.TakeWhile(p => p != project).ToHashSet();
        return Compile(project, files, GlobalUsings(folder, project), References(below.Contains));
    }

    private static CompiledSources Compile(
        string name, IEnumerable<(string Path, string Text)> files, IEnumerable<string> usings, IEnumerable<MetadataReference> references)
    {
        var parsing = new CSharpParseOptions(LanguageVersion.Latest, DocumentationMode.None);
        var trees = files.Append(("", string.Join('\n', usings)))
            .Select(f => CSharpSyntaxTree.ParseText(f.Item2, parsing, f.Item1))
            .ToList();
        var options = new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary)
            .WithNullableContextOptions(NullableContextOptions.Annotations);
        return new(CSharpCompilation.Create(name, trees, references, options));
    }

    private static IEnumerable<string> GlobalUsings(string folder, string project) => _implicitUsings
        .Select(u => $"global using {u};")
        .Concat(XDocument.Load(Path.Combine(folder, project + ".csproj")).Descendants("Using").Select(u =>
            u.Attribute("Alias") is { } alias
                ? $"global using {alias.Value} = {u.Attribute("Include")!.Value};"
                : $"global using {u.Attribute("Include")!.Value};"));

    /// <summary>The framework and the packages that this test was started with, and the parts of the library that are asked for.</summary>
    private static IEnumerable<MetadataReference> References(Func<string, bool> ofLibrary) =>
        ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!)
            .Split(Path.PathSeparator)
            .Where(p => Path.GetFileNameWithoutExtension(p) is var name
                && (!name.StartsWith("JumpAnalytics", StringComparison.Ordinal) || ofLibrary(name)))
            .Select(p => MetadataReference.CreateFromFile(p));
}
