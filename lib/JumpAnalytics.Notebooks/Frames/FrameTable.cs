namespace JumpAnalytics;

/// <summary>Columns of a frame as a table that the intake reads.</summary>
internal sealed class FrameTable(string name, IReadOnlyList<FrameColumn> columns) : ILogTable
{
    public string Name => name;

    public IReadOnlyList<string> Header { get; } = [.. columns.Select(c => c.Name.Trim())];

    public IReadOnlyList<string> Remarks => [];

    /// <summary>Reads a flat table; the row of number 1 is line 2, as in a file.</summary>
    public static JumpLog Read(IEnumerable<FrameColumn> columns, string name) =>
        LogReader.Read(new LogFiles(name, null, [], [], [new FrameTable(name, [.. columns])]), null);

    public IEnumerable<RawRow> Rows()
    {
        var rows = columns.Count == 0 ? 0 : columns[0].Values.Count;
        for (var i = 0; i < rows; i++)
            yield return new RawRow(new RowSource(name, i + 2), i + 2,
                [.. columns.Select(c => FrameReading.Text(c.Values[i]) ?? "")], null);
    }
}
