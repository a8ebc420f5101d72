using System.Collections.Concurrent;
using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace JumpAnalytics.Statistics;

/// <summary>What the documentation beside a value's library says of a part of it; nothing where the file is not there.</summary>
internal static partial class Meanings
{
    private static readonly ConcurrentDictionary<Assembly, Dictionary<string, XElement>> _members = new();

    /// <summary>The meaning of a property, or of the parameter that made it.</summary>
    public static string? Of(PropertyInfo property)
    {
        var owner = NameOf(property.DeclaringType!);
        var documented = property.DeclaringType!.GetInterfaces().Prepend(property.DeclaringType)
            .Select(type => MembersOf(type).GetValueOrDefault($"P:{NameOf(type)}.{property.Name}")?.Element("summary"))
            .FirstOrDefault(s => s is not null);
        if (documented is not null) return Flat(documented);
        var made = MembersOf(property.DeclaringType).GetValueOrDefault($"T:{owner}")?.Elements("param")
            .FirstOrDefault(p => (string?)p.Attribute("name") == property.Name);
        return made is null ? null : Flat(made);
    }

    private static string NameOf(Type type) =>
        ((type.IsGenericType ? type.GetGenericTypeDefinition() : type).FullName ?? type.Name).Replace('+', '.');

    private static Dictionary<string, XElement> MembersOf(Type type) => _members.GetOrAdd(type.Assembly, Read);

    private static Dictionary<string, XElement> Read(Assembly assembly)
    {
        try
        {
            var file = assembly.IsDynamic ? "" : Path.ChangeExtension(assembly.Location, ".xml");
            return file.Length == 0 || !File.Exists(file) ? []
                : XDocument.Load(file).Descendants("member").DistinctBy(m => (string?)m.Attribute("name"))
                    .ToDictionary(m => (string)m.Attribute("name")!);
        }
        catch (Exception e) when (e is IOException or System.Xml.XmlException or UnauthorizedAccessException)
        {
            return []; // a damaged documentation file takes nothing from the numbers
        }
    }

    private static string Flat(XElement element) => Blank().Replace(string.Concat(element.Nodes().Select(n => n switch
    {
        XElement { Name.LocalName: "see" or "paramref" or "seealso" } link =>
            Last((string?)link.Attribute("cref") ?? (string?)link.Attribute("name") ?? (string?)link.Attribute("langword") ?? ""),
        XElement inner => Flat(inner),
        XText text => text.Value,
        _ => "",
    })), " ").Trim();

    private static string Last(string reference) =>
        ShownPart.Words(reference.Split('(')[0].Split('.')[^1].Split(':')[^1].Split('`')[0]).ToLowerInvariant();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blank();
}
