namespace JumpAnalytics.Tests.Worlds;

/// <summary>Worlds that each try the library in one way, and the steady twin of the one that drifts.</summary>
internal static class TwelveWorlds
{
    public static World Clean { get; } = new() { Name = "clean" };

    public static World Thirty { get; } = new() { Name = "30 missions", Seasons = 1, MissionsPerSeason = 30 };

    public static World Eight { get; } = new() { Name = "8 missions", Seasons = 1, MissionsPerSeason = 8, Spotters = 2 };

    /// <summary>Landings and exits written to 10 yd and 5°.</summary>
    public static World Rounded { get; } = new() { Name = "rounded", WrittenDistance = 10, WrittenBearing = 5 };

    /// <summary>Short landings pile up near the spot and long ones run far.</summary>
    public static World Skewed { get; } = new() { Name = "skewed", SkewShape = 1 };

    /// <summary>A third of the landings outside the target radius are not written down, two thirds of those at twice that.</summary>
    public static World Lost { get; } = new() { Name = "far ones lost", LostFar = 0.33 };

    /// <summary>The landing rate falls by six points a season.</summary>
    public static World Drifting { get; } = new() { Name = "drifting", Seasons = 4, SeasonFactors = [1, 1.11, 1.23, 1.34] };

    public static World Steady { get; } = new() { Name = "four seasons", Seasons = 4 };

    public static World Tied { get; } = new() { Name = "spotters tied", SpottersTied = true };

    public static World Clustered { get; } = new() { Name = "clustered", MissionShare = 0.6, PassShare = 0.1 };

    /// <summary>On the high bench at 10 to 15 mph the misses are more than twice as wide as band and terrain would say.</summary>
    public static World Interaction { get; } = new() { Name = "dangerous cell", Dangerous = (2, 3, 1.75) };

    public static World Large { get; } = new() { Name = "2,000 missions", Seasons = 4, MissionsPerSeason = 500 };

    public static World Biased { get; } = new() { Name = "one spotter off", UnequalSticks = true, FirstSpotterBias = (4, 18) };

    public static IReadOnlyList<World> All { get; } =
        [Clean, Thirty, Eight, Rounded, Skewed, Lost, Drifting, Steady, Tied, Clustered, Interaction, Large, Biased];
}
