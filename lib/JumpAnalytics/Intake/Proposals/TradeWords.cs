namespace JumpAnalytics;

/// <summary>
/// The words under which bases write the quantities of the log. Plain words and abbreviations; common practice, no source.
/// </summary>
internal static class TradeWords
{
    /// <summary>Words by the notion they stand for.</summary>
    private static readonly Dictionary<string, string> _notions = Words(
        "bearing=bearing brg direction dir azimuth az azm heading hdg course crs;distance=distance dist range dst;spot=spot "
        + "target tgt dz lz panel bullseye;radius=radius rad;wind=wind winds wnd;speed=speed spd velocity vel;forecast=forecast fcst "
        + "predicted expected calculated planned;drift=drift;streamer=streamer streamers wdi wdis;landing=landing landings land "
        + "landed ldg lndg touchdown;miss=miss missed;off=off;exit=exit exits;jump=jump jumped;height=height ht hgt "
        + "altitude alt;elevation=elevation elev;jumper=jumper jumpers jmpr smokejumper;name=name;canopy=canopy canopies chute parachute;"
        + "remarks=remarks remark rmks comments comment notes note;mission=mission msn;fire=fire;incident=incident inc;flight=flight flt;"
        + "number=number no num nbr id code key;load=load;pass=pass;stick=stick;drop=drop;terrain=terrain;fuel=fuel fuels;cover=cover "
        + "vegetation veg;ground=ground gnd grnd;surface=surface sfc surf;time=time hour;date=date day dtg;season=season;year=year "
        + "yr;base=base station;spotter=spotter sptr;aircraft=aircraft acft plane ship airplane ac tail;lat=lat latitude;lon=lon long "
        + "longitude lng;order=order seq sequence position pos;hung=hung hang hangup hungup;up=up;tree=tree treed trees;measured=measured "
        + "measurement meas measure;how=how method;sd=sd sigma;error=error err accuracy;injured=injured injury injuries hurt;"
        + "beyond=beyond farther further outside;track=track gpx;gps=gps;file=file;age=age since lag;spacing=spacing "
        + "interval separation;east=east easting;north=north northing;declination=declination decl variation;run=run;in=in;agl=agl;msl=msl "
        + "asl;minutes=minutes;aloft=aloft upper;type=type class kind;sheet=sheet;size=size;from=from;to=to toward towards;of=of the at "
        + "for on a an and with by is was mean average avg approx recorded observed;local=local");

    /// <summary>Notions that say little when nothing asks for them.</summary>
    private static readonly HashSet<string> _faint = ["from", "to", "of", "in", "agl", "type", "number", "local"];

