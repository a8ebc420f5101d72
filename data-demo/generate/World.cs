namespace JumpAnalytics.Demo;

record Mission(string Id, int Season, DateTime Start, string Spotter, string Aircraft, Terrain Terrain, int RadiusYd, Canopy Canopy,
    double Lat, double Lon, double ElevationFt, double WindMph, double WindFromDeg);
record Drop(Mission Mission, int Pass, DateTime Time, double WindMph, int WindFromDeg, int SurfaceMph, int ForecastYd, int ForecastToDeg,
    int ExitFt, int AgeMin, int RunDeg, int GroundKt, double SpacingS, string[] Jumpers)
{
    public string Id => $"{Mission.Id}-{Pass}";
    public string Band => Planted.BandOf(WindMph);
    public Vec Forecast => ForecastYd * Vec.Toward(ForecastToDeg);
}
record Touchdown(Vec FirstExit, Vec Miss, bool HungUp)
{
    public required int Order { get; init; }                // 0 = first out
    public required Vec Exit { get; init; }
    public required Vec UnsteeredDrift { get; init; }
    public required Vec Steering { get; init; }
}

readonly record struct Vec(double East, double North)
{
    public double Length => double.Hypot(East, North);
    public double BearingDeg => (Math.Atan2(East, North) * 180 / Math.PI + 360) % 360;
    public Vec Right => new(North, -East);
    public static Vec Toward(double deg) => new(Math.Sin(deg * Math.PI / 180), Math.Cos(deg * Math.PI / 180));
    public static Vec operator +(Vec a, Vec b) => new(a.East + b.East, a.North + b.North);
    public static Vec operator *(double k, Vec v) => new(k * v.East, k * v.North);
}
