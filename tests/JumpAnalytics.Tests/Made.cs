using NodaTime;

namespace JumpAnalytics.Tests;

/// <summary>Drops and landings made by hand, with harmless values for what a test does not care about.</summary>
internal static class Made
{
    public static Drop Drop(string id = "d1", string mission = "m1", string season = "2031", string terrain = "timber",
        double targetRadius = 30, double windSpeed = 4, LocalVector? forecastDrift = null) => new()
        {
            Id = id,
            Mission = mission,
            Season = season,
            Terrain = terrain,
            TargetRadius = targetRadius,
            WindSpeed = windSpeed,
            Time = new LocalDateTime(2031, 7, 14, 15, 20),
            ForecastDrift = forecastDrift ?? new LocalVector(0, 300),
            Source = new RowSource("drops.csv", 2),
        };

    public static Landing Landing(Drop drop, LocalVector miss, int? exitOrder = null) => new()
    {
        Drop = drop,
        Miss = miss,
        MissDistance = miss.Length,
        ExitOrder = exitOrder,
        Source = new RowSource("landings.csv", 2),
    };

    public static Landing Landing(Drop drop, double east, double north, int? exitOrder = null) =>
        Landing(drop, new LocalVector(east, north), exitOrder);

    /// <summary>The account of a log that was read from nowhere.</summary>
    public static IntakeReport NoIntake { get; } =
        new() { Files = [], Quarantine = [], SetAside = [], Noted = [], DropsWithoutLandings = [], TerrainsRespelt = [], MapNotes = [] };

    /// <summary>A landing known only as beyond a distance.</summary>
    public static Landing Beyond(Drop drop, double distance) =>
        new() { Drop = drop, Beyond = distance, Source = new RowSource("landings.csv", 2) };
}

/// <summary>A log in a folder of its own, deleted afterwards.</summary>
internal sealed class TempLog : IDisposable
{
    public const string DropsHeader = "drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph,forecast_drift_yd,forecast_to_deg";
    public const string LandingsHeader = "drop_id,landing_distance_yd,landing_bearing_deg";
    public const string Drop1 = "d1,m1,2031-07-14T15:20-06:00,timber,25,8,300,90";
    public const string Landing1 = "d1,12,45";

    public string Folder { get; } = Directory.CreateTempSubdirectory("jump-log-").FullName;

    public static string Lines(params string[] lines) => string.Join('\n', lines) + "\n";

    /// <summary>A log of drops.csv and landings.csv.</summary>
    public static TempLog Of(string drops, string landings) => new TempLog().With("drops.csv", drops).With("landings.csv", landings);

    /// <summary>A log with a good drop and landing and some more rows under the plain headers.</summary>
    public static TempLog Plain(string[] drops, string[] landings) =>
        Of(Lines([DropsHeader, Drop1, .. drops]), Lines([LandingsHeader, Landing1, .. landings]));

    public TempLog With(string file, string text)
    {
        File.WriteAllText(Path.Combine(Folder, file), text);
        return this;
    }

    public TempLog With(string file, byte[] bytes)
    {
        File.WriteAllBytes(Path.Combine(Folder, file), bytes);
        return this;
    }

    public JumpLog Read() => JumpLog.Read(Folder);

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
