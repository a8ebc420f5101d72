namespace JumpAnalytics.Demo;

/// <summary>Who flew where, in which wind: everything known before anyone leaves the aircraft.</summary>
static class Seasons
{
    public static int Round(double value, int step) => (int)Math.Round(value / step, MidpointRounding.AwayFromZero) * step;
    public static int Bearing(double deg, int step) => (Round(deg, step) % 360 + 360) % 360;

    public static List<Mission> Missions(Dice dice)
    {
        var missions = new List<Mission>();
        foreach (var season in Planted.Seasons)
        {
            var flights = new List<DateTime>();
            while (flights.Count < Planted.MissionsPerSeason)
            {
                var day = new DateTime(season, 5, 15).AddDays(Round(74 + 34 * dice.Normal(), 1));
                var start = day.AddMinutes(Round(15 * 60 + 140 * dice.Normal(), 1));
                if (day < new DateTime(season, 5, 15) || day > new DateTime(season, 10, 5)) continue;
                if (start.Hour is < 8 or > 19 || flights.Any(f => Math.Abs((f - start).TotalHours) < 2)) continue;
                if (flights.Count(f => f.Date == day) < 2) flights.Add(start);
            }
            flights.Sort();
            missions.AddRange(flights.Select((start, i) => NewMission($"{season}-{i + 1:000}", start, dice)));
        }
        return missions;
    }

    private static Mission NewMission(string id, DateTime start, Dice dice)
    {
        var terrain = dice.Weighted(Planted.Terrains.Select(t => (t.Share, t)));
        var (angle, km) = (dice.Between(0, 360), Planted.IslandRadiusKm * Math.Sqrt(dice.Share()));
        var from = Vec.Toward(angle);
        var scale = start.Hour < 14 ? Planted.WindScaleMph : Planted.AfternoonWindScaleMph;
        double wind;
        do wind = dice.Weibull(Planted.WindShape, scale); while (wind > Planted.WindCutMph);
        return new Mission(id, start.Year, start, dice.Of(Planted.Spotters),
            dice.Chance(0.6) ? "A1" : "A2", terrain, dice.Of(terrain.Radii),
            dice.Chance(Planted.RoundShare) ? Planted.Round : Planted.RamAir,
            Math.Round(Planted.IslandLat + km * from.North / 111.1, 5), Math.Round(Planted.IslandLon + km * from.East / 80.2, 5),
            Round(dice.Between(terrain.LowFt, terrain.HighFt), 10), wind, 250 + 50 * dice.Normal());
    }

    public static IEnumerable<Drop> DropsOf(Mission mission, Dice dice)
    {
        var passes = dice.Weighted([(0.32, 1), (0.38, 2), (0.30, 3)]);
        var age = 3 + 5 * dice.Weibull(1.3, 1);
        var time = mission.Start;
        var jumpers = new Queue<string>(dice.Shuffled(Enumerable.Range(1, 44)).Select(j => $"J{j:00}"));
        for (var pass = 1; pass <= passes; pass++)
        {
            var wind = Math.Clamp(Math.Round(mission.WindMph + 0.4 * dice.Normal(), 1), 0.4, Planted.WindCutMph);
            var windFrom = Bearing(mission.WindFromDeg + 5 * dice.Normal(), dice.Chance(0.7) ? 10 : 5);
            var stick = dice.Weighted([(0.10, 1), (0.58, 2), (0.18, 3), (0.14, 4)]);
            yield return new Drop(mission, pass, time, wind, windFrom,
                SurfaceMph: Round(wind / 1.6 * dice.Between(0.7, 1.3), 1),
                ForecastYd: Math.Max(Round(wind * Descent.YdPerSecondPerMph * mission.Canopy.DescentS, dice.Chance(0.6) ? 25 : 10), 10),
                ForecastToDeg: Bearing(windFrom + 180 + 4 * dice.Normal(), 5),
                ExitFt: Round(mission.Canopy.ExitFt + mission.Canopy.HeightSdFt * dice.Normal(), 100),
                AgeMin: Math.Clamp(Round(age, 1), 2, 45),
                RunDeg: Bearing(windFrom + (dice.Chance(0.75) ? 0 : dice.Of(-90, 90)) + 10 * dice.Normal(), 5),
                GroundKt: Round(95 - wind * 0.7 + 4 * dice.Normal(), dice.Chance(0.5) ? 5 : 1),
                SpacingS: dice.Of(1.0, 1.5, 1.5, 2.0),
                Jumpers: Enumerable.Range(0, stick).Select(_ => jumpers.Dequeue()).ToArray());
            var circuit = dice.Between(3, 6);
            age = dice.Chance(0.12) ? dice.Between(3, 6) : age + circuit;    // now and then a second set of streamers
            time = time.AddMinutes(Round(circuit, 1));
        }
    }
}
