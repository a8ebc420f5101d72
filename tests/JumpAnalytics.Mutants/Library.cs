using System.Reflection;
using System.Xml.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Text;

namespace JumpAnalytics.Mutants;

/// <summary>The sources of one library, compiled in memory with or without a fault.</summary>
internal sealed class Library
{
    private readonly CSharpCompilation compilation;
    private readonly Dictionary<string, SyntaxTree> trees;
    private readonly ResourceDescription[] resources;

    public Library(string folder, string testBin)
    {
        Folder = folder;
        Name = Path.GetFileName(folder);
        var options = new CSharpParseOptions(LanguageVersion.Latest);
        trees = Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
            .Where(f => !Path.GetRelativePath(folder, f).StartsWith("bin", StringComparison.Ordinal) && !IsStale(folder, f))
            .ToDictionary(f => f, f => CSharpSyntaxTree.ParseText(SourceText.From(File.ReadAllText(f)), options, f));
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(f => Path.GetFileName(f).StartsWith("System", StringComparison.Ordinal)
                || f.EndsWith("netstandard.dll", StringComparison.Ordinal)
                || f.EndsWith("mscorlib.dll", StringComparison.Ordinal)
                || Path.GetFileName(f).StartsWith("Microsoft.Win32", StringComparison.Ordinal))
            .Concat(Directory.EnumerateFiles(testBin, "*.dll").Where(IsReference))
            .DistinctBy(Path.GetFileName)
            .Select(f => MetadataReference.CreateFromFile(f));
        compilation = WithGenerated(CSharpCompilation.Create(Name, trees.Values, references, new CSharpCompilationOptions(
            OutputKind.DynamicallyLinkedLibrary, optimizationLevel: OptimizationLevel.Release, allowUnsafe: true,
            nullableContextOptions: NullableContextOptions.Enable)), options);
        resources = [.. XDocument.Load(Path.Combine(folder, Name + ".csproj")).Descendants("EmbeddedResource")
            .Select(r => new ResourceDescription(
                (string)r.Attribute("LogicalName")!,
                () => File.OpenRead(Path.Combine(folder, (string)r.Attribute("Include")!)), isPublic: true))];
    }

    public string Folder { get; }

    public string Name { get; }

    public SyntaxTree Tree(string file) => trees[file];

    /// <summary>Writes the library, with a fault where one is given. False when it does not compile with it.</summary>
    public bool Write(Mutant? fault, string path)
    {
        var changed = compilation;
        if (fault is not null)
        {
            var tree = trees[fault.File];
            changed = changed.ReplaceSyntaxTree(tree, tree.WithChangedText(
                tree.GetText().WithChanges(new TextChange(new TextSpan(fault.Start, fault.Length), fault.New))));
        }
        using var made = new MemoryStream();
        var result = changed.Emit(made, manifestResources: resources);
        if (!result.Success)
        {
            if (fault is null)
            {
                throw new InvalidOperationException($"{Name} does not compile: "
                    + $"{string.Join("; ", result.Diagnostics.Where(d => d.Severity == DiagnosticSeverity.Error).Take(3))}");
            }
            return false;
        }
        File.WriteAllBytes(path, made.ToArray());
        return true;
    }

    /// <summary>Adds what the compiler of regular expressions writes during a build.</summary>
    private static CSharpCompilation WithGenerated(CSharpCompilation sources, CSharpParseOptions options)
    {
        var runtime = new DirectoryInfo(Path.GetDirectoryName(typeof(object).Assembly.Location)!);
        var packs = Path.Combine(runtime.Parent!.Parent!.Parent!.FullName, "packs", "Microsoft.NETCore.App.Ref");
        var generator = Directory.EnumerateFiles(packs, "System.Text.RegularExpressions.Generator.dll", SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal).Last();
        var type = Assembly.LoadFrom(generator).GetType("System.Text.RegularExpressions.Generator.RegexGenerator", throwOnError: true)!;
        var made = ((IIncrementalGenerator)Activator.CreateInstance(type)!).AsSourceGenerator();
        CSharpGeneratorDriver.Create([made], parseOptions: options)
            .RunGeneratorsAndUpdateCompilation(sources, out var whole, out _);
        return (CSharpCompilation)whole;
    }

    /// <summary>Of what a build leaves, only the release build's own sources belong to the library.</summary>
    private static bool IsStale(string folder, string file)
    {
        var at = Path.GetRelativePath(folder, file).Split(Path.DirectorySeparatorChar);
        return at[0] == "obj" && !(at.Length > 1 && at[1] == "Release");
    }

    private bool IsReference(string file)
    {
        var name = Path.GetFileNameWithoutExtension(file);
        if (name == Name || name == "JumpAnalytics.Tests" || (Name == "JumpAnalytics.Statistics" && name == "JumpAnalytics"))
        {
            return false;
        }
        try
        {
            AssemblyName.GetAssemblyName(file);
            return true;
        }
        catch (BadImageFormatException)
        {
            return false;
        }
    }
}
