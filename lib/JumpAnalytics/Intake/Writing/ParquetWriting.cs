using Parquet;
using Parquet.Schema;

namespace JumpAnalytics;

/// <summary>Writes a table as Parquet: one row group, every column optional.</summary>
internal static class ParquetWriting
{
    public static void Write(string path, WrittenTable table) => Task.Run(() => WriteAsync(path, table)).GetAwaiter().GetResult();

    private static async Task WriteAsync(string path, WrittenTable table)
    {
        var fields = table.Columns.Select(c => new DataField(c.Header, c.Type, isNullable: true)).ToList();
        using var stream = new FileStream(path, FileMode.CreateNew);
        var writer = await ParquetWriter.CreateAsync(new ParquetSchema(fields), stream).ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            using var group = writer.CreateRowGroup();
            for (var i = 0; i < fields.Count; i++)
                await WriteColumn(group, fields[i], table.Columns[i].Type, [.. table.Rows.Select(r => r[i])]).ConfigureAwait(false);
        }
    }

    private static Task WriteColumn(ParquetRowGroupWriter group, DataField field, Type type, object?[] values) =>
        type == typeof(string) ? group.WriteAsync(field, Array.ConvertAll(values, v => (string?)v)!)
        : type == typeof(double) ? Values<double>(group, field, values)
        : type == typeof(int) ? Values<int>(group, field, values)
        : Values<bool>(group, field, values);

    private static Task Values<T>(ParquetRowGroupWriter group, DataField field, object?[] values) where T : struct =>
        group.WriteAsync<T>(field, Array.ConvertAll(values, v => (T?)v).AsMemory());
}
