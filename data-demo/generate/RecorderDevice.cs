using System.Globalization;
using System.Text;

namespace JumpAnalytics.Demo;

/// <summary>One row that a recorder on a jumper writes; null heights are not recorded.</summary>
readonly record struct Seen(double Seconds, double Lat, double Lon, double? Gps, double? Barometer);

/// <summary>What a recorder sees of a flight and how its file looks.</summary>
static class RecorderDevice
{
    public static List<Seen> See(Flight flight, double hertz, double from, double to, Dice dice)
    {
        var rows = new List<Seen>();
        var (wander, heightWander) = (new Vec(2 * dice.Normal(), 2 * dice.Normal()), 4 * dice.Normal());
        var (fade, offset) = (Math.Exp(-1 / hertz / 30), dice.Between(-20, 20));
        var ground = flight.Drop.Mission.ElevationFt * 0.3048;
        for (var t = from; t <= to; t += 1 / hertz)
        {
            var (place, height) = flight.At(t);
            var seen = place + wander + 1.2 * new Vec(dice.Normal(), dice.Normal());
            var (lat, lon) = Position(flight.Drop.Mission, seen);
            rows.Add(new Seen(t, lat, lon, ground + height + heightWander + 1.5 * dice.Normal(),
                ground + height + offset + 0.4 * dice.Normal()));
            var kept = Math.Sqrt(1 - fade * fade);
            (wander, heightWander) =
                (fade * wander + 2 * kept * new Vec(dice.Normal(), dice.Normal()), fade * heightWander + 4 * kept * dice.Normal());
        }
        return rows;
    }

    public static string Gpx(IEnumerable<Seen> rows, Func<double, DateTime> clock, string jumper)
    {
        var text = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            + "<gpx version=\"1.1\" creator=\"demo\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n");
        text.Append($"<trk><name>{jumper}</name><trkseg>\n");
        foreach (var r in rows)
        {
            text.Append($"<trkpt lat=\"{Text(r.Lat, "0.0000000")}\" lon=\"{Text(r.Lon, "0.0000000")}\">");
            if (r.Gps is { } height) text.Append($"<ele>{Text(height, "0.0")}</ele>");
            text.Append($"<time>{clock(r.Seconds):yyyy-MM-ddTHH:mm:ss.ff}Z</time></trkpt>\n");
        }
        return text.Append("</trkseg></trk>\n</gpx>\n").ToString();
    }

    public static string Csv(IEnumerable<Seen> rows, Func<double, DateTime> clock) =>
        "time,lat,lon,gps_height_m,baro_height_m\n" + string.Concat(rows.Select(r =>
            $"{clock(r.Seconds):yyyy-MM-ddTHH:mm:ss.ff}Z,{Text(r.Lat, "0.0000000")},{Text(r.Lon, "0.0000000")},"
            + $"{(r.Gps is { } g ? Text(g, "0.0") : "")},{(r.Barometer is { } b ? Text(b, "0.0") : "")}\n"));

    public static string Igc(IEnumerable<Seen> rows, Func<double, DateTime> clock, string jumper)
    {
        var all = rows.ToList();
        var text = new StringBuilder($"AXXX{jumper}\nHFDTEDATE:{clock(all[0].Seconds):ddMMyy},01\nHFDTM100GPSDATUM:WGS-1984\nI013638TDS\n");
        foreach (var r in all)
        {
            var at = clock(r.Seconds);
            text.Append($"B{at:HHmmss}{Angle(r.Lat, 2)}{(r.Lat < 0 ? 'S' : 'N')}{Angle(r.Lon, 3)}{(r.Lon < 0 ? 'W' : 'E')}A"
                + $"{Math.Round(r.Barometer ?? 0):00000}{Math.Round(r.Gps ?? 0):00000}{at.Millisecond:000}\n");
        }
        return text.ToString();
    }

    /// <summary>Degrees and thousandths of minutes.</summary>
    private static string Angle(double degrees, int digits)
    {
        var minutes = (int)Math.Round(Math.Abs(degrees) * 60000);
        return (minutes / 60000).ToString(new string('0', digits), CultureInfo.InvariantCulture)
            + (minutes % 60000).ToString("00000", CultureInfo.InvariantCulture);
    }

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);

    private static (double Lat, double Lon) Position(Mission mission, Vec metres)
    {
        const double a = 6378137, f = 1 / 298.257223563, e2 = f * (2 - f);
        var lat = mission.Lat * Math.PI / 180;
        var w = Math.Sqrt(1 - e2 * Math.Sin(lat) * Math.Sin(lat));
        var (meridian, parallel) = (a * (1 - e2) / (w * w * w), a / w * Math.Cos(lat));
        return (mission.Lat + metres.North / meridian * 180 / Math.PI, mission.Lon + metres.East / parallel * 180 / Math.PI);
    }
}
