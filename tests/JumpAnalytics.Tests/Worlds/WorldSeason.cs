using System.Globalization;
using System.Text;

namespace JumpAnalytics.Tests.Worlds;

/// <summary>
/// What a base would have written down of its seasons, read by the library. All of a pass leave at one place, so neither ground speed nor
/// spacing is written.
/// </summary>
/// <param name="Log">The log, through the library's reader.</param>
/// <param name="Flown">Landings that took place, written down or not.</param>
/// <param name="FlownHits">Those of them inside their target radius, where they truly came down.</param>
/// <param name="OwnMixRate">The true landing rate of the world in just the conditions that were flown.</param>
internal sealed record WorldSeason(JumpLog Log, int Flown, int FlownHits, double OwnMixRate)
{
    private const string DropsHeader = "drop_id,mission,time,season,base,spotter,aircraft,terrain,target_radius_yd,wind_speed_mph,"
        + "wind_from_deg,forecast_drift_yd,forecast_to_deg,exit_height_ft,streamer_minutes,run_heading_deg,"
        + "exit_distance_yd,exit_bearing_deg\n";

    private const string LandingsHeader = "drop_id,jumper,exit_order,canopy,hung_up,measured_by,landing_distance_yd,landing_bearing_deg\n";

    /// <summary>Lost landings leave a gap in the exit order, as they would at a base.</summary>
    public static WorldSeason Of(World world, int seed)
    {
        var (dice, pen) = (world.Dice(seed), world.Dice(~seed));
        var (drops, landings) = (new StringBuilder(DropsHeader), new StringBuilder(LandingsHeader));
        var (flown, hits, own) = (0, 0, 0.0);
        for (var m = 0; m < world.Missions; m++)
        {
            var (season, number) = (m / world.MissionsPerSeason, m % world.MissionsPerSeason);
            var (terrain, spotter, meanWind) = world.NextMission(dice);
            var from = 360 * dice.Share();
            var time = new DateTime(2041 + season, 5, 15, 10, 0, 0).AddDays(120.0 * number / world.MissionsPerSeason)
                .AddMinutes(dice.Below(240));
            var shared = world.UnitPart(dice);
            var (passes, jumper) = (1 + dice.Below(3), dice.Below(60));
            for (var p = 0; p < passes; p++)
            {
                var wind = WindOfPass(meanWind, dice);
                var to = (from + 180 + (8 * dice.Normal()) + 360) % 360;
                var id = $"{2041 + season}-{number + 1:000}-{p + 1}";
                var (scale, radius) = (world.ScaleOf(season, terrain, wind), World.Terrains[terrain].Radius);
                var exit = Times(scale * Math.Sqrt(world.PassShare), world.UnitPart(dice));
                var drift = 25 * Math.Round(wind * (55 + (10 * pen.Share())) / 25);
                WriteDrop(id, season, number, terrain, spotter, wind, from, to, drift, exit, time.AddMinutes(6 * p));
                var jumpers = world.UnequalSticks ? dice.Share() < 0.5 ? 1 : 8 : 1 + dice.Below(3);
                for (var j = 0; j < jumpers; j++)
                {
                    var miss = Sum(Times(scale * Math.Sqrt(world.MissionShare), shared), exit,
                        Times(scale * Math.Sqrt(world.OwnShare), world.UnitPart(dice)), world.BiasOf(spotter));
                    var far = double.Hypot(miss.Downwind, miss.Right);
                    flown++;
                    if (far <= radius) hits++;
                    own += world.Truth.ChanceInside(season, terrain, spotter, wind);
                    var lost = far <= radius ? 0 : far <= 2 * radius ? world.LostFar : Math.Min(1, 2 * world.LostFar);
                    jumper = (jumper + 1) % 60; // nobody jumps twice on a mission
                    if (pen.Share() >= lost) WriteLanding(id, jumper, j + 1, miss, to);
                }
            }
        }
        var folder = Directory.CreateTempSubdirectory("world-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "drops.csv"), drops.ToString());
            File.WriteAllText(Path.Combine(folder, "landings.csv"), landings.ToString());
            return new(JumpLog.Read(folder), flown, hits, own / flown);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        void WriteDrop(string id, int season, int number, int terrain, int spotter, double wind, double from, double to, double drift,
            (double Downwind, double Right) exit, DateTime time)
        {
            var (east, north) = FromDownwind(exit.Downwind - drift, exit.Right, to);
            drops.Append(CultureInfo.InvariantCulture, $"{id},{2041 + season}-{number + 1:000},{time:yyyy-MM-ddTHH:mm}-07:00,")
                .Append(CultureInfo.InvariantCulture, $"{2041 + season},")
                .Append(CultureInfo.InvariantCulture, $"Lower Fork,P{spotter + 1},T1,{World.Terrains[terrain].Name},")
                .Append(CultureInfo.InvariantCulture, $"{World.Terrains[terrain].Radius},{wind:0.#},{from:0.##},{drift},{to:0.######},")
                .Append(CultureInfo.InvariantCulture, $"{1500 + (100 * pen.Below(16))},{5 + pen.Below(21)},")
                .Append(CultureInfo.InvariantCulture, $"{(from + (40 * pen.Normal()) + 720) % 360:0.##},")
                .Append(Polar(east, north, world)).Append('\n');
        }

        void WriteLanding(string id, int jumper, int order, (double Downwind, double Right) miss, double to)
        {
            var (east, north) = FromDownwind(miss.Downwind, miss.Right, to);
            landings.Append(CultureInfo.InvariantCulture, $"{id},J{jumper + 1},{order},{(jumper % 3 == 0 ? "round" : "ram-air")},no,gps,")
                .Append(Polar(east, north, world)).Append('\n');
        }
    }

    /// <summary>The wind changes by half a mile an hour or not between the passes of a mission.</summary>
    public static double WindOfPass(double meanWind, Dice dice) => meanWind + (0.5 * (dice.Below(3) - 1));

    /// <summary>The bearing that the distance is written with falls on whole steps of 360°.</summary>
    private static string Polar(double east, double north, World world)
    {
        var bearing = (Math.Atan2(east, north) * 180 / Math.PI + 360) % 360;
        var steps = Math.Round(bearing / world.WrittenBearing) * world.WrittenBearing % 360;
        var distance = Math.Round(double.Hypot(east, north) / world.WrittenDistance) * world.WrittenDistance;
        return string.Create(CultureInfo.InvariantCulture, $"{distance:0.##},{steps:0.##}");
    }

    private static (double East, double North) FromDownwind(double downwind, double right, double to)
    {
        var (sin, cos) = Math.SinCos(to * Math.PI / 180);
        return ((downwind * sin) + (right * cos), (downwind * cos) - (right * sin));
    }

    private static (double Downwind, double Right) Times(double factor, (double Downwind, double Right) part) =>
        (factor * part.Downwind, factor * part.Right);

    private static (double Downwind, double Right) Sum(params (double Downwind, double Right)[] parts) =>
        (parts.Sum(p => p.Downwind), parts.Sum(p => p.Right));
}
