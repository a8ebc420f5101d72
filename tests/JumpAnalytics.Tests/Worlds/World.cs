namespace JumpAnalytics.Tests.Worlds;

/// <summary>
/// An invented base whose truth is known, for judging what the library states. It is made apart from the demo and shares no model with
/// the library: a miss has a part of the mission, a part of the pass (the exit) and a part of the jumper, all of which grow with the wind.
/// Lengths are yards and winds mph, as such a base would write them. Nothing but what a setting says differs between its spotters.
/// </summary>
internal sealed record World
{
    /// <summary>The wind bands that the truth is kept in: those of the library's defaults.</summary>
    public static readonly double[] BandEdges = [0, 5, 10, 15];

    /// <summary>Terrains, each as likely as another, with their spread beside the mean one and their target radius (yd).</summary>
    public static readonly (string Name, double Spread, double Radius)[] Terrains =
        [("grass flat", 0.88, 50), ("brush", 0.96, 50), ("timber edge", 0.95, 45), ("high bench", 1.2, 50)];

    /// <summary>In a word or two; also part of the seed of its random numbers.</summary>
    public required string Name { get; init; }

    /// <summary>The first season is 2041.</summary>
    public int Seasons { get; init; } = 3;

    public int MissionsPerSeason { get; init; } = 110;

    public int Spotters { get; init; } = 8;

    /// <summary>Standard deviation of a miss along an axis on mean ground at 8 mph, yd.</summary>
    public double Spread { get; init; } = 26;

    /// <summary>Share of a miss's variance that a mission has in common.</summary>
    public double MissionShare { get; init; } = 0.25;

    /// <summary>Share that a pass has in common: the exit off its planned place.</summary>
    public double PassShare { get; init; } = 0.15;

    /// <summary>Growth of the spread for each mph.</summary>
    public double WindGrowth { get; init; } = 0.025;

    /// <summary>Factor of the spread in each season; none means 1 in all.</summary>
    public IReadOnlyList<double> SeasonFactors { get; init; } = [];

    /// <summary>Shape of the gamma law of the parts along the drift; null for a normal one. The skewness is 2 over its root.</summary>
    public double? SkewShape { get; init; }

    /// <summary>A cell (index of band and terrain) whose spread is this many times as large.</summary>
    public (int Band, int Terrain, double Factor)? Dangerous { get; init; }

    /// <summary>Whether a spotter flies to one terrain four times in five.</summary>
    public bool SpottersTied { get; init; }

    /// <summary>Mean miss of the first spotter, yd downwind and to the right; the others have none.</summary>
    public (double Downwind, double Right) FirstSpotterBias { get; init; }

    /// <summary>Whether passes have one jumper or eight, in place of one to three.</summary>
    public bool UnequalSticks { get; init; }

    /// <summary>Distances are written to the nearest so many yards.</summary>
    public double WrittenDistance { get; init; } = 0.01;

    /// <summary>Bearings are written to the nearest so many degrees.</summary>
    public double WrittenBearing { get; init; } = 0.01;

    /// <summary>Chance that a landing outside the target radius is not written down; doubled at twice the radius and beyond.</summary>
    public double LostFar { get; init; }

    public int Missions => Seasons * MissionsPerSeason;

    /// <summary>A season of it, or all of its seasons: the same for the same seed.</summary>
    /// <param name="seed">Any number.</param>
    public WorldSeason Season(int seed) => WorldSeason.Of(this, seed);

    /// <summary>What is true of it; computed once.</summary>
    public WorldTruth Truth => WorldTruth.Of(this);

    public Dice Dice(int seed) => new(Name.Aggregate(17UL, (h, c) => (h * 1_099_511_628_211UL) ^ c) + (ulong)(uint)seed);

    public WorldMission NextMission(Dice dice)
    {
        var terrain = dice.Below(Terrains.Length);
        var spotter = SpottersTied && dice.Share() < 0.8 ? terrain + (Terrains.Length * dice.Below(Spotters / Terrains.Length))
            : dice.Below(Spotters);
        double wind;
        do wind = dice.Gamma(3.2) * 2.5; while (wind is < 1 or > 22);
        return new(terrain, spotter, Math.Round(2 * wind) / 2);
    }

    /// <summary>The factor that turns a miss of unit spread into yards.</summary>
    public double ScaleOf(int season, int terrain, double wind) =>
        Spread * Terrains[terrain].Spread * (1 + (WindGrowth * (wind - 8)))
            * (SeasonFactors.Count > 0 ? SeasonFactors[season] : 1)
            * (Dangerous is { } d && d.Terrain == terrain && d.Band == BandOf(wind) ? d.Factor : 1);

    public (double Downwind, double Right) BiasOf(int spotter) => spotter == 0 ? FirstSpotterBias : default;

    /// <summary>A part of a miss, of unit variance along each axis.</summary>
    public (double Downwind, double Right) UnitPart(Dice dice) =>
        (1.08 * (SkewShape is { } k ? (dice.Gamma(k) - k) / Math.Sqrt(k) : dice.Normal()), 0.91 * dice.Normal());

    public double OwnShare => 1 - MissionShare - PassShare;

    public static int BandOf(double wind) => Array.FindLastIndex(BandEdges, e => wind >= e);
}

/// <summary>Where a mission goes, with whom, in which wind (mph).</summary>
internal readonly record struct WorldMission(int Terrain, int Spotter, double Wind);
