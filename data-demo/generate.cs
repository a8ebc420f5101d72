#!/usr/bin/env -S dotnet run
#:property PublishAot=false
#:property InvariantGlobalization=true
#:include generate/*.cs

// Writes the invented demo season: drops.csv, landings.csv, truth.csv and flaws.csv, the same bytes on every run.
//   dotnet run data-demo/generate.cs [-- <out folder>]
// The planted facts stand in generate/Planted.cs. Lengths are yards and winds mph, as a recorder writes them. Vectors are
// east/north; "along" is down the forecast drift (+ = long) and "right" is 90 degrees clockwise from it.

using System.Globalization;
using System.Text;

static class Program
{
    private static void Main(string[] args)
    {
        var folder = args.Length > 0 ? args[0] : (string)AppContext.GetData("EntryPointFileDirectoryPath")!;
        var (world, record) = (new Dice(Planted.Seed, 1), new Dice(Planted.Seed, 2));
        List<Row> drops = [], landings = [];
        foreach (var mission in Seasons.Missions(world))
        {
            var shared = (world.Normal(), world.Normal());
            foreach (var drop in Seasons.DropsOf(mission, world))
            {
                var stick = Descent.Fly(drop, shared, world);
                drops.Add(Recorder.Write(drop, stick[0].FirstExit, record));
                landings.AddRange(stick.Select((touchdown, k) => Recorder.Write(drop, k, touchdown, record)));
            }
        }
        var flaws = new Flaws(drops, landings, new Dice(Planted.Seed, 3));
        flaws.Plant();

        var truth = Truth([.. drops.Where(r => !Flaws.Refuses(r.Flaw)).Select(r => r.Drop!)]);
        var counts = Counts(drops, landings, flaws);
        Save("drops.csv", "\n", [string.Join(',', Recorder.DropColumns), .. drops.Select(r => r.ToString())]);
        Save("landings.csv", "\r\n", ["\uFEFF" + string.Join(',', Recorder.LandingColumns), .. landings.Select(r => r.ToString())]);
        Save("truth.csv", "\n", ["wind_band,terrain,drops,true_rate", .. truth.Rows]);
        Save("flaws.csv", "\n", ["file,kind,rows", .. counts]);
        Console.WriteLine(string.Join('\n', [.. counts, "", .. truth.Rows, "", .. truth.Asides, HeapingLift(landings)]));

        void Save(string name, string lineEnd, IEnumerable<string> lines) =>
            File.WriteAllText(Path.Combine(folder, name), string.Concat(lines.Select(l => l + lineEnd)), new UTF8Encoding(false));
    }

    /// <summary>Hit probability and mean along the forecast drift of the jumpers of the accepted drops.</summary>
    private static (List<string> Rows, List<string> Asides) Truth(Drop[] drops)
    {
        var flown = FlyOften(drops);
        string Of(Func<Drop, bool> where, string format)
        {
            var those = flown.Where(f => where(f.Drop)).ToList();
            double Mean(Func<Flown, double> sum) => those.Sum(sum) / (Planted.TruthRuns * those.Sum(f => f.Drop.Jumpers.Length));
            return those.Count == 0 ? "0," : string.Format(CultureInfo.InvariantCulture, format, those.Count, Mean(f => f.Hits), Mean(f => f.Along));
        }

        var rows = from band in Planted.Bands.Append("all")
                   from terrain in Planted.Terrains.Select(t => t.Name).Append("all")
                   let rate = Of(d => (band == "all" || d.Band == band) && (terrain == "all" || d.Mission.Terrain.Name == terrain), "{0},{1:0.000}")
                   select $"{band},{terrain},{rate}";

        const string words = "{0} drops, true rate {1:0.000}, mean {2:0.0} yd long";
        var asides = new List<string>();
        foreach (var season in Planted.Seasons)
            asides.AddRange(Planted.Bands.Select(b => $"season {season} band {b}: " + Of(d => d.Mission.Season == season && d.Band == b, words)));
        var asBefore = drops.Where(d => d.Mission.Season == Planted.WorseSeason && d.Band == Planted.WorseBand)
            .Select(d => d with { Mission = d.Mission with { Season = Planted.WorseSeason - 1 } }).ToArray();
        asides.Add($"season {Planted.WorseSeason} band {Planted.WorseBand} had its scatter not grown: true rate "
            + Recorder.Text(FlyOften(asBefore).Sum(f => f.Hits) / (Planted.TruthRuns * asBefore.Sum(d => d.Jumpers.Length)), "0.000"));
        asides.AddRange(Enumerable.Range(1, 8).Select(n => $"spotter S0{n}: " + Of(d => d.Mission.Spotter == $"S0{n}", words)));
        foreach (var (from, to) in new[] { (0, 6), (6, 10), (10, 15), (15, 99) })
            asides.Add($"streamers {from} to under {to} min: " + Of(d => d.AgeMin >= from && d.AgeMin < to, words));
        return ([.. rows], asides);
    }

