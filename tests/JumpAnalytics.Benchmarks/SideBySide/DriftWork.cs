using System.Globalization;

namespace JumpAnalytics.Benchmarks;

/// <summary>A forecast simulated again and again through layers of wind.</summary>
internal static class DriftWork
{
    private const int Layers = 30;
    private const double Thick = 30, SecondsEach = 5.5, Age = 600, GroundSpeed = 45, Radius = 40;

    public static Func<IReadOnlyDictionary<string, double>> Prepare(string folder, int size)
    {
        var run = Bearing.FromDegrees(20);
        var setting = new ForecastSetting([.. Enumerable.Range(0, Layers).Select(i =>
            new DescentLayer(Thick * i, Thick * (i + 1), SecondsEach, new WindVector(0.1 * i, 3)))], Age, run, GroundSpeed, Radius);
        var sources = new ForecastErrorSources();
        (string Name, double Value)[] settings =
        [
            ("descents", size), ("layers", Layers), ("seconds", SecondsEach), ("wind_sd", sources.WindSd(Age)),
            ("shared", sources.SharedByHeight), ("keep", Math.Exp(-Thick / sources.LayerDepth)),
            ("drift", setting.Drift.Length), ("run", run.Radians - setting.Drift.Direction!.Value.Radians), ("ground_speed", GroundSpeed),
            ("radius", Radius), ("exit_timing", sources.ExitTiming),
            ("exit_across", sources.ExitAcross), ("descent_rate", sources.DescentRate), ("reading_share", sources.ReadingShare),
            ("reading_angle", sources.ReadingAngle), ("reading_floor", sources.ReadingFloor),
            ("steering_leaves", sources.SteeringLeaves), ("jumper_own", sources.JumperOwn),
        ];
        File.WriteAllLines(Path.Combine(folder, "drift.csv"),
            settings.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Name},{s.Value:R}")));
        return () =>
        {
            var made = ForecastSimulation.Of(setting, sources, size);
            return new Dictionary<string, double>
            {
                ["half"] = made.Half.Value, ["nine"] = made.NineInTen.Value, ["hits"] = made.HitChance.Value,
                ["sd_downwind"] = Math.Sqrt(made.Covariance.VarianceAlong), ["sd_right"] = Math.Sqrt(made.Covariance.VarianceAcross),
            };
        };
    }
}
