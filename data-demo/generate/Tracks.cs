using System.Globalization;

namespace JumpAnalytics.Demo;

/// <summary>
/// Descent tracks of some missions of the last season: every eighth mission, in turn with recorders on all jumpers and on the first of each
/// pass only. Some are bad, each in a known way; some are named by no row. Nothing of the record changes but its column of tracks.
/// </summary>
sealed class Tracks
{
    public const int EveryNthMission = 8;

    /// <summary>What is wrong with which track, by its number from 0.</summary>
    private static readonly Dictionary<int, string> _faults = new()
    {
        [2] = "spikes", [5] = "gap", [8] = "late start", [11] = "repeated times", [14] = "ends in the air", [17] = "clock one hour off",
        [20] = "broken off", [23] = "no heights",
        [26] = "another descent's file", [29] = "long walk", [32] = "frozen receiver", [35] = "held one heading",
        [38] = "held one heading", [41] = "one point in five seconds",
    };

    private static readonly HashSet<int> _unnamed = [1, 7, 13, 19, 25, 31];

    private readonly Dice _dice;

    public Tracks(DemoSeason season, Dice dice)
    {
        _dice = dice;
        var landings = season.AcceptedLandings.Where(r => r.Drop.Mission.Season == Planted.Seasons[^1] && r["Landing_Beyond_yd"] == "")
            .GroupBy(r => r.Drop.Mission).ToList();
        var missions = landings.Where((_, i) => i % EveryNthMission == EveryNthMission - 1).ToList();
        var (number, flown) = (0, new List<(Row Row, Flight Flight, string Name, string Kind, double Hertz)>());
        foreach (var (mission, m) in missions.Select((x, i) => (x, i)))
        {
            foreach (var row in mission.Where(r => m % 2 == 0 || r.Touchdown!.Order == 0))
            {
                var kind = _faults.GetValueOrDefault(number, "good");
                var format = kind is "no heights" or "broken off" or "long walk"
                    ? "gpx" : number % 7 == 3 ? "igc" : number % 7 == 5 ? "csv" : "gpx";
                var hertz = kind == "one point in five seconds" ? 0.2 : format == "igc" ? 1
                    : dice.Weighted([(0.66, 1.0), (0.16, 2.0), (0.06, 5.0), (0.12, 0.5)]);
                var held = kind == "held one heading";
                var plan = new FlightPlan(held ? 0 : 2 + dice.Below(3), !held, dice.Between(12, 20),
                    kind == "long walk" ? 120 : dice.Between(8, 40), kind == "long walk" || dice.Chance(0.4));
                var flight = new Flight(row.Drop, row.Touchdown!, plan, dice);
                flown.Add((row, flight, $"{row.Drop.Id}-{row.Touchdown!.Order + 1}.{format}", kind, hertz));
                number++;
            }
        }
        foreach (var (one, i) in flown.Select((x, i) => (x, i)))
        {
            var named = !_unnamed.Contains(i);
            if (named) one.Row["Track"] = "tracks/" + one.Name;
            Add(one.Row, one.Flight, one.Name, one.Kind, one.Hertz, named, flown[(i + 9) % flown.Count].Flight);
        }
        foreach (var row in season.AcceptedLandings.Where(r => r.Drop.Mission.Season == Planted.Seasons[^1] && r["Track"] == ""
            && flown.All(f => f.Row.Drop.Mission != r.Drop.Mission)).TakeLast(2))
            row["Track"] = $"tracks/{row.Drop.Id}-{row.Touchdown!.Order + 1}.gpx"; // a file that nobody kept
    }

    /// <summary>Files by name.</summary>
    public SortedDictionary<string, string> Files { get; } = new(StringComparer.Ordinal);

    /// <summary>The flights behind the files, with the kind of each.</summary>
    public List<(string Name, string Kind, Row Row, Flight Flight)> Flown { get; } = [];

    /// <summary>The lines of track-truth.csv.</summary>
    public List<string> Truth { get; } =
        ["file,drop_id,exit_order,named,kind,sampling_hz,exit_utc,opening_utc,touchdown_utc,unsteered_drift_east_m,unsteered_drift_north_m,"
            + "steering_east_m,steering_north_m,forward_speed_mps,descent_s,full_turns,"
            + string.Join(',', WindHeights.Select(h => $"wind_{h}_east_mps,wind_{h}_north_mps"))];

