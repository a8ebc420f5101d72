using JumpAnalytics.Demo;

namespace JumpAnalytics.Tests.Checks;

/// <summary>A season of the demo generator without any planted flaw, as rows that a fault can be planted in before they are read.</summary>
internal sealed class CleanSeason
{
    /// <param name="seed">Of the generator.</param>
    /// <param name="heaped">
    /// Whether distances and bearings are written as the generator does; else true places to a yard and a degree.
    /// </param>
    /// <param name="years">3 years of 110 missions each, or the first 1 or 2 of them.</param>
    public CleanSeason(ulong seed, bool heaped = true, int years = 3)
    {
        var (world, record) = (new Dice(seed, 1), new Dice(seed, 2));
        foreach (var mission in Seasons.Missions(world).Where(m => m.Season < Planted.Seasons[0] + years))
        {
            var shared = (world.Normal(), world.Normal());
            foreach (var drop in Seasons.DropsOf(mission, world))
            {
                var stick = Descent.Fly(drop, shared, world);
                Drops.Add(Recorder.Write(drop, stick[0].FirstExit, record));
                Landings.AddRange(stick.Select((touchdown, k) => Recorder.Write(drop, k, touchdown, record)));
            }
        }
        Dice = new Dice(seed, 77);
        if (!heaped) WriteTruePlaces();
    }

    public List<Row> Drops { get; } = [];

    public List<Row> Landings { get; } = [];

    /// <summary>For what a planting draws.</summary>
    public Dice Dice { get; }

    public string Spotter => Dice.Of(Planted.Spotters);

    public IEnumerable<Row> DropsOf(string spotter) => Drops.Where(r => r["spotter"] == spotter);

    /// <summary>Some drops at random.</summary>
    public IEnumerable<Row> Some(int count, Func<Row, bool> where) => Dice.Shuffled(Drops.Where(where)).Take(count);

    public JumpLog Read()
    {
        using var files = TempLog.Of(
            TempLog.Lines([string.Join(',', Recorder.DropColumns), .. Drops.Select(r => r.ToString())]),
            TempLog.Lines([string.Join(',', Recorder.LandingColumns), .. Landings.Select(r => r.ToString())]));
        return files.Read();
    }

    /// <summary>Every distance and bearing to 1 yd and 1 degree, whatever it was measured with.</summary>
    private void WriteTruePlaces()
    {
        foreach (var row in Landings.Where(r => r["Landing_Distance_yd"] != ""))
        {
            row["Landing_Distance_yd"] = Recorder.Text(Seasons.Round(row.Touchdown!.Miss.Length, 1));
            row["Landing_Bearing_deg"] = Recorder.Text(Seasons.Bearing(row.Touchdown.Miss.BearingDeg, 1));
        }
    }
}
