using System.Globalization;

namespace JumpAnalytics.Demo;

/// <summary>The true rates of a set of drops: every drop flown many times over with the code that made the log.</summary>
sealed class Truth(Drop[] drops, ulong seed)
{
    private sealed record Flown(Drop Drop, double Hits, double Along);

    private readonly Flown[] _flown = FlyOften(drops, seed);

    /// <summary>The lines of truth.csv.</summary>
    public IEnumerable<string> Rows =>
        from band in Planted.Bands.Append("all")
        from terrain in Planted.Terrains.Select(t => t.Name).Append("all")
        select $"{band},{terrain},"
            + Of("{0},{1:0.000}", d => (band == "all" || d.Band == band) && (terrain == "all" || d.Mission.Terrain.Name == terrain));

    /// <summary>True rates that README.md gives besides.</summary>
    public IEnumerable<string> Asides
    {
        get
        {
            const string words = ": {0} drops, true rate {1:0.000}, mean {2:0.0} yd long";
            var asBefore = drops.Where(d => d.Mission.Season == Planted.WorseSeason && d.Band == Planted.WorseBand)
                .Select(d => d with { Mission = d.Mission with { Season = Planted.WorseSeason - 1 } });
            return
            [
                .. from season in Planted.Seasons
                   from band in Planted.Bands
                   select $"season {season} band {band}" + Of(words, d => d.Mission.Season == season && d.Band == band),
                $"season {Planted.WorseSeason} band {Planted.WorseBand} had its scatter not grown" + Of(words, FlyOften(asBefore, seed)),
                .. Planted.Spotters.Select(s => $"spotter {s}" + Of(words, d => d.Mission.Spotter == s)),
                .. new (int From, int To)[] { (0, 6), (6, 10), (10, 15), (15, 99) }
                    .Select(a => $"streamers {a.From} to under {a.To} min" + Of(words, d => d.AgeMin >= a.From && d.AgeMin < a.To)),
            ];
        }
    }

    private string Of(string format, Func<Drop, bool> where) => Of(format, [.. _flown.Where(f => where(f.Drop))]);

    /// <summary>
    /// Number of drops, hit probability of their jumpers, and mean along the forecast drift; each drop weighs as its stick.
    /// </summary>
    private static string Of(string format, Flown[] flown)
    {
        var landings = (double)Planted.TruthRuns * flown.Sum(f => f.Drop.Jumpers.Length);
        double? Mean(Func<Flown, double> sum) => landings == 0 ? null : flown.Sum(sum) / landings;
        return string.Format(CultureInfo.InvariantCulture, format, flown.Length, Mean(f => f.Hits), Mean(f => f.Along));
    }

    private static Flown[] FlyOften(IEnumerable<Drop> drops, ulong seed) =>
        [.. drops.AsParallel().AsOrdered().Select((drop, i) => FlyOften(drop, new Dice(seed, 1000 + (ulong)i)))];

    private static Flown FlyOften(Drop drop, Dice dice)
    {
        var downwind = Vec.Toward(drop.ForecastToDeg);
        var (hits, along) = (0, 0.0);
        for (var run = 0; run < Planted.TruthRuns; run++)
        {
            foreach (var (_, miss, _) in Descent.Fly(drop, (dice.Normal(), dice.Normal()), dice))
            {
                if (miss.Length <= drop.Mission.RadiusYd) hits++;
                along += miss.East * downwind.East + miss.North * downwind.North;
            }
        }
        return new Flown(drop, hits, along);
    }
}
