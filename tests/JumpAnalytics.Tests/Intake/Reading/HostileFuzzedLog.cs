using System.Globalization;
using System.Text;

namespace JumpAnalytics.Tests;

/// <summary>Writes the mutated log that belongs to a case number.</summary>
internal static class FuzzedLog
{
    private const string DropsHeader = "drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph,forecast_drift_yd,forecast_to_deg,"
        + "forecast_east_m,forecast_north_m,spotter,spot_lat,spot_lon,spot_elevation_ft,wind_from_degm,declination_deg,exit_height_ft,"
        + "streamer_minutes,exit_distance_yd,exit_bearing_deg,ground_speed_kt,exit_spacing_s,season,remarks";

    private const string LandingsHeader = "drop_id,landing_distance_yd,landing_bearing_deg,landing_east_m,landing_north_m,landing_lat,"
        + "landing_lon,landing_beyond_ft,jumper,exit_order,canopy,hung_up,measured_by,measured_sd_m,track,injured,remarks";

    private static readonly string[] _payloads =
    [
        "", "\"", "\"\"", "\"a", "a\"", "\"a,b\"", "\"a\nb\"", ",", ";", "\t", "|", "\n", "\r", "\r\n", "\0", " ", "NA", "-", "+", ".", "e",
        "1e308", "-1e308", "1e309", "1e-320", "NaN", "Infinity", "-∞",
        "99999999999999999999", "0", "-0", "0x10", "1,5", "1_000", "٣", "½", "\uFEFF", "\uFFFD", "é", "e\u0301", "\u202E", "\u001B[2J",
        "<script>", "=1+1", "@SUM(A1)", "'", "\\", "../x", "C:\\x", "\\\\h\\s",
        "d0", "d1", "m0", "yes", "no", "maybe", "90", "360", "361", "-90", "180", "181", "2031-02-30T00:00", "9999-12-31T23:59Z",
        "0001-01-01T00:00", "2031-07-14T15:20+99:00", "2031-07-14", "T", "Z", ":", "+-",
    ];

    private static readonly string _allHeaders =
        DropsHeader + "," + LandingsHeader + ",wind_speed_kt,target_radius_nm,forecast_to_degm,landing_bearing_degm,nobody_knows";

    /// <summary>Writes the files; true when it is one flat table.</summary>
    public static bool Write(int number, string folder)
    {
        var dice = new Random(number);
        var isFlat = dice.Next(4) == 0;
        var (drops, landings) = (Table(DropsHeader, Enumerable.Range(0, 4).Select(i => DropFields(i, dice))),
            Table(LandingsHeader, Enumerable.Range(0, 5).Select(i => LandingFields(i, dice))));
        if (isFlat) landings = Table(DropsHeader + LandingsHeader[7..],
            Enumerable.Range(0, 5).Select(i => DropFields(i % 2, new Random(7 + i % 2)) + LandingFields(i, dice)[2..]));
        foreach (var name in new[] { "drops.csv", "landings.csv", "jumps.csv" }.Where(n => isFlat != (n != "jumps.csv")))
            File.Delete(Path.Combine(folder, name));
        if (!isFlat) File.WriteAllBytes(Path.Combine(folder, "drops.csv"), Mutated(drops, dice));
        File.WriteAllBytes(Path.Combine(folder, isFlat ? "jumps.csv" : "landings.csv"), Mutated(landings, dice));
        return isFlat;
    }

    private static string Table(string header, IEnumerable<string> rows) => string.Join('\n', rows.Prepend(header)) + "\n";

    private static string DropFields(int i, Random dice) => string.Create(CultureInfo.InvariantCulture,
        $"d{i},m{i / 2},203{i / 3}-07-1{i}T15:20-06:00,timber,25,{i + 2},{(i == 1 ? "," : $"{100 + i},{36 * i}")},"
            + $"{(i == 1 ? "50,-20" : ",")},S{i},46.95,-116.3,3000,{20 * i},15,1500,{dice.Next(9)},{40 + i},{dice.Next(361)},90,1,,ok");

