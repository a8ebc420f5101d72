using System.Globalization;
using Deedle;
using Microsoft.Data.Analysis;

namespace JumpAnalytics;

/// <summary>Frames of either package as columns.</summary>
internal static class FrameReading
{
    public static IEnumerable<FrameColumn> Columns(DataFrame frame) =>
        frame.Columns.Select(c => Column(c.Name, [.. Enumerable.Range(0, (int)c.Length).Select(i => c[i])]));

    public static IEnumerable<FrameColumn> Columns<TKey>(Frame<TKey, string> frame) where TKey : notnull => frame.ColumnKeys.Select(name =>
    {
        var series = frame.Columns[name];
        return Column(name, [.. frame.RowKeys.Select(key => series.TryGet(key) is { HasValue: true } cell ? cell.Value : null)]);
    });

    /// <summary>A value as a file holds it: numbers with all their digits and a decimal point.</summary>
    public static string? Text(object? value) => value switch
    {
        null => null,
        bool flag => flag ? "yes" : "no",
        double number => double.IsNaN(number) ? null : number.ToString("R", CultureInfo.InvariantCulture),
        DateTime day => day.ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture),
        _ => Convert.ToString(value, CultureInfo.InvariantCulture),
    };

    private static FrameColumn Column(string name, List<object?> values)
    {
        List<object?> plain = [.. values.Select(v => v switch
        {
            double and double.NaN => null,
            float f => float.IsNaN(f) ? null : (double)f,
            decimal d => (double)d,
            long n => n is >= int.MinValue and <= int.MaxValue ? (int)n : (double)n,
            short or byte or sbyte or ushort => Convert.ToInt32(v, CultureInfo.InvariantCulture),
            _ => v,
        })];
        var types = plain.Where(v => v is not null).Select(v => v!.GetType()).Distinct().ToList();
        if (types.Count == 2 && types.Contains(typeof(int)) && types.Contains(typeof(double)))
        {
            plain = [.. plain.Select(v => v is int n ? (double)n : v)];
            types = [typeof(double)];
        }
        var kind = types switch
        {
            [] => FrameColumnKind.Quantity,
            [var only] when only == typeof(string) => FrameColumnKind.Text,
            [var only] when only == typeof(int) => FrameColumnKind.Count,
            [var only] when only == typeof(double) => FrameColumnKind.Quantity,
            [var only] when only == typeof(bool) => FrameColumnKind.YesNo,
            [var only] when only == typeof(DateTime) => FrameColumnKind.Day,
            _ => throw new ArgumentException($"The column '{name}' holds {string.Join(" and ", types.Select(t => t.Name))}; "
                + "a column holds texts, numbers, days, or yes and no."),
        };
        return new FrameColumn(name, kind, plain);
    }
}
