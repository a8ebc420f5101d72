using System.Buffers.Binary;
using System.Globalization;
using Parquet;
using Parquet.Schema;

namespace JumpAnalytics;

/// <summary>A Parquet file of flat columns; typed values become the text a log is written in.</summary>
internal sealed class ParquetFile : ILogTable
{
    /// <summary>Rows in a file; encoded runs make a small file unpack to any number of them.</summary>
    private const long MostRows = 5_000_000;

    /// <summary>For one row group. The library does not come back from some damaged files.</summary>
    private static readonly TimeSpan _longestRead = TimeSpan.FromMinutes(1);

    private static readonly ParquetOptions _options = new() { UseDateOnlyTypeForDates = true };

    private readonly string _path;

    private ParquetFile(string path)
    {
        _path = path;
        (Header, var left, var rows) = Read(reader => Task.FromResult((
            FlatColumns(reader).Select(f => f.Name.Trim()).ToList(),
            reader.Schema.Fields.Where(f => f is not DataField { IsArray: false }).Select(f => f.Name).ToList(),
            reader.RowGroups.Sum(g => g.RowCount))));
        if (rows > MostRows) throw new LogFormatException($"{Name} has {Rounding.Count(rows)} rows, which is no log of jumps.");
        Remarks = left.Count == 0 ? [] : [$"columns that hold lists or groups were not read: {string.Join(", ", left)}"];
    }

    public string Name => Path.GetFileName(_path);

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<string> Remarks { get; }

    /// <exception cref="LogFormatException">The file can't be opened, is damaged, or holds more rows than any log.</exception>
    public static ParquetFile Open(string path) => new(path);

    public IEnumerable<RawRow> Rows()
    {
        var line = 1;
        for (var group = 0; group < Read(reader => Task.FromResult(reader.RowGroupCount)); group++)
        {
            var at = group;
            var columns = Read(reader => ColumnsOf(reader, at));
            for (var row = 0; row < (columns.Count == 0 ? 0 : columns[0].Length); row++)
            {
                line++;
                yield return new RawRow(new RowSource(Name, line), line, [.. columns.Select(c => c[row])], null);
            }
        }
    }

    private static IEnumerable<DataField> FlatColumns(ParquetReader reader) =>
        reader.Schema.Fields.OfType<DataField>().Where(f => !f.IsArray);

    private static async Task<List<string[]>> ColumnsOf(ParquetReader reader, int index)
    {
        var columns = new List<string[]>();
        using var group = reader.OpenRowGroupReader(index);
        foreach (var field in FlatColumns(reader)) columns.Add(await TextsOf(group, field).ConfigureAwait(false));
        return columns;
    }

    private static Task<string[]> TextsOf(ParquetRowGroupReader group, DataField field)
    {
        var type = field.ClrType;
        return type == typeof(string) || type == typeof(ReadOnlyMemory<char>) ? Strings(group, field)
            : type == typeof(double) ? Values<double>(group, field, CellText.Of)
            : type == typeof(float) ? Values<float>(group, field, v => v.ToString("R", CultureInfo.InvariantCulture))
            : type == typeof(decimal)
            ? Values<decimal>(group, field, v => v.ToString("0.############################", CultureInfo.InvariantCulture))
            : type == typeof(bool) ? Values<bool>(group, field, CellText.Of)
            : type == typeof(DateTime)
            ? Values<DateTime>(group, field,
                v => CellText.Of(DateTime.SpecifyKind(v, IsUtc(field) ? DateTimeKind.Utc : DateTimeKind.Unspecified)))
            : type == typeof(DateOnly) ? Values<DateOnly>(group, field, v => CellText.Of((object)v))
            : type == typeof(int) ? Values<int>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(long) ? Values<long>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(short) ? Values<short>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(byte) ? Values<byte>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(sbyte) ? Values<sbyte>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(ushort) ? Values<ushort>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(uint) ? Values<uint>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : type == typeof(ulong) ? Values<ulong>(group, field, v => v.ToString(CultureInfo.InvariantCulture))
            : throw new LogFormatException($"column '{field.Name}' holds {type.Name}, which is no text, number, "
                + "time or yes/no; write it as text");
    }

    private static bool IsUtc(DataField field) => field is DateTimeDataField { IsAdjustedToUTC: true };

    private static async Task<string[]> Strings(ParquetRowGroupReader group, DataField field)
    {
        var values = new string?[group.RowCount];
        await group.ReadAsync(field, values.AsMemory()!).ConfigureAwait(false);
        return [.. values.Select(v => v ?? "")];
    }

    private static async Task<string[]> Values<T>(ParquetRowGroupReader group, DataField field, Func<T, string> text) where T : struct
    {
        var values = new T?[group.RowCount];
        if (field.IsNullable)
        {
            await group.ReadAsync(field, values.AsMemory()).ConfigureAwait(false);
            return [.. values.Select(v => v is { } value ? text(value) : "")];
        }
        var filled = new T[group.RowCount];
        await group.ReadAsync<T>(field, filled.AsMemory()).ConfigureAwait(false);
        return [.. filled.Select(text)];
    }

    /// <summary>Whatever a damaged file makes the library throw is one error to a reader.</summary>
    private T Read<T>(Func<ParquetReader, Task<T>> read)
    {
        try
        {
            CheckFooter();
            return Task.Run(async () =>
            {
                var reader = await ParquetReader.CreateAsync(_path, _options).ConfigureAwait(false);
                await using (reader.ConfigureAwait(false)) return await read(reader).ConfigureAwait(false);
            }).WaitAsync(_longestRead).GetAwaiter().GetResult();
        }
        catch (Exception e) when (e is not (OutOfMemoryException or LogFormatException))
        {
            throw new LogFormatException($"{Name} can't be read as Parquet: {e.Message}", e);
        }
    }

    /// <summary>
    /// The file ends in its description, the length of that, and PAR1. The library does not check the length and may not come back.
    /// </summary>
    private void CheckFooter()
    {
        using var stream = File.OpenRead(_path);
        Span<byte> end = stackalloc byte[8];
        if (stream.Length < 12) throw new InvalidDataException("it is too short.");
        stream.Seek(-8, SeekOrigin.End);
        stream.ReadExactly(end);
        if (!end[4..].SequenceEqual("PAR1"u8)) throw new InvalidDataException("its end is missing.");
        if (BinaryPrimitives.ReadInt32LittleEndian(end) is var length && (length <= 0 || length > stream.Length - 12))
            throw new InvalidDataException("its description of the columns is damaged.");
    }
}