    private static IEnumerable<int> WindHeights => [50, 150, 300, 450, 600, 800];

    private void Add(Row row, Flight flight, string name, string kind, double hertz, bool named, Flight other)
    {
        var recorded = kind == "another descent's file" ? other : flight;
        var exit = Exit(recorded);
        var clock = (double t) => exit.AddSeconds(t) + (kind == "clock one hour off" ? TimeSpan.FromHours(1) : TimeSpan.Zero);
        var from = kind == "late start" ? recorded.OpeningS + 25 : -recorded.Plan.LegBeforeS;
        var to = kind == "ends in the air" ? recorded.DescentS - 25 : recorded.DescentS + recorded.Plan.StandAfterS;
        var seen = Spoilt(kind, RecorderDevice.See(recorded, hertz, from, to, _dice));
        var jumper = row["Jumper"];
        Files[name] = name[^3..] switch
        {
            "igc" => RecorderDevice.Igc(seen, clock, jumper),
            "csv" => RecorderDevice.Csv(seen, clock),
            _ => RecorderDevice.Gpx(seen, clock, jumper),
        };
        if (kind == "broken off") Files[name] = Files[name][..(int)(Files[name].Length * 0.8)];
        Flown.Add((name, kind, row, flight));
        Truth.Add(Line(row, flight, name, kind, hertz, named, Exit(flight)));
    }

    /// <summary>UTC of an exit: the pass's minute, give or take, and the place in the stick.</summary>
    private DateTime Exit(Flight flight)
    {
        var drop = flight.Drop;
        var within = new Dice(Planted.Seed, 5000 + (ulong)Math.Abs(drop.Id.Aggregate(0, (h, c) => unchecked(h * 31 + c)) % 100_000))
            .Between(-35, 35);
        return drop.Time.AddHours(10).AddSeconds(Math.Round(within, 2) + drop.SpacingS * flight.Touchdown.Order);
    }

    private List<Seen> Spoilt(string kind, List<Seen> rows)
    {
        switch (kind)
        {
            case "spikes":
                foreach (var i in new[] { rows.Count / 3, rows.Count / 2, rows.Count * 2 / 3 })
                    rows[i] = rows[i] with { Lat = rows[i].Lat + 0.004, Gps = rows[i].Gps + 90 };
                return rows;
            case "gap":
                return [.. rows.Where(r => r.Seconds is < 40 or > 60)];
            case "repeated times":
                return [.. rows.SelectMany((r, i) => i % 6 == 5 ? new[] { r, r with { Lat = r.Lat + 0.00001 } } : [r])];
            case "no heights":
                return [.. rows.Select(r => r with { Gps = null })];
            case "frozen receiver":
                var stuck = rows.FindIndex(r => r.Seconds >= 50);
                return [.. rows.Select((r, i) =>
                    r.Seconds is >= 50 and < 58 ? r with { Lat = rows[stuck].Lat, Lon = rows[stuck].Lon } : r)];
            default:
                return rows;
        }
    }

    private static string Line(Row row, Flight flight, string name, string kind, double hertz, bool named, DateTime exit)
    {
        var (drift, steering) = (Flight.MetresPerYd * row.Touchdown!.UnsteeredDrift, Flight.MetresPerYd * row.Touchdown.Steering);
        var winds = WindHeights.SelectMany(h =>
            h < flight.Heights[0] ? new[] { Text(flight.WindAt(h).East), Text(flight.WindAt(h).North) } : ["", ""]);
        return string.Join(',', [name, row.Drop.Id, Text(row.Touchdown.Order + 1), named ? "yes" : "no", kind, Text(hertz), Utc(0),
            Utc(flight.OpeningS), Utc(flight.DescentS), Text(drift.East), Text(drift.North), Text(steering.East), Text(steering.North),
            Text(flight.ForwardSpeed), Text(flight.DescentS), Text(flight.Plan.FullTurns), .. winds]);

        string Utc(double t) => $"{exit.AddSeconds(t):yyyy-MM-ddTHH:mm:ss.ff}Z";
        static string Text(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
    }
}
