using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Which track belongs to which landing.</summary>
public sealed class LogTracksTests
{
    private const string Header = TempLog.DropsHeader + ",spot_lat,spot_lon,spot_elevation_m";

    /// <summary>A log of two jumpers who landed 20 m east and 60 m north of the spot at 21:21 UTC, rows naming the tracks given.</summary>
    private static TempLog Log(string? first, string? second)
    {
        var log = TempLog.Of(TempLog.Lines(Header, "d1,m1,2031-07-14T15:20-06:00,t,25,8,300,90,44,-150,300"),
            TempLog.Lines("drop_id,landing_east_m,landing_north_m,jumper,exit_order,track",
                $"d1,20,0,a,1,{first}", $"d1,0,60,b,2,{second}"));
        Directory.CreateDirectory(Path.Combine(log.Folder, "tracks"));
        return log;
    }

    /// <summary>A descent of 80 s that ends at a place, in clock time.</summary>
    private static string Track(double east, double north, string exit = "2031-07-14T21:20:20Z", double lat = 44)
    {
        var start = DateTime.Parse(exit, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal);
        var rows = Enumerable.Range(-12, 120).Select(t =>
        {
            var down = Math.Clamp(t, 0, 80);
            var (y, x) = (north - 4 * (80 - down) + (t < 0 ? 45 * t : 0), east);
            return string.Create(CultureInfo.InvariantCulture,
                $"{start.AddSeconds(t):yyyy-MM-ddTHH:mm:ss}Z,{lat + y / 111_100.0:0.0000000},"
                    + $"{-150 + x / (111_320 * Math.Cos(Math.PI * 44 / 180)):0.0000000},{300 + 5 * (80 - down):0.0}");
        });
        return "time,lat,lon,gps_height_m\n" + string.Join('\n', rows) + "\n";
    }

    private static LogTracks Read(TempLog log) => LogTracks.Of(log.Read());

    [Fact]
    public void A_row_may_name_its_track()
    {
        using var log = Log("tracks/a.csv", "").With("tracks/a.csv", Track(20, 0));
        var tracks = Read(log);
        var track = tracks.TrackOf(tracks.Log.Landings[0]).Value!;
        Assert.Equal(("tracks/a.csv", TrackMatch.Named), (track.Name, tracks.Matches["tracks/a.csv"]));
        Close.Absolute(new LocalVector(20, 0), track.End, 0.5);
        Assert.Equal("no descent track", tracks.TrackOf(tracks.Log.Landings[1]).Reason);
        Assert.Single(tracks.Tracked);
        Assert.Empty(tracks.Unmatched);
    }

    [Fact]
    public void Tracks_that_no_row_names_are_matched_by_time_and_place()
    {
        using var log = Log("", "").With("tracks/x.csv", Track(3, 58)).With("tracks/y.csv", Track(22, 1))
            .With("tracks/z.csv", Track(21, 2, "2031-07-16T21:20:20Z"));
        var tracks = Read(log);
        Assert.Equal(["tracks/y.csv", "tracks/x.csv"], tracks.Log.Landings.Select(l => tracks.TrackOf(l).Value!.Name));
        Assert.All(tracks.Matches.Values, m => Assert.Equal(TrackMatch.TimeAndPlace, m));
        Assert.Equal(("z.csv", "no landing without a track lies near its end at its time"), Assert.Single(tracks.Unmatched));
        Assert.Contains(tracks.TrackOf(tracks.Log.Landings[0]).Value!.Notes, n => n.Kind == "matched");
    }

    [Fact]
    public void A_track_between_two_landings_is_left_to_be_named()
    {
        using var log = Log("", "").With("tracks/x.csv", Track(10, 30));
        var unmatched = Assert.Single(Read(log).Unmatched);
        Assert.Equal("it fits d1, jumper 1 and d1, jumper 2 alike; name it in the track column", unmatched.Why);
    }

    [Theory]
    [InlineData("2031-07-14T22:20:20Z", "1 h ahead")]
    [InlineData("2031-07-14T14:50:20Z", "6.5 h behind")]
    public void A_clock_in_another_zone_is_noted(string exit, string words)
    {
        using var log = Log("tracks/a.csv", "").With("tracks/a.csv", Track(20, 0, exit));
        var tracks = Read(log);
        Assert.Contains(words, tracks.TrackOf(tracks.Log.Landings[0]).Value!.Notes.Single(n => n.Kind == "clock").Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_track_that_contradicts_its_row_is_refused()
    {
        string Why(string track)
        {
            using var log = Log("tracks/a.csv", "").With("tracks/a.csv", track);
            var tracks = Read(log);
            return tracks.TrackOf(tracks.Log.Landings[0]).Reason!;
        }
        Assert.Equal("tracks/a.csv was flown 2 days after the pass: it is another descent, or its clock is wrong",
            Why(Track(20, 0, "2031-07-16T21:20:20Z")));
        Assert.Equal("tracks/a.csv was flown 18 min after the pass: it is another descent, or its clock is wrong",
            Why(Track(20, 0, "2031-07-14T21:38:00Z")));
        Assert.Contains("from where the landing was recorded: it is another descent, or the wrong file",
            Why(Track(20, 0, lat: 44.02)), StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_files_files_named_twice_and_spots_without_a_position_have_a_reason()
    {
        using var twice = Log("tracks/a.csv", "tracks/a.csv").With("tracks/a.csv", Track(20, 0));
        var named = Read(twice);
        Assert.All(named.Log.Landings, l => Assert.Equal("tracks/a.csv is named by more than one row", named.TrackOf(l).Reason));
        using var gone = Log("tracks/gone.gpx", "");
        var missing = Read(gone);
        Assert.Equal("there is no file gone.gpx", missing.TrackOf(missing.Log.Landings[0]).Reason);
        using var nowhere = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines(TempLog.LandingsHeader + ",track", TempLog.Landing1 + ",a.gpx"));
        var tracks = Read(nowhere);
        Assert.Contains("the spot's position was not recorded", tracks.TrackOf(tracks.Log.Landings[0]).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_that_had_people_taken_out_leads_to_no_tracks()
    {
        using var log = Log("", "").With("tracks/y.csv", Track(22, 1));
        var read = log.Read();
        Assert.Single(LogTracks.Of(read).Tracked);
        Assert.Empty(LogTracks.Of(read.WithPseudonyms(PseudonymKey.Create(Path.Combine(log.Folder, "base.key")))).Tracked);
        Assert.Empty(LogTracks.Of(new JumpLog("made", null, [], [], Made.NoIntake)).Unmatched);
    }
}
