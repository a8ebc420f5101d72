namespace JumpAnalytics.Tests;

/// <summary>Tracks in every format, and files that are none.</summary>
public sealed class TrackFileTests
{
    private static Fit<RecordedTrack> Read(string name, string text)
    {
        using var folder = new TempLog();
        folder.With(name, text);
        return TrackFile.Read(Path.Combine(folder.Folder, name));
    }

    private const string Gpx = """
        <?xml version="1.0"?>
        <gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="1" lon="2"/>
        <trk><trkseg>
        <trkpt lat="44.1" lon="-150.2"><ele>812.5</ele><time>2031-07-14T21:20:00Z</time></trkpt>
        <trkpt lat="44.2" lon="-150.3"><time>2031-07-14T15:20:01.50-06:00</time><extensions><ele>9</ele></extensions></trkpt>
        <trkpt lat="44.2" lon="-150.3"><ele>700</ele></trkpt>
        <trkpt lat="95" lon="-150.3"><time>2031-07-14T21:20:03Z</time></trkpt>
        </trkseg><trkseg><trkpt lat="44.3" lon="-150.4"><ele> 600 </ele><time>2031-07-14T21:20:04Z</time></trkpt></trkseg></trk></gpx>
        """;

    [Fact]
    public void Gpx_points_of_all_segments_are_read_with_time_and_elevation()
    {
        var track = Read("a.gpx", Gpx).Value!;
        Assert.Equal(("GPX", "2031-07-14T21:20:00Z"), (track.Format, track.Start.ToString()));
        Assert.Equal([new RecordedFix(0, new GeoPosition(44.1, -150.2), 812.5, null), new(1.5, new GeoPosition(44.2, -150.3), null, null),
            new(4, new GeoPosition(44.3, -150.4), 600, null)], track.Fixes);
        Assert.Equal("2 of 5 points had no readable time or place and were left out.", Assert.Single(track.Notes).Text);
    }

    /// <summary>An elevation that can't be read is none, not the sea's; and a file whose points can all be read has no note.</summary>
    [Theory]
    [InlineData("high")]
    [InlineData("812,5")]
    [InlineData("NaN")]
    [InlineData("1e999")]
    [InlineData("")]
    public void An_unreadable_elevation_is_none(string text)
    {
        var track = Read("a.gpx", "<gpx><trk><trkseg><trkpt lat=\"44\" lon=\"-150\"><ele>" + text
            + "</ele><time>2031-07-14T21:20:00Z</time>"
            + "</trkpt><trkpt lat=\"44\" lon=\"-150\"><ele>0</ele><time>2031-07-14T21:20:01Z</time></trkpt></trkseg></trk></gpx>").Value!;
        Assert.Equal([null, 0], track.Fixes.Select(f => f.GpsHeight));
        Assert.Empty(track.Notes);
    }

    /// <summary>A record with a height that can't be read is left out and counted, not taken at 0 m; a true 0 m stays.</summary>
    [Theory]
    [InlineData("x0810", "00825")]
    [InlineData("00810", "0082x")]
    [InlineData("-0x10", "00825")]
    [InlineData("     ", "00825")]
    [InlineData("00810", "-----")]
    public void A_record_with_an_unreadable_height_is_left_out(string pressure, string gps)
    {
        const string Place = "4406000N15012000WA";
        var track = Read("a.igc", $"HFDTE140731\nB212000{Place}0081000825\nB212001{Place}{pressure}{gps}\n"
            + $"B212002{Place}-001200000\n").Value!;
        Assert.Equal([(0.0, (double?)825, (double?)810), (2, 0, -12)],
            track.Fixes.Select(f => (f.Seconds, f.GpsHeight, f.BarometerHeight)));
        Assert.Equal(("records not readable", 1), track.Notes.Select(n => (n.Kind, n.Count)).Single());
    }

    [Fact]
    public void A_gpx_file_that_breaks_off_keeps_what_stands_before()
    {
        var track = Read("a.gpx", Gpx[..Gpx.IndexOf("</trkseg><trkseg>", StringComparison.Ordinal)]).Value!;
        Assert.Equal(2, track.Fixes.Count);
        Assert.Contains(track.Notes, n => n.Kind == "broken off");
    }

    /// <summary>IGC: B HHMMSS DDMMmmmN DDDMMmmmE V PPPPP GGGGG, extension TDS in columns 36 to 38. The times cross midnight.</summary>
    private const string Igc = """
        AXXXabc
        HFDTE140731
        I013638TDS
        B2359594406000N15012000WA0081000825500
        B0000004406060N15012060WA0080500820250
        B0000014406060S15012060EV0080000000000
        B000002
        B0000030000000N00000000EV0000000000000
        """;

