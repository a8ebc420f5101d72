namespace JumpAnalytics;

/// <summary>Who has a source's error in common.</summary>
internal enum SourceLevel
{
    Mission,
    Pass,
    Jumper,
}

/// <summary>A source of error as a log can see it: who shares it, what it grows with, and which way it points.</summary>
/// <param name="Name">The source in words.</param>
/// <param name="Level">Who shares it.</param>
/// <param name="SharedBy">The same in words; several where the log cannot separate them.</param>
/// <param name="GrowsWith">What its standard deviation is in proportion to, in words.</param>
/// <param name="Scale">That quantity over its mean in the record.</param>
/// <param name="AlongRun">Whether it points along the run; else it is alike in every direction.</param>
internal sealed record SourceShape(
    string Name, SourceLevel Level, string SharedBy, string GrowsWith, Func<Landing, double> Scale, bool AlongRun = false)
{
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
