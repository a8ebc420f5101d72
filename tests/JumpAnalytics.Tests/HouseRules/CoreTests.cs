using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace JumpAnalytics.Tests;

/// <summary>Rules of the house that a compiler does not keep.</summary>
public sealed partial class CoreTests
{
    private static readonly Assembly _core = typeof(JumpLog).Assembly;
    private static readonly Assembly _statistics = typeof(ShownResult).Assembly;
    private static readonly Type[] _public = [.. _statistics.GetExportedTypes(), .. _core.GetExportedTypes()];
    private static readonly string[] _packages = ["DocumentFormat.OpenXml", "MathNet.Numerics", "NodaTime", "Parquet.Net", "Sep", "UnitsNet"];
    private static readonly string[] _assemblies = ["DocumentFormat.OpenXml", "DocumentFormat.OpenXml.Framework", "JumpAnalytics.Statistics", "MathNet.Numerics", "NodaTime", "Parquet", "Sep", "UnitsNet"];

    [Fact]
    public void The_core_rests_on_six_packages_and_no_notebook_or_chart()
    {
        var project = XDocument.Load(Path.Combine(SourceFiles.Lib, "JumpAnalytics", "JumpAnalytics.csproj"));
        Assert.Equal(_packages, project.Descendants("PackageReference").Select(p => p.Attribute("Include")!.Value).Order(StringComparer.Ordinal));
        Assert.Equal(["../JumpAnalytics.Statistics/JumpAnalytics.Statistics.csproj"],
            project.Descendants("ProjectReference").Select(p => p.Attribute("Include")!.Value));
        Assert.Equal(_assemblies, Used(_core));
    }

    /// <summary>The floor: three packages, and nothing of the trade above it.</summary>
    [Fact]
    public void The_statistics_rest_on_three_packages()
    {
        var project = XDocument.Load(Path.Combine(SourceFiles.Lib, "JumpAnalytics.Statistics", "JumpAnalytics.Statistics.csproj"));
        Assert.Equal(["MathNet.Numerics", "NodaTime", "Sep"], project.Descendants("PackageReference").Select(p => p.Attribute("Include")!.Value));
        Assert.Empty(project.Descendants("ProjectReference"));
        Assert.Equal(["MathNet.Numerics", "NodaTime", "Sep"], Used(_statistics));
    }

    [Fact]
    public void What_a_user_types_is_in_the_namespace_of_the_trade_or_of_the_statistics()
    {
        Assert.Equal(["JumpAnalytics"], _core.GetExportedTypes().Select(t => t.Namespace).Distinct());
        Assert.Equal(["JumpAnalytics.Statistics"], _statistics.GetExportedTypes().Select(t => t.Namespace).Distinct());
    }

    private static IEnumerable<string> Used(Assembly assembly) => assembly.GetReferencedAssemblies().Select(a => a.Name!)
        .Where(n => !n.StartsWith("System.", StringComparison.Ordinal) && n != "System").Order(StringComparer.Ordinal);

    [Fact]
    public void No_source_file_is_longer_than_300_lines()
    {
        var files = SourceFiles.Below(SourceFiles.Lib, "*.cs").ToList();
        Assert.True(files.Count > 50);
        Assert.DoesNotContain(files, f => File.ReadLines(f).Count() > 300);
    }

    [Fact]
    public void Every_package_has_one_fixed_version_in_one_place()
    {
        var versions = XDocument.Load(Path.Combine(SourceFiles.Lib, "Directory.Packages.props")).Descendants("PackageVersion").ToList();
        Assert.True(versions.Count > 10);
        Assert.All(versions, v => Assert.Matches(FixedVersion(), v.Attribute("Version")!.Value));
        var names = versions.Select(v => v.Attribute("Include")!.Value).ToList();
        Assert.Equal(names.Count, names.Distinct(StringComparer.OrdinalIgnoreCase).Count());

        var projects = new[] { "lib", "tests" }.SelectMany(f => SourceFiles.Below(Path.Combine(ReferenceFiles.Root, f), "*.*proj").Concat(SourceFiles.Below(Path.Combine(ReferenceFiles.Root, f), "*.props"))).ToList();
        Assert.True(projects.Count >= 7);
        foreach (var project in projects)
        {
            foreach (var reference in XDocument.Load(project).Descendants("PackageReference"))
            {
                Assert.Null(reference.Attribute("Version"));
                Assert.Null(reference.Attribute("VersionOverride"));
                Assert.Empty(reference.Elements("Version"));
            }
        }
    }

    [GeneratedRegex(@"^\d+\.\d+\.\d+(\.\d+)?(-[0-9A-Za-z.]+)?$")]
    private static partial Regex FixedVersion();

    [Fact]
    public void Public_types_can_not_be_changed_once_made()
    {
        const BindingFlags All = BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        var changeable = new List<string>();
        foreach (var type in _public.Where(t => !t.IsEnum && !t.IsSubclassOf(typeof(Attribute))))
        {
            changeable.AddRange(type.GetFields(All).Where(f => !f.IsInitOnly && !f.IsLiteral).Select(f => $"{type.Name}.{f.Name}"));
            changeable.AddRange(type.GetProperties(All)
                .Where(p => p.SetMethod is { IsPublic: true } set && !set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit)))
                .Select(p => $"{type.Name}.{p.Name}"));
            changeable.AddRange(type.GetProperties(All).Where(p => IsChangeableCollection(p.PropertyType)).Select(p => $"{type.Name}.{p.Name}: {p.PropertyType.Name}"));
        }
        Assert.Empty(changeable);

        static bool IsChangeableCollection(Type type) => type.IsArray
            || (type.IsGenericType && type.GetGenericTypeDefinition() is var open
                && (open == typeof(List<>) || open == typeof(Dictionary<,>) || open == typeof(HashSet<>) || open == typeof(IList<>) || open == typeof(IDictionary<,>) || open == typeof(ICollection<>)));
    }

    /// <summary>What can be derived from can be made to break what its base promises: only the shown result is meant to be.</summary>
    [Fact]
    public void Public_classes_are_sealed_static_or_meant_as_a_base() =>
        Assert.Equal(["ShownResult"], _public.Where(t => t.IsClass && !t.IsSealed).Select(t => t.Name));
}
