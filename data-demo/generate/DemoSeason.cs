using System.Text;

namespace JumpAnalytics.Demo;

/// <summary>The log that comes of a seed, flaws and all, and its files.</summary>
sealed class DemoSeason
{
    private readonly ulong _seed;
    private readonly Flaws _flaws;
    private readonly Lazy<Tracks> _tracks;

    public DemoSeason(ulong seed)
    {
        var (world, record) = (new Dice(seed, 1), new Dice(seed, 2));
        foreach (var mission in Seasons.Missions(world))
        {
            var shared = (world.Normal(), world.Normal());
            foreach (var drop in Seasons.DropsOf(mission, world))
            {
                var stick = Descent.Fly(drop, shared, world);
                Drops.Add(Recorder.Write(drop, stick[0].FirstExit, record));
                Landings.AddRange(stick.Select((touchdown, k) => Recorder.Write(drop, k, touchdown, record)));
            }
        }
        _seed = seed;
        _tracks = new(() => new Tracks(this, new Dice(seed, 4)));
        _flaws = new Flaws(Drops, Landings, new Dice(seed, 3));
        _flaws.Plant();
    }

    /// <summary>The descent tracks; making them names them in the rows of the landings, so they are made once, whoever asks.</summary>
    public Tracks Tracks => _tracks.Value;

    public List<Row> Drops { get; } = [];
    public List<Row> Landings { get; } = [];
    public IEnumerable<Row> AcceptedDrops => Drops.Where(r => !Flaws.Refuses(r.Flaw));
    public IEnumerable<Row> AcceptedLandings => Landings.Where(r => !Flaws.Refuses(r.Flaw) && !LostWithDrop(r));
    private bool LostWithDrop(Row landing) => _flaws.RefusedDrops.Contains(landing.Drop.Id);

    /// <summary>Writes the files and gives the true rates that stand in none of them.</summary>
    public IReadOnlyList<string> Write(string folder)
    {
        WriteLog(folder);
        var truth = new Truth([.. AcceptedDrops.Select(r => r.Drop)], _seed);
        Save(folder, "truth.csv", "\n", ["wind_band,terrain,drops,true_rate", .. truth.Rows]);
        return [.. truth.Asides, HeapingLift()];
    }

    /// <summary>Writes the log, its tracks and the account of its flaws; the true rates take longer.</summary>
    public void WriteLog(string folder)
    {
        var tracked = Tracks;
        Directory.CreateDirectory(folder);
        Save(folder, "drops.csv", "\n", [string.Join(',', Recorder.DropColumns), .. Drops.Select(r => r.ToString())]);
        Save(folder, "landings.csv", "\r\n", ["\uFEFF" + string.Join(',', Recorder.LandingColumns), .. Landings.Select(r => r.ToString())]);
        Save(folder, "flaws.csv", "\n", ["file,kind,rows", .. FlawLines]);
        Save(folder, "track-truth.csv", "\n", tracked.Truth);
        var tracks = Path.Combine(folder, "tracks");
        Directory.CreateDirectory(tracks);
        foreach (var (name, text) in tracked.Files) File.WriteAllText(Path.Combine(tracks, name), text, new UTF8Encoding(false));
    }

    private static void Save(string folder, string name, string lineEnd, IEnumerable<string> lines) =>
        File.WriteAllText(Path.Combine(folder, name), string.Concat(lines.Select(l => l + lineEnd)), new UTF8Encoding(false));

    /// <summary>The lines of flaws.csv.</summary>
    public IEnumerable<string> FlawLines
    {
        get
        {
            var landed = AcceptedLandings.Select(r => r.Drop.Id).ToHashSet();
            return
            [
                .. Account("drops.csv", Drops, 0),
                $"drops.csv,drop without landing rows,{_flaws.EmptyDrops.Count}",
                $"drops.csv,drop without an accepted landing,{AcceptedDrops.Count(r => !landed.Contains(r.Drop.Id))}",
                .. Account("landings.csv", Landings, Landings.Count(LostWithDrop)),
                $"landings.csv,beyond a distance in all,{AcceptedLandings.Count(r => r["Landing_Beyond_yd"] != "")}",
            ];
        }
    }

    private static IEnumerable<string> Account(string file, List<Row> rows, int lost)
    {
        var kinds = rows.Where(r => r.Flaw is not null).CountBy(r => r.Flaw!).OrderBy(k => k.Key, StringComparer.Ordinal)
            .ToLookup(k => Flaws.Refuses(k.Key));
        var refused = kinds[true].Sum(k => k.Value);
        return
        [
            .. kinds[true].Select(k => $"{file},{k.Key},{k.Value}"),
            $"{file},sum: refused for themselves,{refused}",
            .. lost > 0 ? [$"{file},refused with their drop,{lost}"] : Array.Empty<string>(),
            $"{file},sum: accepted,{rows.Count - refused - lost}",
            $"{file},sum: rows,{rows.Count}",
            .. kinds[false].Select(k => $"{file},{k.Key},{k.Value}"),
        ];
    }

    /// <summary>What measuring and rounding do to the count of hits, before any flaw.</summary>
    private string HeapingLift() =>
        $"of {Landings.Count} landings: share of hits as they were {Recorder.Text(Landings.Average(r => r.WasHit ? 1 : 0), "0.000")}, "
        + $"as measured and rounded {Recorder.Text(Landings.Average(r => r.WrittenAsHit ? 1 : 0), "0.000")}";
}
