using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>
/// The clean table that every messy workbook is made from: 24 passes of two jumpers, in yards, miles an hour and true degrees.
/// </summary>
internal static class CleanTable
{
    public sealed record Pass(string Id, string Mission, DateTime Time, string Terrain, int Radius, int Wind, int Drift, int To,
        string Spotter);

    public sealed record Jump(Pass Pass, string Jumper, int Distance, int Bearing);

    /// <summary>Passes on the days of June 2031 from the first to the last day given, in turn.</summary>
    public static IReadOnlyList<Pass> Passes(int firstDay = 1, int lastDay = 24) => [.. Enumerable.Range(0, 24).Select(i =>
        new Pass($"L{100 + i}",
        $"Creek {i / 2}", new DateTime(2031, 6, firstDay + i / 2 * 2 % (lastDay - firstDay + 1), 9 + i % 10, 5 + i, 0),
        i % 3 == 0 ? "timber" : "grass",
        25, 3 + i % 9, 120 + 17 * i, 37 * i % 360, i % 2 == 0 ? "AB" : "CD"))];

    public static IReadOnlyList<Jump> Jumps(IReadOnlyList<Pass> passes) => [.. passes.SelectMany((p, i) => Enumerable.Range(0, 2)
        .Select(k => new Jump(p, $"J{(2 * i + k) % 11}", 3 + (7 * i + 5 * k) % 60, (41 * i + 13 * k) % 360)))];

    /// <summary>The same read from plain files under the log's own headers.</summary>
    public static JumpLog Read(IReadOnlyList<Pass> passes, bool hasTimes = true)
    {
        using var log = TempLog.Of(
            TempLog.Lines([TempLog.DropsHeader + ",spotter", .. passes.Select(p => string.Join(',', p.Id, p.Mission,
                p.Time.ToString(hasTimes ? "yyyy-MM-dd'T'HH:mm" : "yyyy-MM-dd", CultureInfo.InvariantCulture), p.Terrain,
                p.Radius, p.Wind, p.Drift, p.To, p.Spotter))]),
            TempLog.Lines([TempLog.LandingsHeader + ",jumper", .. Jumps(passes).Select(j => string.Join(',', j.Pass.Id, j.Distance,
                j.Bearing,
                j.Jumper))]));
        return log.Read();
    }

    /// <summary>Days from 30 December 1899, as spreadsheets count.</summary>
    public static double Serial(DateTime time) => Math.Round((time - new DateTime(1899, 12, 30)).TotalDays, 10);

    public static string Text(this DateTime time, string format) => time.ToString(format, CultureInfo.InvariantCulture);
}