    /// <summary>Phrases by quantity, besides its own name; one that ends with ~ is loose.</summary>
    private static readonly Dictionary<string, string> _phrases = new()
    {
        ["drop_id"] = "drop;drop number;load;load number;pass;pass number;stick;stick number;jump number",
        ["mission"] = "mission number;fire;fire name;fire number;incident;incident name;incident number;flight;flight number",
        ["time"] = "date;date time;drop date time;jump date time;drop time;jump time;exit time;drop date;jump date;date jumped",
        ["date"] = "drop date;jump date;date jumped;flight date",
        ["time_of_day"] = "time;local time;drop time;jump time;exit time",
        ["terrain"] = "terrain type;fuel;fuel type;cover;ground cover;cover type;terrain class;ground type",
        ["target_radius"] = "radius;spot radius",
        ["wind_speed"] = "wind;drift wind;drift wind speed;wind aloft;wind aloft speed",
        ["surface_wind_speed"] = "surface wind;ground wind;ground wind speed;surface wind speed",
        ["wind_from"] = "wind from;wind bearing;wind bearing from;wind aloft bearing",
        ["forecast_drift"] = "drift;drift distance;forecast distance;forecast drift distance;streamer drift;streamer "
            + "distance;streamer drift distance",
        ["forecast_to"] = "drift bearing;drift to;forecast bearing;forecast drift bearing;streamer "
            + "bearing;streamer drift bearing;drift bearing to",
        ["forecast_east"] = "drift east;forecast drift east", ["forecast_north"] = "drift north;forecast drift north",
        ["base"] = "jump base", ["spotter"] = "spotter number;spotter name", ["aircraft"] = "aircraft type;aircraft number",
        ["spot_lat"] = "lat~", ["spot_lon"] = "lon~", ["spot_elevation"] = "elevation;spot height msl",
        ["exit_height"] = "exit height agl;jump height;jump height agl;drop height;drop height agl;height agl;exit agl;height~",
        ["streamer_minutes"] = "streamer age;age of streamer;time age streamer;age streamer minutes",
        ["run_heading"] = "jump run;jump run bearing;run in;run in bearing;aircraft bearing",
        ["ground_speed"] = "aircraft speed;aircraft ground speed;run speed",
        ["exit_spacing"] = "spacing;jumper spacing;exit time spacing", ["exit_distance"] = "exit distance from spot;exit off",
        ["exit_bearing"] = "exit bearing from spot",
        ["declination_deg"] = "declination", ["season"] = "year;fire season;season year",
        ["landing_distance"] = "distance from spot;distance to spot;miss;miss distance;distance off;off spot;landing miss;distance off "
            + "spot;landing distance from spot;landing off",
        ["landing_bearing"] = "miss bearing;bearing from spot;bearing spot landing;landing bearing from spot",
        ["landing_east"] = "miss east;east of spot", ["landing_north"] = "miss north;north of spot",
        ["landing_beyond"] = "beyond;beyond distance;miss beyond", ["jumper"] = "jumper number;jumper name;name~",
        ["exit_order"] = "order;jump order;stick order;exit number;order in stick;order of exit", ["canopy"] = "canopy type",
        ["hung_up"] = "hung;tree;tree landing;hung in tree;landing in tree", ["measured_by"] = "how measured;measured;measured how",
        ["measured_sd"] = "measured error;sd;gps error",
        ["track"] = "gps track;track file;gps file",
    };

    private static readonly Dictionary<LogColumn, IReadOnlyList<Phrase>> _byColumn =
        LogColumns.Drops.Concat(LogColumns.Landings).Distinct().ToDictionary(c => c, PhrasesOf);

    /// <summary>A way to write a quantity.</summary>
    public sealed record Phrase(IReadOnlyList<string> Notions, double Worth);

    public static IReadOnlyList<Phrase> PhrasesFor(LogColumn column) => _byColumn[column];

    public static double Weight(string notion) => _faint.Contains(notion) ? 0.3 : 1;

    /// <summary>What a word stands for: itself when nobody knows it, two notions when it is two words written as one.</summary>
    public static IEnumerable<string> Notions(string word)
    {
        if (_notions.TryGetValue(word, out var notion)) return [notion];
        for (var i = 2; i <= word.Length - 2; i++)
        {
            if (_notions.TryGetValue(word[..i], out var first) && _notions.TryGetValue(word[i..], out var second)) return [first, second];
        }
        if (word.Length < 4) return [word];
        var near = _notions.Where(n => n.Key.Length >= 4 && (n.Key.StartsWith(word, StringComparison.Ordinal)
                || (word.Length >= 5 && HeaderMap.EditDistance(n.Key, word) <= (word.Length >= 8 ? 2 : 1))))
            .Select(n => n.Value).Distinct().ToList();
        return near is [var only] ? [only] : [word];
    }

    private static IReadOnlyList<Phrase> PhrasesOf(LogColumn column) =>
        [.. (column.Name.Replace('_', ' ') + (_phrases.TryGetValue(column.Name, out var more) ? ";" + more : "")).Split(';')
            .Select(p => new Phrase([.. p.TrimEnd('~').Split(' ').SelectMany(Notions).Distinct()], p.EndsWith('~') ? 0.85 : 1))];

    private static Dictionary<string, string> Words(string lists) => lists.Split(';').Select(l => l.Split('='))
        .SelectMany(l => l[1].Split(' ').Select(word => (Word: word, Notion: l[0]))).ToDictionary(w => w.Word, w => w.Notion);
}
