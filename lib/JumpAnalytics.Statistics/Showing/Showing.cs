using System.Collections;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Any value of the library as a result that shows itself: its parts by name, with interval, unit and sign as documented. A list becomes a
/// table with a line for each item.
/// </summary>
public static class Showing
{
    /// <summary>
    /// A value as a result: a result is itself, a fit its value or its reason, a list a table, anything else a table of its parts.
    /// </summary>
    /// <param name="value">A value of the library, or a list of such.</param>
    /// <param name="title">Title of the table; the name of its type when left out.</param>
    public static ShownResult Of(object? value, string? title = null) => value switch
    {
        null => new Brief("Nothing.", []),
        ShownResult result => result,
        ITableMade table => table.View(),
        IAnyFit fit => fit.Made is { } made ? Of(made, title) : new Brief(value.ToString()!, []),
        IEnumerable items when value is not string => ShownParts.List(items, title),
        _ when ShownPart.SpeaksForItself(value) => new Brief(ShownPart.Text(value), []),
        _ => new ShownParts(value, title),
    };
}

/// <summary>A value by its parts, with a table for each list among them.</summary>
internal sealed class ShownParts : ShownResult
{
    /// <summary>Items of a list beyond which only the first are shown.</summary>
    private const int MostRows = 300;

    private static readonly TableColumn[] _columns =
    [
        new("part", "part", CellFormat.Text, "part of the value"),
        new("value", "value", CellFormat.Text, "what it is, with its interval where it has one"),
        new("meaning", "meaning", CellFormat.Text, "as documented, with unit and sign"),
    ];

    public ShownParts(object value, string? title)
    {
        var parts = ShownPart.PropertiesOf(value.GetType()).Select(p => (Part: p, Value: ShownPart.Read(p, value))).ToList();
        Reading = parts.FirstOrDefault(p => p.Part.Name is nameof(Reading) or "Sentence" && p.Value is string).Value as string ?? "";
        Tables =
        [
            new(FileName(value.GetType()), title ?? ShownPart.Words(value.GetType()), _columns,
                [.. parts.Where(p => !ReferenceEquals(p.Value, Reading))
                    .Select(p => (object?[])[ShownPart.Words(p.Part.Name), ShownPart.Text(p.Value), Meanings.Of(p.Part)])]),
            .. parts.Where(p => p.Value is IEnumerable and not string && ShownPart.IsCounted(p.Value))
                .Select(p => List((IEnumerable)p.Value!, ShownPart.Words(p.Part.Name))),
        ];
    }

    /// <inheritdoc/>
    public override string Reading { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables { get; }

    /// <summary>A list as a table with a line for each item.</summary>
    public static TableView List(IEnumerable items, string? name = null)
    {
        var all = items.Cast<object?>().ToList();
        var type = all.Select(i => i?.GetType()).Distinct().ToList() is [{ } only] ? only : null;
        var title = $"{name ?? (type is null || ShownPart.IsAnonymous(type) ? "List" : ShownPart.Words(type))}: "
            + $"{Rounding.Count(all.Count, "item")}";
        var note = all.Count > MostRows ? $"The first {MostRows} of {Rounding.Count(all.Count)}." : null;
        if (type is null || ShownPart.SpeaksForItself(all[0]!) || all[0] is IAnyFit)
            return new TableView("list", title, [new("value", "value", CellFormat.Text, "the items in order")],
                [.. all.Take(MostRows).Select(i => (object?[])[ShownPart.Text(i)])], note);
        var parts = ShownPart.PropertiesOf(type).Where(ShownPart.FitsALine).ToList();
        return new TableView(FileName(type),
            title, [.. parts.Select(p => new TableColumn(p.Name, ShownPart.Words(p.Name), CellFormat.Text, Meanings.Of(p) ?? p.Name))],
            [.. all.Take(MostRows).Select(i => parts.Select(p => (object?)ShownPart.Text(ShownPart.Read(p, i!))).ToArray())], note);
    }

    private static string FileName(Type type) =>
        ShownPart.IsAnonymous(type) ? "list" : ShownPart.Words(type).ToLowerInvariant().Replace(' ', '-');
}