    private sealed record Flown(Drop Drop, double Hits, double Along);

    /// <summary>Flies every drop many times over with the code that made the log.</summary>
    private static Flown[] FlyOften(Drop[] drops)
    {
        var flown = new Flown[drops.Length];
        Parallel.For(0, drops.Length, i =>
        {
            var (dice, drop) = (new Dice(Planted.Seed, 1000 + (ulong)i), drops[i]);
            var downwind = Vec.Toward(drop.ForecastToDeg);
            var (hits, along) = (0, 0.0);
            for (var run = 0; run < Planted.TruthRuns; run++)
                foreach (var touchdown in Descent.Fly(drop, (dice.Normal(), dice.Normal()), dice))
                {
                    if (touchdown.Miss.Length <= drop.Mission.RadiusYd) hits++;
                    along += touchdown.Miss.East * downwind.East + touchdown.Miss.North * downwind.North;
                }
            flown[i] = new Flown(drop, hits, along);
        });
        return flown;
    }

    /// <summary>What rounding and misjudging the distance does to the count of hits, over the sound rows with a distance.</summary>
    private static string HeapingLift(List<Row> landings)
    {
        var sound = landings.Where(r => r.Flaw is null && r["Landing_Distance_yd"] != "").ToList();
        double Share(Func<Row, bool> hit) => sound.Count(hit) / (double)sound.Count;
        var (were, written) = (Share(r => r.Touchdown!.Miss.Length <= r.Drop!.Mission.RadiusYd),
            Share(r => int.Parse(r["Landing_Distance_yd"], CultureInfo.InvariantCulture) <= r.Drop!.Mission.RadiusYd));
        return $"of {sound.Count} written distances: hits as they were {Recorder.Text(were, "0.000")}, as written {Recorder.Text(written, "0.000")}";
    }

    private static List<string> Counts(List<Row> drops, List<Row> landings, Flaws flaws)
    {
        var lines = new List<string>();
        foreach (var (file, rows) in new[] { ("drops.csv", drops), ("landings.csv", landings) })
        {
            var kinds = rows.Where(r => r.Flaw is not null).GroupBy(r => r.Flaw!).OrderBy(g => g.Key, StringComparer.Ordinal).ToList();
            var bad = rows.Count(r => Flaws.Refuses(r.Flaw));
            var lost = file == "landings.csv" ? rows.Count(r => flaws.RefusedDrops.Contains(r.Drop!.Id)) : 0;
            lines.AddRange(kinds.Where(g => Flaws.Refuses(g.Key)).Select(g => $"{file},{g.Key},{g.Count()}"));
            lines.Add($"{file},sum: refused for themselves,{bad}");
            if (lost > 0) lines.Add($"{file},refused with their drop,{lost}");
            lines.Add($"{file},sum: accepted,{rows.Count - bad - lost}");
            lines.Add($"{file},sum: rows,{rows.Count}");
            lines.AddRange(kinds.Where(g => !Flaws.Refuses(g.Key)).Select(g => $"{file},{g.Key},{g.Count()}"));
        }
        var landed = landings.Where(r => !Flaws.Refuses(r.Flaw)).Select(r => r.Drop!.Id).ToHashSet();
        lines.Add($"drops.csv,drop without landing rows,{flaws.EmptyDrops.Count}");
        lines.Add($"drops.csv,drop without an accepted landing,{drops.Count(r => !Flaws.Refuses(r.Flaw) && !landed.Contains(r.Drop!.Id))}");
        lines.Add($"landings.csv,beyond a distance in all,{landings.Count(r => r.Cells.Count > 12 && r["Landing_Beyond_yd"] != "")}");
        return lines;
    }
}
