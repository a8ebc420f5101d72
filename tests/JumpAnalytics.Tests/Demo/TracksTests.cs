using System.Globalization;
using System.Xml;
using JumpAnalytics.Demo;

namespace JumpAnalytics.Tests.Demo;

/// <summary>The demo's tracks are flown as the record has it, and the reader makes of each what its planted fault deserves.</summary>
public class TracksTests
{
    private static readonly LogDescents _descents = LogDescents.Of(DemoLog.Log);

    private static readonly IReadOnlyList<string[]> _truth = [.. DemoLog.Rows("track-truth.csv")];

    private static Landing LandingOf(string[] row) => DemoLog.Log.Landings.Single(l => l.Drop.Id == row[1]
        && (l.Track == $"tracks/{row[0]}" || (l.Track is null && _descents.TrackOf(l).Value?.Name == $"tracks/{row[0]}")));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>
    /// Places from exit to landing are drift and steering of the season, to a micrometre, whatever wind and headings were made up.
    /// </summary>
    [Fact]
    public void Flights_add_up_to_the_record()
    {
        Assert.Equal(51, DemoLog.Season.Tracks.Flown.Count);
        foreach (var (name, _, row, flight) in DemoLog.Season.Tracks.Flown)
        {
            var touchdown = row.Touchdown!;
            var (from, to) = (flight.Places[0], flight.Places[^1]);
            var (drift, steering) = (Flight.MetresPerYd * touchdown.UnsteeredDrift, Flight.MetresPerYd * touchdown.Steering);
            Close.Absolute(new LocalVector(drift.East + steering.East, drift.North + steering.North),
                new LocalVector(to.East - from.East, to.North - from.North), 1e-6, name);
            Close.Absolute(new LocalVector(Flight.MetresPerYd * touchdown.Miss.East, Flight.MetresPerYd * touchdown.Miss.North),
                new LocalVector(to.East, to.North), 1e-6, name);
            Close.Absolute(row.Drop.ExitFt * 0.3048, flight.Heights[0], 1e-9, name);
            Assert.Equal(0, flight.Heights[^1]);
            Assert.True(flight.Heights.Zip(flight.Heights.Skip(1), (a, b) => a >= b).All(x => x), name);
        }
    }

    [Fact]
    public void Every_fault_is_planted_once_or_twice_and_what_it_deserves_is_done()
    {
        Assert.Equal(37, _truth.Count(t => t[4] == "good"));
        Assert.Equal(6, _truth.Count(t => t[3] == "no"));
        var expected = new Dictionary<string, string>
        {
            ["spikes"] = "spike", ["gap"] = "gap", ["late start"] = "late start", ["repeated times"] = "repeated time",
            ["ends in the air"] = "ends in the air", ["clock one hour off"] = "clock", ["broken off"] = "broken off",
            ["frozen receiver"] = "frozen place",
        };
        foreach (var row in _truth.Where(t => t[4] != "good"))
        {
            var landing = LandingOf(row);
            var (track, flight) = (_descents.TrackOf(landing), _descents.FlightOf(landing));
            switch (row[4])
            {
                case "no heights": Assert.Contains("has no heights", track.Reason, StringComparison.Ordinal); break;
                case "another descent's file":
                    Assert.Contains("it is another descent, or the wrong file", track.Reason, StringComparison.Ordinal);
                    break;
                case "held one heading":
                    Assert.Contains("too little to tell wind from forward speed", flight.Reason, StringComparison.Ordinal);
                    break;
                case "one point in five seconds": Assert.Contains("too sparse", flight.Reason, StringComparison.Ordinal); break;
                case "long walk":
                    Assert.Contains(track.Value!.Notes,
                        n => n.Kind == "after touchdown" && n.Text.StartsWith("12", StringComparison.Ordinal));
                    break;
                default: Assert.Contains(track.Value!.Notes, n => n.Kind == expected[row[4]]); break;
            }
        }
        // two rows name files that nobody kept
        Assert.Equal(2, DemoLog.Log.Landings.Count(l =>
            l.Track is not null && _descents.TrackOf(l).Reason?.StartsWith("there is no file", StringComparison.Ordinal) == true));
        Assert.Empty(_descents.Tracks.Unmatched); // those that no row names all found their landing
        Assert.Equal(6, _descents.Tracks.Matches.Values.Count(m => m == TrackMatch.TimeAndPlace));
    }

