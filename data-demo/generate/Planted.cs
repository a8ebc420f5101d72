namespace JumpAnalytics.Demo;

/// <summary>Every planted fact in one place. README.md says what each means and which are mere assumptions.</summary>
static class Planted
{
    // The first seed from 1 up whose design will do; no rate was looked at. Of the missions with an accepted landing there are 250
    // to 400, at least 3 in each wind band and 15 of each spotter, and no terrain's share of them differs by more than 0.05 between
    // 2025 and 2026.
    public const ulong Seed = 7;
    public static readonly int[] Seasons = [2024, 2025, 2026];
    public const int MissionsPerSeason = 110, TruthRuns = 20_000;
    public const string Base = "Quillmark";
    public const double IslandLat = 44.0, IslandLon = -150.0, IslandRadiusKm = 45, DeclinationEastDeg = 13;

    // Layer-mean wind: Weibull, stronger from 14:00 on, cut.
    public const double WindShape = 2, WindScaleMph = 6.2, AfternoonWindScaleMph = 7.4, WindCutMph = 18;

    // Forecast error as an error of the drift wind (mph per axis). After steering 1 mph of it leaves 8.8 yd.
    public const double MissionErrorMph = 0.8, MissionErrorPerMph = 0.1;     // shared by a mission
    public const double DropErrorMph = 0.3, AgeErrorMph = 0.55;              // shared by a drop: 0.3^2 + 0.55^2 x minutes^(2/3)
    public static readonly string[] Spotters = ["S01", "S02", "S03", "S04", "S05", "S06", "S07", "S08"];
    public const string BiasedSpotter = "S04";
    public const double BiasedSpotterReadsLowMph = 2.5;                      // 22 yd long after steering

    // Exit placement: of the whole stick along and across the run.
    public const double ExitTimingSdS = 0.6, ExitAcrossSdYd = 10;

    // The jumper's own part of the landing (yards per axis), and its heavy tail.
    public const double OwnSdYd = 5, OwnSdPerMph = 0.55;
    public const double TailShare = 0.08, TailMedianYd = 65, TailLogSd = 0.55;
    public const double HangUpInTail = 0.16, HangUpElsewhere = 0.022;        // times the terrain's factor

    // One season is worse in one wind band only: all scatter but that of the exits, times this.
    public const int WorseSeason = 2026;
    public const string WorseBand = "5-10";
    public const double WorseFactor = 1.2;

    public static readonly Terrain[] Terrains =
    [
        new("meadow", Share: 0.32, Radii: [45, 50, 50, 60], CrossFactor: 1, HangUpFactor: 0.5, LowFt: 300, HighFt: 1800),
        new("sagebrush", Share: 0.27, Radii: [40, 45, 50], CrossFactor: 1, HangUpFactor: 0.3, LowFt: 400, HighFt: 2600),
        new("open timber", Share: 0.25, Radii: [35, 40, 40, 45], CrossFactor: 1, HangUpFactor: 2.2, LowFt: 800, HighFt: 3600),
        new("ridge lee", Share: 0.16, Radii: [40, 45, 50], CrossFactor: 2.3, HangUpFactor: 1.5, LowFt: 1800, HighFt: 4600),
    ];

    // Share of the offset from the spot that steering leaves: the same yards per mph of wind error for both canopies.
    public static readonly Canopy Round = new("round", ExitFt: 1500, HeightSdFt: 60, DescentS: 90, ForwardMph: 9, LeftShare: 0.20);
    public static readonly Canopy RamAir =
        new("ram-air", ExitFt: 3000, HeightSdFt: 120, DescentS: 165, ForwardMph: 20, LeftShare: 0.20 * 90 / 165);
    public const double RoundShare = 0.55;

    public static readonly string[] Bands = ["0-5", "5-10", "10-15", "15+"];
    public static string BandOf(double mph) => Bands[Math.Min((int)(mph / 5), 3)];
}

record Terrain(string Name, double Share, int[] Radii, double CrossFactor, double HangUpFactor, int LowFt, int HighFt);
record Canopy(string Name, double ExitFt, double HeightSdFt, double DescentS, double ForwardMph, double LeftShare);
