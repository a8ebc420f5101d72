using System.Text;
using CsCheck;

namespace JumpAnalytics.Tests;

/// <summary>Damaged files of the other formats: a log that is accounted for, or the error of the format, and nothing else.</summary>
public sealed class DamagedFilesTests
{
    private const string Drops = TempLog.DropsHeader + ",spot_lat,spot_lon\n" + TempLog.Drop1 + ",46.95,-116.3\n";

    private static byte[] Parquet()
    {
        using var files = new TempLog();
        var drop = Made.Drop();
        new JumpLog("made", null, [drop], [.. Enumerable.Range(0, 20).Select(i => Made.Landing(drop, i, -i))], Made.NoIntake)
            .Write(files.Folder, LogFileFormat.Parquet);
        return File.ReadAllBytes(Path.Combine(files.Folder, "landings.parquet"));
    }

    private static byte[] Original(string file) => file switch
    {
        "landings.parquet" => Parquet(),
        "landings.gpx" => Encoding.UTF8.GetBytes("<gpx version=\"1.1\">\n<wpt lat=\"46.95\" "
            + "lon=\"-116.3\"><name>d1/J1</name><desc>é</desc></wpt>\n<wpt lat=\"46.95\" lon=\"-116.31\"><name>d1/J2</name></wpt>\n</gpx>"),
        _ => Encoding.UTF8.GetBytes("{\"type\":\"FeatureCollection\",\"features\":[\n"
            + "{\"properties\":{\"drop_id\":\"d1\",\"x\":\"é\\u00e9\"},\"geometry\":{\"type\":\"Point\",\"coordinates\":[-116.3,46.95]}}\n"
            + "]}"),
    };

    [Theory]
    [InlineData("landings.parquet", 42)]
    [InlineData("landings.gpx", 43)]
    [InlineData("landings.geojson", 44)]
    public void Damage_throws_nothing_but_the_error_of_the_format(string file, ulong seed)
    {
        var good = Original(file);
        using var log = new TempLog().With("drops.csv", Drops);
        var refused = 0;
        Cases.Each(Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte, Gen.Int[0, 3]), 200, seed, blow =>
        {
            var (at, value, kind) = blow;
            log.With(file, kind == 0 ? good[..at] : [.. good[..at], value, .. good[(at + 1)..]]);
            try
            {
                var read = log.Read();
                Assert.Equal(read.Intake.RowsRead, read.Intake.RowsAccepted + read.Intake.RowsQuarantined);
            }
            catch (LogFormatException e)
            {
                Assert.Contains(file, e.Message, StringComparison.Ordinal);
                refused++;
            }
        });
        Assert.InRange(refused, 40, 199);
    }
}