    /// <summary>
    /// True steering in the 90 % region of each track that tells it: at least three quarters (90 % expected of some 43; fewer by chance in
    /// less than 1 of 200), and moments within seconds of the truth.
    /// </summary>
    [Fact]
    public void The_truth_lies_where_the_tracks_say()
    {
        var (told, held, exits, touchdowns) = (0, 0, new List<double>(), new List<double>());
        foreach (var row in _truth.Where(t => t[4] is not ("another descent's file" or "no heights")))
        {
            var landing = LandingOf(row);
            var track = _descents.TrackOf(landing).Value!;
            if (row[4] != "clock one hour off")
            {
                if (track.Exit is { } exit) exits.Add(Seconds(row[6], track, exit));
                if (track.Touchdown is { } down) touchdowns.Add(Seconds(row[8], track, down));
            }
            if (_descents.FlightOf(landing).Value is not { } flight) continue;
            told++;
            var (e, n, c) = (flight.Steering.East - Number(row[11]), flight.Steering.North - Number(row[12]), flight.SteeringError);
            if (c.SquaredLength(e, n) < 4.605) held++;
        }
        Assert.InRange(told, 40, 51);
        Assert.InRange(held, 0.75 * told, told);
        Assert.InRange(Math.Sqrt(exits.Average(x => x * x)), 0, 2);
        Assert.InRange(Math.Sqrt(touchdowns.Average(x => x * x)), 0, 2);

        static double Seconds(string utc, DescentTrack track, TrackMoment moment) =>
            (track.Start!.Value.ToDateTimeUtc().AddSeconds(moment.Seconds)
                - DateTime.Parse(utc, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal)).TotalSeconds;
    }

    [Fact]
    public void Files_are_what_they_say_and_name_nobody()
    {
        var broken = 0;
        foreach (var (name, text) in DemoLog.Season.Tracks.Files)
        {
            if (name.EndsWith(".igc", StringComparison.Ordinal)) Assert.All(text.Split('\n').Where(l => l.StartsWith('B')),
                l => Assert.Matches(@"^B\d{6}\d{7}[NS]\d{8}[EW]A\d{5}\d{5}\d{3}$", l));
            if (!name.EndsWith(".gpx", StringComparison.Ordinal)) continue;
            try
            {
                new XmlDocument().LoadXml(text);
            }
            catch (XmlException)
            {
                broken++;
            }
            Assert.Matches("<name>J\\d\\d</name>", text);
        }
        Assert.Equal(1, broken);
        Assert.InRange(DemoLog.Season.Tracks.Files.Sum(f => f.Value.Length), 300_000, 1_500_000);
    }

    /// <summary>
    /// The parts of every miss with a track add up, and the forecast error so found lies about the season's own (its sd: some 100 yd).
    /// </summary>
    [Fact]
    public void Budgets_of_tracked_landings_close()
    {
        var tracked = _descents.Tracks.Tracked.Where(l => _descents.FlightOf(l).Success).ToList();
        foreach (var landing in tracked)
        {
            var budget = _descents.BudgetOf(landing);
            Close.Absolute(budget.Miss,
                budget.ExitPlacement.Vector!.Value + budget.ForecastError.Vector!.Value + budget.Steering.Vector!.Value, 1e-9);
        }
        Assert.InRange(tracked.Average(l => _descents.BudgetOf(l).ForecastError.Vector!.Value.Length), 50, 250);
    }
}
