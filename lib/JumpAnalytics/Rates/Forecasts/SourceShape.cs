namespace JumpAnalytics;

/// <summary>Who has a source's error in common.</summary>
internal enum SourceLevel
{
    Mission,
    Pass,
    Jumper,
}

/// <summary>A source of error as it may be told from others: who shares it, what it grows with, and which way it points.</summary>
/// <param name="Name">The source in words.</param>
/// <param name="Level">Who shares it.</param>
/// <param name="GrowsWith">What its standard deviation is in proportion to, in words.</param>
/// <param name="Scale">That quantity over its mean in the record.</param>
/// <param name="AlongRun">Whether it points along the run; else it is alike in every direction.</param>
internal sealed record SourceShape(string Name, SourceLevel Level, string GrowsWith, Func<Landing, double> Scale, bool AlongRun = false)
{
    /// <summary>The sources that a log can tell, with scales that are 1 in the mean of the landings.</summary>
    public static IReadOnlyList<SourceShape> Of(IReadOnlyList<Landing> landings)
    {
        var (drift, age, speed, wind) = (landings.Average(l => l.Drop.ForecastDrift.Length), Mean(l => l.Drop.StreamerAge),
            Mean(l => l.Drop.GroundSpeed), landings.Average(l => l.Drop.WindSpeed));
        return
        [
            new("forecast error of the whole mission", SourceLevel.Mission, "nothing", _ => 1),
            new("forecast error that grows with the drift", SourceLevel.Mission, "length of the drift",
                l => drift > 0 ? l.Drop.ForecastDrift.Length / drift : 0),
            new("forecast error that grows with its age", SourceLevel.Pass, "cube root of the age",
                l => l.Drop.StreamerAge is { } a && age > 0 ? Math.Cbrt(a / age) : 1),
            new("placing of the exit along the run", SourceLevel.Pass, "ground speed",
                l => l.Drop.GroundSpeed is { } s && speed > 0 ? s / speed : 1, AlongRun: true),
            new("jumper's own part", SourceLevel.Jumper, "nothing", _ => 1),
            new("jumper's own part that grows with the wind", SourceLevel.Jumper, "drift wind",
                l => wind > 0 ? l.Drop.WindSpeed / wind : 0),
        ];

        double Mean(Func<Landing, double?> of) => landings.Select(of).OfType<double>().DefaultIfEmpty(0).Average();
    }

    /// <summary>The directions in the downwind frame that the source points in, times its scale.</summary>
    public IEnumerable<(double Downwind, double Right)> Vectors(Landing landing)
    {
        var scale = Scale(landing);
        if (!AlongRun)
        {
            yield return (scale, 0);
            yield return (0, scale);
        }
        else if (landing.Drop.RunHeading is { } run && landing.Drop.ForecastDrift.Direction is { } drift)
        {
            var (sin, cos) = Math.SinCos(run.Radians - drift.Radians);
            yield return (scale * cos, scale * sin);
        }
    }
}
