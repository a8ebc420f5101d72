using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace JumpAnalytics.Tests;

/// <summary>Rules of the house that a compiler does not keep.</summary>
public sealed partial class CoreTests
{
    private const BindingFlags Declared =
        BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static readonly Assembly _statistics = typeof(ShownResult).Assembly;
    private static readonly Assembly _trade = typeof(JumpLog).Assembly;

    private static IEnumerable<Type> PublicTypes => new[] { _statistics, _trade }.SelectMany(a => a.GetExportedTypes());

    [Fact]
    public void The_statistics_rest_on_three_packages_and_know_no_trade()
    {
        string[] packages = ["MathNet.Numerics", "NodaTime", "Sep"];
        AssertRestsOn(_statistics, packages, projects: [], assemblies: packages);
    }

    [Fact]
    public void The_trade_rests_on_the_statistics_and_six_packages_and_no_notebook_or_chart() => AssertRestsOn(
        _trade,
        packages: ["DocumentFormat.OpenXml", "MathNet.Numerics", "NodaTime", "Parquet.Net", "Sep", "UnitsNet"],
        projects: ["JumpAnalytics.Statistics"],
        assemblies:
        [
            "DocumentFormat.OpenXml", "DocumentFormat.OpenXml.Framework", "MathNet.Numerics", "NodaTime", "Parquet", "Sep", "UnitsNet",
        ]);

    private static void AssertRestsOn(Assembly assembly, string[] packages, string[] projects, string[] assemblies)
    {
        var name = assembly.GetName().Name!;
        var project = XDocument.Load(Path.Combine(SourceFiles.Lib, name, name + ".csproj"));
        Assert.Equal(packages, Included("PackageReference").Order(StringComparer.Ordinal));
        Assert.Equal(projects, Included("ProjectReference").Select(Path.GetFileNameWithoutExtension));
        var used = assembly.GetReferencedAssemblies().Select(a => a.Name!)
            .Where(n => n != "System" && !n.StartsWith("System.", StringComparison.Ordinal));
        Assert.Equal(assemblies.Concat(projects).Order(StringComparer.Ordinal), used.Order(StringComparer.Ordinal));

        IEnumerable<string> Included(string element) => project.Descendants(element).Select(p => p.Attribute("Include")!.Value);
    }

    [Fact]
    public void What_a_user_types_is_in_one_namespace_for_each_assembly()
    {
        Assert.Equal(["JumpAnalytics"], _trade.GetExportedTypes().Select(t => t.Namespace).Distinct());
        Assert.Equal(["JumpAnalytics.Statistics"], _statistics.GetExportedTypes().Select(t => t.Namespace).Distinct());
    }

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

        var folders = new[] { SourceFiles.Lib, Path.Combine(ReferenceFiles.Root, "tests") };
        var projects = folders.SelectMany(f => SourceFiles.Below(f, "*.*proj").Concat(SourceFiles.Below(f, "*.props"))).ToList();
        Assert.True(projects.Count >= 8);
        foreach (var reference in projects.SelectMany(p => XDocument.Load(p).Descendants("PackageReference")))
        {
            Assert.Null(reference.Attribute("Version"));
            Assert.Null(reference.Attribute("VersionOverride"));
            Assert.Empty(reference.Elements("Version"));
        }
    }

    [GeneratedRegex(@"^\d+\.\d+\.\d+(\.\d+)?(-[0-9A-Za-z.]+)?$")]
    private static partial Regex FixedVersion();

    /// <summary>The attribute by which kernels find renderings has the members that they ask for by name.</summary>
    [Fact]
    public void Public_types_can_not_be_changed_once_made()
    {
        var changeable = new List<string>();
        foreach (var type in PublicTypes.Where(t => !t.IsEnum && t != typeof(TypeFormatterSourceAttribute)))
        {
            var properties = type.GetProperties(Declared);
            changeable.AddRange(type.GetFields(Declared).Where(f => !f.IsInitOnly && !f.IsLiteral).Select(f => $"{type.Name}.{f.Name}"));
            changeable.AddRange(properties.Where(CanBeSet).Select(p => $"{type.Name}.{p.Name}"));
            changeable.AddRange(properties.Where(p => IsChangeableCollection(p.PropertyType))
                .Select(p => $"{type.Name}.{p.Name}: {p.PropertyType}"));
        }
        Assert.Empty(changeable);
    }

    private static bool CanBeSet(PropertyInfo property) => property.SetMethod is { IsPublic: true } set
        && !set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));

    private static readonly Type[] _changeable =
        [typeof(List<>), typeof(Dictionary<,>), typeof(HashSet<>), typeof(IList<>), typeof(IDictionary<,>), typeof(ICollection<>)];

    private static bool IsChangeableCollection(Type type) =>
        type.IsArray || (type.IsGenericType && _changeable.Contains(type.GetGenericTypeDefinition()));

    /// <summary>What can be derived from can be made to break what its base promises: only the shown result is meant to be.</summary>
    [Fact]
    public void Public_classes_are_sealed_static_or_meant_as_a_base() =>
        Assert.Equal(["ShownResult"], PublicTypes.Where(t => t.IsClass && !t.IsSealed).Select(t => t.Name));
}
