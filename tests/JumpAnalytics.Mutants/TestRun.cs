using System.Diagnostics;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace JumpAnalytics.Mutants;

/// <summary>A copy of the built tests, in which one library is exchanged and some classes of tests are run.</summary>
internal sealed class TestRun
{
    private readonly string bin;

    public TestRun(string testBin, string copy)
    {
        bin = copy;
        Directory.CreateDirectory(copy);
        foreach (var file in Directory.EnumerateFiles(testBin, "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(copy, Path.GetRelativePath(testBin, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to, overwrite: true);
        }
    }

    public string Put(string library) => Path.Combine(bin, library + ".dll");

    /// <summary>Runs the classes till one test fails. Null when they took longer than the limit.</summary>
    public bool? Passes(IReadOnlyList<string> classes, TimeSpan limit)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = bin, RedirectStandardOutput = true, RedirectStandardError = true,
            ArgumentList = { "JumpAnalytics.Tests.dll", "-trait-", "Category=Long", "-stopOnFail", "-noLogo", "-noColor" },
        };
        foreach (var one in classes)
        {
            start.ArgumentList.Add("-class");
            start.ArgumentList.Add(one);
        }
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync();
        _ = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(limit))
        {
            process.Kill(entireProcessTree: true);
            return null;
        }
        if (process.ExitCode == 0 && output.Result.Contains("Total: 0", StringComparison.Ordinal))
        {
            throw new InvalidOperationException("No test was run: " + string.Join(" ", classes));
        }
        return process.ExitCode == 0;
    }

    /// <summary>The classes with tests in some folders or files of the tests.</summary>
    public static IReadOnlyList<string> Classes(string tests, IEnumerable<string> places) =>
    [.. places.Select(p => Path.Combine(tests, p))
        .SelectMany(p => File.Exists(p) ? [p] : Directory.EnumerateFiles(p, "*.cs", SearchOption.AllDirectories))
        .SelectMany(f => CSharpSyntaxTree.ParseText(File.ReadAllText(f)).GetRoot().DescendantNodes().OfType<ClassDeclarationSyntax>())
        .Where(c => c.Parent is BaseNamespaceDeclarationSyntax && HasTests(c))
        .Select(c => $"{((BaseNamespaceDeclarationSyntax)c.Parent!).Name}.{c.Identifier.Text}")
        .Distinct().Order(StringComparer.Ordinal)];

    private static bool HasTests(ClassDeclarationSyntax c) => c.Members.OfType<MethodDeclarationSyntax>()
        .Any(m => m.AttributeLists.SelectMany(a => a.Attributes).Any(a => a.Name.ToString() is "Fact" or "Theory"));
}
