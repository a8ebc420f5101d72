using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>The storms record, read once; see tests/reference/storms-2005-2021/README.md.</summary>
internal static class Storms
{
    public const double NauticalMile = 1852;

    private static readonly Lazy<JumpLog> _log = new(() => JumpLog.Read(ReferenceFiles.PathOf("storms-2005-2021")));

    public static JumpLog Log => _log.Value;

    /// <summary>Bands of the reference figures; the fewest resamples, since none of the figures compared rests on them.</summary>
    public static AccuracyOptions Options { get; } = new()
    {
        Bands = WindBands.Parse("0,5,10,15", MeasureUnit.Speed("kt")),
        Units = ReportUnits.Of("nm", "kt"),
        Replicates = 200,
    };

    /// <summary>The reference figures. The first field may hold a comma: the last two commas of a line part its fields.</summary>
    public static IReadOnlyList<(string Cell, string Quantity, double Value)> Figures { get; } = [.. File
        .ReadLines(ReferenceFiles.PathOf("storms-2005-2021/reference.csv")).Skip(1).Select(line =>
        {
            var last = line.LastIndexOf(',');
            var middle = line.LastIndexOf(',', last - 1);
            return (line[..middle], line[(middle + 1)..last], double.Parse(line[(last + 1)..], CultureInfo.InvariantCulture));
        })];
}
