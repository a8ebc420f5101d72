using System.Collections;

namespace JumpAnalytics.Statistics;

/// <summary>
/// A table being made from items: each column is its name with its meaning and a function of the item, so that a value can't stand
/// under another column's heading. Columns are added in their order: <c>new TableOf&lt;Coin&gt;("coins", "Coins", coins) { {
/// Columns.Year, c => c.Year } }</c>.
/// </summary>
/// <typeparam name="T">What a row is about.</typeparam>
/// <param name="name">File name without its extension: lower case letters, digits and hyphens.</param>
/// <param name="title">Caption.</param>
/// <param name="items">One for each row, in their order.</param>
/// <param name="note">What a reader should know beside the numbers.</param>
/// <param name="withheld">Why the table has no rows and shows this sentence in their place; null when it has them.</param>
[TypeFormatterSource]
public sealed class TableOf<T>(string name, string title, IEnumerable<T> items, string? note = null, string? withheld = null)
    : IEnumerable<TableColumn>, ITableMade
{
    private readonly List<(TableColumn Column, Func<T, object?> Value)> _columns = [];

    /// <summary>Adds a column.</summary>
    /// <param name="column">Name, heading, format and meaning.</param>
    /// <param name="value">Its cell in an item's row: text, number, <see cref="Estimate"/>, or null when absent.</param>
    public void Add(TableColumn column, Func<T, object?> value) => _columns.Add((column, value));

    /// <summary>Adds a column where it is wanted.</summary>
    public void Add(bool wanted, TableColumn column, Func<T, object?> value)
    {
        if (wanted) Add(column, value);
    }

    /// <summary>Adds a column for each of some keys.</summary>
    /// <typeparam name="TKey">What tells these columns from each other.</typeparam>
    /// <param name="keys">One for each column, in their order.</param>
    /// <param name="column">Name, heading, format and meaning of a key's column.</param>
    /// <param name="value">Its cell in an item's row.</param>
    public void Add<TKey>(IEnumerable<TKey> keys, Func<TKey, TableColumn> column, Func<T, TKey, object?> value)
    {
        foreach (var key in keys) Add(column(key), item => value(item, key));
    }

    /// <summary>The finished table.</summary>
    public static implicit operator TableView(TableOf<T> table) => table.View();

    /// <inheritdoc cref="op_Implicit"/>
    public TableView View() =>
        new(name, title, [.. _columns.Select(c => c.Column)],
            withheld is null ? [.. items.Select(item => _columns.Select(c => c.Value(item)).ToArray())] : [], note) { Withheld = withheld };

    IEnumerator<TableColumn> IEnumerable<TableColumn>.GetEnumerator() => _columns.Select(c => c.Column).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => _columns.Select(c => c.Column).GetEnumerator();
}

/// <summary>A table being made, whatever its rows are about.</summary>
internal interface ITableMade
{
    /// <summary>The finished table.</summary>
    TableView View();
}