    private static string LandingFields(int i, Random dice) => $"d{i % 4}," + (i switch
    {
        0 => "12,90,,,,,",
        1 => ",,3,-4,,,",
        2 => ",,,,46.9502,-116.3002,",
        3 => ",,,,,,90",
        _ => "0,,,,,,",
    }) + $",j{i},{i + 1},round,{(i == 3 ? "yes" : "no")},gps,2,t/{dice.Next(9)}.gpx,no,fine";

    private static byte[] Mutated(string text, Random dice)
    {
        var blows = dice.Next(5);
        for (var i = 0; i < blows; i++) text = dice.Next(8) switch
        {
            0 or 1 => Field(text, dice),
            2 => Header(text, dice),
            3 => text.Replace(',', ";\t|:,"[dice.Next(5)]),
            4 => Spliced(text, dice, Pick(dice)),
            5 => Line(text, dice),
            6 => Spliced(text, dice, "", dice.Next(1, 30)),
            _ => text.Replace("\n", dice.Next(3) switch { 0 => "\r\n", 1 => "\r", _ => "\n\n" }, StringComparison.Ordinal),
        };
        return Encoded(text, dice);
    }

    private static string Pick(Random dice) =>
        dice.Next(200) == 0 ? new string("x,\" "[dice.Next(4)], 20_000) : _payloads[dice.Next(_payloads.Length)];

    private static string Spliced(string text, Random dice, string payload, int removed = 0)
    {
        if (text.Length == 0) return payload;
        var at = dice.Next(text.Length);
        return text.Remove(at, Math.Min(removed, text.Length - at)).Insert(at, payload);
    }

    /// <summary>One field of any line replaced, emptied or doubled.</summary>
    private static string Field(string text, Random dice)
    {
        if (text.Length == 0) return text;
        var at = dice.Next(text.Length);
        var from = text.AsSpan(0, at).LastIndexOfAny(",;\t\n") + 1;
        var length = text.AsSpan(from).IndexOfAny(",;\t\n");
        if (length < 0) length = text.Length - from;
        return text.Remove(from, length)
            .Insert(from, dice.Next(6) == 0 ? text.Substring(from, length) + "," + text.Substring(from, length) : Pick(dice));
    }

    private static string Header(string text, Random dice)
    {
        var end = text.IndexOf('\n', StringComparison.Ordinal);
        if (end < 0) return text;
        var headers = text[..end].Split(',');
        var all = _allHeaders.Split(',');
        headers[dice.Next(headers.Length)] =
            dice.Next(4) switch { 0 => Pick(dice), 1 => headers[dice.Next(headers.Length)], _ => all[dice.Next(all.Length)] };
        return string.Join(',', headers) + text[end..];
    }

    /// <summary>A line doubled, moved to the end, or the text cut in it.</summary>
    private static string Line(string text, Random dice)
    {
        var lines = text.Split('\n').ToList();
        var at = dice.Next(lines.Count);
        switch (dice.Next(3))
        {
            case 0: lines.Insert(at, lines[at]); break;
            case 1: (lines[at], lines[^1]) = (lines[^1], lines[at]); break;
            default: return string.Join('\n', lines.Take(at)) + "\n" + lines[at][..dice.Next(lines[at].Length + 1)];
        }
        return string.Join('\n', lines);
    }

    private static byte[] Encoded(string text, Random dice)
    {
        var encoding = dice.Next(40) switch
        {
            0 => Encoding.Unicode,
            1 => Encoding.BigEndianUnicode,
            2 => Encoding.Latin1,
            3 => Encoding.UTF8, // with its mark
            4 => Encoding.UTF32,
            _ => null,
        };
        var bytes = encoding is null
            ? Encoding.UTF8.GetBytes(text) : [.. dice.Next(5) == 0 ? [] : encoding.GetPreamble(), .. encoding.GetBytes(text)];
        for (var i = dice.Next(12) == 0 ? dice.Next(1, 6) : 0; i > 0 && bytes.Length > 0; i--)
            bytes[dice.Next(bytes.Length)] = (byte)dice.Next(256);
        return bytes;
    }
}