    [Theory]
    [InlineData("HFDTE140731")]
    [InlineData("HFDTEDATE:140731,02")]
    public void Igc_fixes_are_read_with_both_heights_over_midnight(string date)
    {
        var track = Read("a.igc", Igc.Replace("HFDTE140731", date, StringComparison.Ordinal)).Value!;
        Assert.Equal("2031-07-14T23:59:59.5Z",
            track.Start!.Value.ToString("uuuu-MM-dd'T'HH:mm:ss.FFF'Z'", System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(
        [
            new RecordedFix(0, new GeoPosition(44.1, -150.2), 825, 810),
            new(0.75, new GeoPosition(44 + 6.06 / 60, -150 - 12.06 / 60), 820, 805),
            new(1.5, new GeoPosition(-44 - 6.06 / 60, 150 + 12.06 / 60), null, 800), // two-dimensional: no height by satellite
        ], track.Fixes.Select(f => f with { Seconds = Math.Round(f.Seconds, 6) }));
        Assert.Equal(["records not readable", "fixes without place"], track.Notes.Select(n => n.Kind));
    }

    [Fact]
    public void Tables_are_read_with_times_or_seconds_and_feet_or_metres()
    {
        var timed = Read("a.csv", "Time;Lat;Lon;Baro_Height_ft\n2031-07-14T15:20:00-06:00;N 44 30.500;W 116 15.250;3000\n"
            + "2031-07-14T21:20:02Z;N 44 30.600;W 116 15.250;2950\nlater;N 44 30.600;W 116 15.250;2950\n").Value!;
        Assert.Equal(2, timed.Fixes[1].Seconds);
        Close.Absolute(914.4, timed.Fixes[0].BarometerHeight!.Value, 1e-9);
        Close.Absolute(44 + 30.5 / 60, timed.Fixes[0].Place.Latitude, 1e-12);
        Assert.Contains("1 row had no readable time or place", Assert.Single(timed.Notes).Text, StringComparison.Ordinal);
        var elapsed = Read("a.csv", "elapsed_s,lat,lon,gps_height_m\n10,44.1,-116.2,900\n10.5,44.1,-116.2,898\n").Value!;
        Assert.Null(elapsed.Start);
        Assert.Equal([0, 0.5], elapsed.Fixes.Select(f => f.Seconds));
    }

    [Theory]
    [InlineData("a.gpx", "<html></html>", "its outermost element is 'html', not gpx")]
    [InlineData("a.gpx", "<gpx></gpx>", "holds 0 fixes")]
    [InlineData("a.gpx", "not xml", "can't be read as GPX")]
    [InlineData("a.gpx", "<!DOCTYPE gpx [<!ENTITY a \"b\">]><gpx>&a;</gpx>", "can't be read as GPX")]
    [InlineData("a.igc", "hello\n", "holds no B record")]
    [InlineData("a.csv", "x,y\n1,2\n", "expected columns time or elapsed_s, lat, lon")]
    [InlineData("a.kml", "<kml/>", "ends in '.kml'; tracks are read from .gpx, .igc, .csv")]
    public void What_is_no_track_is_refused_with_what_was_found(string name, string text, string why)
    {
        var read = Read(name, text);
        Assert.False(read.Success);
        Assert.Contains(why, read.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_file_is_a_reason() => Assert.Equal("there is no file nowhere.gpx", TrackFile.Read("nowhere.gpx").Reason);

    /// <summary>Mutated files never throw, and never give a number that is none.</summary>
    [Theory]
    [InlineData("a.gpx", 400)]
    [InlineData("a.igc", 400)]
    [InlineData("a.csv", 200)]
    public void Damaged_files_are_read_or_refused(string name, int cases)
    {
        var text = name switch { "a.gpx" => Gpx, "a.igc" => Igc, _ => "time,lat,lon,gps_height_m\n2031-07-14T15:20:00Z,44.1,-116.2,900\n"
            + "2031-07-14T15:20:01Z,44.1,-116.2,890\n" };
        var random = SeedStream.For(3, name);
        using var folder = new TempLog();
        var path = Path.Combine(folder.Folder, name);
        for (var i = 0; i < cases; i++)
        {
            var letters = text.ToCharArray().ToList();
            for (var k = random.Next(1, 8); k > 0; k--)
            {
                var at = random.Next(letters.Count);
                switch (random.Next(3))
                {
                    case 0: letters.RemoveAt(at); break;
                    case 1: letters[at] = (char)random.Next(1, 300); break;
                    default: letters.InsertRange(at, letters.Skip(random.Next(letters.Count)).Take(random.Next(30)).ToList()); break;
                }
            }
            File.WriteAllText(path, string.Concat(letters));
            var read = TrackFile.Read(path);
            if (read.Success) Assert.All(read.Value.Fixes, f =>
                Assert.True(double.IsFinite(f.Seconds) && double.IsFinite(f.GpsHeight ?? 0) && double.IsFinite(f.BarometerHeight ?? 0)));
            else Assert.NotEqual("", read.Reason);
        }
    }
}
