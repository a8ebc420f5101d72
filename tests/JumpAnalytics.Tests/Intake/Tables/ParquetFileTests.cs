using Parquet;
using Parquet.Schema;

namespace JumpAnalytics.Tests;

public sealed class ParquetFileTests
{
    private static async Task<ParquetFile> Written(TempLog log,
        params (DataField Field, Func<ParquetRowGroupWriter, DataField, Task> Write)[] columns)
    {
        var path = Path.Combine(log.Folder, "t.parquet");
        await using (var stream = File.Create(path))
        await using (var writer = await ParquetWriter.CreateAsync(new ParquetSchema(columns.Select(c => c.Field)), stream))
        {
            for (var i = 0; i < 2; i++)
            {
                using var group = writer.CreateRowGroup();
                foreach (var column in columns) await column.Write(group, column.Field);
            }
        }
        return ParquetFile.Open(path);
    }

    private static (DataField, Func<ParquetRowGroupWriter, DataField, Task>) Column<T>(DataField field, params T?[] values)
        where T : struct =>
        (field, (group, f) => group.WriteAsync<T>(f, values.AsMemory()));

    private static (DataField, Func<ParquetRowGroupWriter, DataField, Task>) Required<T>(string name, params T[] values) where T : struct =>
        (new DataField(name, typeof(T), isNullable: false), (group, f) => group.WriteAsync<T>(f, values.AsMemory()));

    private static DataField Optional<T>(string name) => new(name, typeof(T), isNullable: true);

    [Fact]
    public async Task Typed_columns_become_the_text_a_log_is_written_in()
    {
        using var log = new TempLog();
        var table = await Written(log,
            (Optional<string>("s"), (group, f) => group.WriteAsync(f, (string[])["x", null!])),
            Column<double>(Optional<double>("d"), 0.1, null), Column<float>(Optional<float>("f"), 0.1f, null),
            Column<int>(Optional<int>("i"), -3, null),
            Column<long>(Optional<long>("l"), long.MaxValue, null), Column<bool>(Optional<bool>("b"), true, null),
            Column<decimal>(Optional<decimal>("m"), 1.5m, null),
            Column<DateTime>(new DateTimeDataField("utc", DateTimeFormat.Timestamp, isAdjustedToUTC: true, isNullable: true),
                new DateTime(2031, 7, 14, 15, 20, 30, DateTimeKind.Utc), null),
            Column<DateTime>(new DateTimeDataField("local", DateTimeFormat.Timestamp, isAdjustedToUTC: false, isNullable: true),
                new DateTime(2031, 7, 14, 15, 20, 0), null),
            Column<DateOnly>(Optional<DateOnly>("day"), new DateOnly(2031, 7, 14), null),
            Required("r", 1.5, double.NaN), Required("n", 1, 2), Required("y", true, false));
        Assert.Equal(["s", "d", "f", "i", "l", "b", "m", "utc", "local", "day", "r", "n", "y"], table.Header);
        var rows = table.Rows().ToList();
        string[] first = ["x", "0.1", "0.1", "-3", "9223372036854775807", "yes", "1.5", "2031-07-14T15:20:30Z",
            "2031-07-14T15:20", "2031-07-14", "1.5", "1", "yes"];
        string[] second = ["", "", "", "", "", "", "", "", "", "", "NaN", "2", "no"];
        Assert.Equal([string.Join('|', first), string.Join('|', second), string.Join('|', first), string.Join('|', second)],
            rows.Select(r => string.Join('|', r.Fields)));
        Assert.Equal([2, 3, 4, 5], rows.Select(r => r.Source.Line));
    }

    [Fact]
    public async Task A_column_of_a_type_no_log_has_is_told()
    {
        using var log = new TempLog();
        var table = await Written(log, Column<Guid>(Optional<Guid>("key"), Guid.Empty, null));
        Assert.Contains("column 'key' holds Guid", Assert.Throws<LogFormatException>(() => table.Rows().ToList()).Message,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("PAR1")]
    [InlineData("drop_id,mission\n1,2\n")]
    public void What_is_no_Parquet_file_is_told(string text)
    {
        using var log = new TempLog().With("t.parquet", text);
        Assert.Contains("t.parquet can't be read as Parquet", Assert.Throws<LogFormatException>(log.Read).Message,
            StringComparison.Ordinal);
    }
}
