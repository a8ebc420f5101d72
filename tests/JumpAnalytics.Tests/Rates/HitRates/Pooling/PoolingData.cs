using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Counts that models of pooled rates are tried on.</summary>
internal static class PoolingData
{
    // The cbpp record (contagious bovine pleuropneumonia) of the R package lme4: herd, then period:cases/size.
    private const string HerdText = """
        1 1:2/14 2:3/12 3:4/9 4:0/5
        2 1:3/22 2:1/18 3:1/21
        3 1:8/22 2:2/16 3:0/16 4:2/20
        4 1:2/10 2:0/10 3:2/9 4:0/6
        5 1:5/18 2:0/25 3:0/24 4:1/4
        6 1:3/17 2:0/17 3:0/18 4:1/20
        7 1:8/16 2:1/10 3:3/9 4:0/5
        8 1:12/34
        9 1:2/9 2:0/6 3:0/8 4:0/6
        10 1:1/22 2:1/22 3:0/18 4:2/22
        11 1:0/25 2:5/27 3:3/22 4:1/22
        12 1:2/10 2:1/8 3:0/6 4:0/5
        13 1:1/21 2:2/24 3:0/19 4:0/23
        14 1:11/19 2:0/2 3:0/3 4:0/2
        15 1:1/19 2:1/15 3:1/15 4:0/15
        """;

    // Germination of seeds by plate (Crowder 1978, Applied Statistics 27:34-37, table 3): seed and root, then germinated/seeds.
    private const string SeedText = """
        O75,BEAN 10/39 23/62 23/81 26/51 17/39
        O75,CUCUMBER 5/6 53/74 55/72 32/51 46/79 10/13
        O73,BEAN 8/16 10/30 8/28 23/45 0/4
        O73,CUCUMBER 3/12 22/41 15/30 32/51 3/7
        """;

    /// <summary>Cattle herds for missions, periods for wind bands.</summary>
    public static IReadOnlyList<PooledCount> Herds { get; } =
    [
        .. from line in HerdText.Split('\n', StringSplitOptions.RemoveEmptyEntries)
           let words = line.Split(' ')
           from word in words.Skip(1)
           let parts = word.Split(':', '/')
           select new PooledCount(words[0], parts[0], "all", Number(parts[1]), Number(parts[2])),
    ];

    /// <summary>Plates for missions, seeds for wind bands, roots for terrain.</summary>
    public static IReadOnlyList<PooledCount> Seeds { get; } =
    [
        .. from line in SeedText.Split('\n', StringSplitOptions.RemoveEmptyEntries)
           let words = line.Split(' ', ',')
           from plate in words.Skip(2).Select((word, i) => (word, i))
           let parts = plate.word.Split('/')
           select new PooledCount($"{words[0]} {words[1]} {plate.i}", words[0], words[1], Number(parts[0]), Number(parts[1])),
    ];

    /// <summary>The invented counts of tests/reference/pooling.</summary>
    public static IReadOnlyList<PooledCount> Invented { get; } =
    [
        .. ReferenceFiles.Rows("pooling/counts.csv")
            .Select(r => new PooledCount(r["mission"], r["band"], r["terrain"], Number(r["hits"]), Number(r["landings"]))),
    ];

    /// <summary>Counts drawn from a pooled model of four bands by three terrains, and the level of each cell.</summary>
    /// <param name="missions">Number of missions.</param>
    /// <param name="twoPasses">Chance that a mission has two passes, each in a band of its own.</param>
    /// <param name="stick">The largest stick; all from 1 on are as likely.</param>
    /// <param name="missionSd">Spread between missions.</param>
    /// <param name="cellSd">Spread between cells beyond band and terrain.</param>
    /// <param name="seed">Seed.</param>
    public static (IReadOnlyList<PooledCount> Counts, Dictionary<(string, string), double> Levels) Made(
        int missions, double twoPasses, int stick, double missionSd, double cellSd, int seed)
    {
        var random = SeedStream.For(seed, "pooled rates");
        string[] bands = ["0-5", "5-10", "10-15", "15+"], terrains = ["closed timber", "meadow", "ridge lee"];
        var levels = new Dictionary<(string, string), double>();
        for (var b = 0; b < bands.Length; b++)
        {
            for (var t = 0; t < terrains.Length; t++)
                levels[(bands[b], terrains[t])] = 1.4 - 0.4 * b + 0.4 * (t - 1) + cellSd * StandardNormal.Pair(random).First;
        }
        var counts = new List<PooledCount>();
        for (var m = 0; m < missions; m++)
        {
            var effect = missionSd * StandardNormal.Pair(random).First;
            var terrain = terrains[random.Next(terrains.Length)];
            for (var passes = random.NextDouble() < twoPasses ? 2 : 1; passes > 0; passes--)
            {
                var band = bands[random.Next(bands.Length)];
                var (hits, landings) = (0, random.Next(1, stick + 1));
                for (var j = 0; j < landings; j++)
                    hits += random.NextDouble() < 1 / (1 + Math.Exp(-levels[(band, terrain)] - effect)) ? 1 : 0;
                counts.Add(new PooledCount(m.ToString(CultureInfo.InvariantCulture), band, terrain, hits, landings));
            }
        }
        return (counts, levels);
    }

    /// <summary>
    /// The logarithm of the binomial coefficients of counts, which the likelihood of counts has and that of landings has not.
    /// </summary>
    public static double LogCoefficients(IEnumerable<PooledCount> counts) =>
        counts.Sum(c => MathNet.Numerics.SpecialFunctions.BinomialLn(c.Landings, c.Hits));

    /// <summary>The counts as landings one by one.</summary>
    public static IEnumerable<PooledCount> OneByOne(IEnumerable<PooledCount> counts) =>
        counts.SelectMany(c => Enumerable.Range(0, c.Landings).Select(i => c with { Hits = i < c.Hits ? 1 : 0, Landings = 1 }));

    public static PooledRates Fitted(IReadOnlyList<PooledCount> counts, PoolingOptions options)
    {
        var fit = PooledRates.Of(counts, options);
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
