using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text;
using System.Text.RegularExpressions;
using NodaTime;

namespace JumpAnalytics.Statistics;

/// <summary>One part of a value in a few words.</summary>
internal static partial class ShownPart
{
    private const int MostListed = 6;
    private static readonly ConcurrentDictionary<Type, PropertyInfo[]> _properties = new();

    /// <summary>The public properties that a value has and can be asked for.</summary>
    public static IReadOnlyList<PropertyInfo> PropertiesOf(Type type) => _properties.GetOrAdd(type, static t =>
        [.. t.GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.GetMethod is { IsPublic: true } && p.GetIndexParameters().Length == 0)]);

    /// <summary>Whether a part stands on one line of a table of many values.</summary>
    public static bool FitsALine(PropertyInfo property) =>
        property.PropertyType == typeof(string) || !typeof(IEnumerable).IsAssignableFrom(property.PropertyType);

    /// <summary>A part's value; a part that can't be read here says why.</summary>
    public static object? Read(PropertyInfo property, object of)
    {
        try
        {
            return property.GetValue(of);
        }
        catch (TargetInvocationException e) when (e.InnerException is InvalidOperationException or ArgumentException)
        {
            return "– " + e.InnerException.Message;
        }
    }

    /// <summary>Whether a type has no name of its own: <c>new { … }</c>.</summary>
    public static bool IsAnonymous(Type type) => type.Name.StartsWith("<>", StringComparison.Ordinal);

    /// <summary>
    /// Whether a value's own text says it all: it wrote one, or its type is not one that shows itself
    /// (<see cref="TypeFormatterSourceAttribute"/>).
    /// </summary>
    public static bool SpeaksForItself(object value)
    {
        var type = value.GetType();
        if (IsAnonymous(type)) return false;
        return !type.IsDefined(typeof(TypeFormatterSourceAttribute), inherit: true) || type.IsEnum
            || type.GetMethod(nameof(ToString), Type.EmptyTypes) is { } own && own.DeclaringType == type
                && own.GetCustomAttribute<CompilerGeneratedAttribute>() is null;
    }

    public static string Text(object? value) => value switch
    {
        null => "–",
        bool flag => flag ? "yes" : "no",
        string text => text,
        double number => double.IsNaN(number) ? "–" : ResultText.Number(number),
        Enum name => Words(name.ToString()).ToLowerInvariant(),
        ShownResult result => result.Reading.Length > 0 ? result.Reading : string.Join("; ", result.Tables.Select(t => t.Title)),
        IAnyFit fit => fit.Made is { } made ? Text(made) : $"– {fit.Reason}",
        IEnumerable items => Listed([.. items.Cast<object?>()]),
        LocalDateTime time => time.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture),
        LocalDate day => day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture),
        IFormattable plain => plain.ToString(null, CultureInfo.InvariantCulture),
        _ when SpeaksForItself(value) => value.ToString() ?? "",
        _ => Named(value),
    };

    /// <summary>Whether a list is only counted in a line, so that it wants a table of its own.</summary>
    public static bool IsCounted(object? list) => list is IEnumerable items && !IsShort([.. items.Cast<object?>()]);

    private static bool IsShort(List<object?> items) =>
        items.Count == 0 || items.Count <= MostListed && items.All(i => i is null || SpeaksForItself(i));

    private static string Listed(List<object?> items) =>
        items.Count == 0 ? "none" : IsShort(items) ? string.Join("; ", items.Select(Text)) : Rounding.Count(items.Count, "item");

    /// <summary>A value of many parts by its first: an id, a name, or what it holds.</summary>
    private static string Named(object value)
    {
        var parts = PropertiesOf(value.GetType());
        if (parts.FirstOrDefault(p => p.PropertyType == typeof(string)) is { } name && Read(name, value) is string { Length: > 0 } text)
            return text;
        var small = parts.Where(p => p.PropertyType == typeof(Estimate)).Take(1)
            .Concat(parts.Where(p => p.PropertyType == typeof(double) || p.PropertyType == typeof(int))).Take(4).ToList();
        return small.Count == 0
            ? Words(value.GetType()).ToLowerInvariant()
            : string.Join("; ", small.Select(p => $"{Words(p.Name).ToLowerInvariant()} {Text(Read(p, value))}"));
    }

    /// <summary>A type's name in words.</summary>
    public static string Words(Type type) => Words(type.Name.Split('`')[0]);

    /// <summary>A name of the code in words.</summary>
    public static string Words(string name)
    {
        var words = WordStart().Replace(name, " ");
        return words.Length < 2 ? words : new StringBuilder().Append(words[0])
            .Append(WordHead().Replace(words[1..], m => m.Value.ToLowerInvariant())).ToString();
    }

    [GeneratedRegex("(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")]
    private static partial Regex WordStart();

    [GeneratedRegex("(?<= )[A-Z](?=[a-z])")]
    private static partial Regex WordHead();
}
