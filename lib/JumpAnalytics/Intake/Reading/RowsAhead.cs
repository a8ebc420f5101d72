namespace JumpAnalytics;

/// <summary>Works on rows on all cores while they are taken in their order; only some thousands are held at a time.</summary>
internal static class RowsAhead
{
    private const int Chunk = 2048;

    /// <summary>The rows in their order, each with what was made of it; of a blank row nothing is.</summary>
    /// <param name="rows">The rows, read one after another.</param>
    /// <param name="make">Is called on any core.</param>
    public static IEnumerable<(RawRow Raw, RowReader Row, object? Record)> Of(IEnumerable<RawRow> rows,
        Func<RawRow, (RowReader Row, object? Record)> make)
    {
        var ahead = new Queue<Task<(RawRow, RowReader, object?)[]>>();
        foreach (var chunk in rows.Chunk(Chunk))
        {
            ahead.Enqueue(Task.Run(() => Array.ConvertAll(chunk, One)));
            if (ahead.Count <= Environment.ProcessorCount + 1) continue;
            foreach (var row in ahead.Dequeue().GetAwaiter().GetResult()) yield return row;
        }
        while (ahead.Count > 0)
        {
            foreach (var row in ahead.Dequeue().GetAwaiter().GetResult()) yield return row;
        }

        (RawRow, RowReader, object?) One(RawRow raw)
        {
            if (raw.IsBlank) return (raw, null!, null);
            var (row, record) = make(raw);
            return (raw, row, record);
        }
    }
}
