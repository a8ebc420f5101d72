namespace JumpAnalytics;

/// <summary>A value of an accepted row, as it was written, and what was done to it.</summary>
/// <param name="Column">Header as the file spells it.</param>
/// <param name="Quantity">The quantity of the log it was read as.</param>
/// <param name="Text">The text of the field, unchanged.</param>
/// <param name="Conversions">What turned the text into the value, in order; empty when it is used as written.</param>
[TypeFormatterSource]
public sealed record ValueOrigin(string Column, string Quantity, string Text, IReadOnlyList<string> Conversions);

/// <summary>
/// Where every value of an accepted row comes from: file, sheet and line, the text as written, and the conversions applied.
/// </summary>
public sealed class RowOrigin : ShownResult
{
    internal RowOrigin(RowSource source, IReadOnlyList<string> fileRemarks, IReadOnlyList<ValueOrigin> values) =>
        (Source, FileRemarks, Values) = (source, fileRemarks, values);

    /// <summary>File, sheet and line.</summary>
    public RowSource Source { get; }

    /// <summary>How the file as a whole was read, where that is worth knowing.</summary>
    public IReadOnlyList<string> FileRemarks { get; }

    /// <summary>The filled fields of the row that the log knows, in the order of the file.</summary>
    public IReadOnlyList<ValueOrigin> Values { get; }

    /// <inheritdoc/>
    public override string Reading =>
        $"{Source}: {Rounding.Count(Values.Count, "value")}.{string.Concat(FileRemarks.Select(r => " " + r))}";

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<ValueOrigin>("row-origin", $"Where the values of {Source} come from", Values)
        {
            { Columns.ColumnName, v => v.Column }, { Columns.Quantity, v => v.Quantity }, { Columns.Value, v => v.Text },
            { Columns.Conversions, v => v.Conversions.Count == 0 ? "as written" : string.Join("; ", v.Conversions) },
        },
    ];
}
