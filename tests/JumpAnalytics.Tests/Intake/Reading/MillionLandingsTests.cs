using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>An archive of a million landings is read, checked and reduced in bounded memory.</summary>
public sealed class MillionLandingsTests(ITestOutputHelper output)
{
    private const int Drops = 250_000, PerDrop = 4;

    [Fact]
    [Trait("Category", "Long")]
    public void A_million_landings_fit()
    {
        using var files = new TempLog();
        Write(Path.Combine(files.Folder, "drops.csv"), Path.Combine(files.Folder, "landings.csv"));
        var before = GC.GetTotalMemory(forceFullCollection: true);
        var log = files.Read();
        var held = (GC.GetTotalMemory(forceFullCollection: true) - before) / 1e6;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{log.Landings.Count} landings hold {held:0} MB"));
        Assert.Equal((Drops, Drops * PerDrop, 0), (log.Drops.Count, log.Landings.Count, log.Intake.RowsQuarantined));
        Assert.InRange(held, 0, 700); // of the 1,500 MB that the whole may take

        Assert.NotNull(RecordChecks.Of(log).Reading);
        var rates = RateTable.Of(log.Landings, new AccuracyOptions { Replicates = 200 });
        Assert.Equal(log.Landings.Count(l => l.Outcome == LandingOutcome.Hit), rates.Overall.Hits);
        Assert.InRange((GC.GetTotalMemory(forceFullCollection: true) - before) / 1e6, 0, 800); // nothing of the work is held on to
    }

    private static void Write(string dropsFile, string landingsFile)
    {
        var dice = new Random(1);
        using var drops = new StreamWriter(dropsFile);
        using var landings = new StreamWriter(landingsFile);
        drops.Write("drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph,forecast_drift_yd,forecast_to_deg,spotter,season,"
            + "streamer_minutes,spot_lat,spot_lon\n");
        landings.Write("drop_id,jumper,exit_order,canopy,hung_up,measured_by,landing_distance_yd,landing_bearing_deg\n");
        for (var i = 0; i < Drops; i++)
        {
            drops.Write(string.Create(CultureInfo.InvariantCulture,
                $"D{i},M{i / 2},2026-07-{1 + i % 28:00}T{10 + i % 9}:{i % 60:00}-06:00,{(i % 3 == 0 ? "meadow" : "timber")},45,"));
            drops.Write(string.Create(CultureInfo.InvariantCulture, $"{18 * dice.NextDouble():0.0},{dice.Next(50, 500)},{dice.Next(360)},S"
                + $"{i % 40},{2016 + i % 10},{dice.Next(2, 20)},44.{dice.Next(10000, 99999)},-116.{dice.Next(10000, 99999)}\n"));
            for (var j = 1; j <= PerDrop; j++)
                landings.Write(string.Create(CultureInfo.InvariantCulture,
                    $"D{i},J{i % 900}-{j},{j},round,no,pace,{-25 * Math.Log(1 - dice.NextDouble()):0},{dice.Next(360)}\n"));
        }
    }
}
