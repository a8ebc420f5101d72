namespace JumpAnalytics;

/// <summary>The variance that each source adds to a miss, in the downwind frame, by the first order of the drift's equation.</summary>
/// <param name="Wind">Change of the wind.</param>
/// <param name="Reading">Reading of the streamers.</param>
/// <param name="Exit">Timing and line of the exit.</param>
/// <param name="Rate">Spread of descent rates.</param>
/// <param name="Jumper">What the jumper adds.</param>
[TypeFormatterSource]
public sealed record SourceVariances(PlaneCovariance Wind, PlaneCovariance Reading, PlaneCovariance Exit,
    PlaneCovariance Rate, PlaneCovariance Jumper)
{
    /// <summary>All of them together.</summary>
    public PlaneCovariance Total => Wind + Reading + Exit + Rate + Jumper;

    /// <summary>Name and variance of each.</summary>
    public IReadOnlyList<(string Name, PlaneCovariance Variance)> Each =>
        [("wind change", Wind), ("reading of the streamers", Reading), ("exit", Exit), ("descent rate", Rate), ("jumper", Jumper)];

    internal static SourceVariances Of(ForecastSetting setting, ForecastErrorSources sources)
    {
        var (drift, left) = (setting.Drift.Length, sources.SteeringLeaves * sources.SteeringLeaves);
        var (along, across) = (Math.Pow(sources.ExitTiming * setting.GroundSpeed, 2), sources.ExitAcross * sources.ExitAcross);
        return new SourceVariances(
            left * PlaneCovariance.OfVariance(Blown(setting, sources)),
            left * ReadingOf(drift, sources),
            left * Turned(setting, along, across),
            left * PlaneCovariance.OfMultiples(sources.DescentRate * drift, 0),
            PlaneCovariance.Round(sources.JumperOwn));
    }

    /// <summary>Covariance of the reading of streamers that drifted so far, along and across the drift, square metres.</summary>
    internal static PlaneCovariance ReadingOf(double drift, ForecastErrorSources sources)
    {
        var floor = sources.ReadingFloor * sources.ReadingFloor;
        return new(floor + Math.Pow(sources.ReadingShare * drift, 2), floor + Math.Pow(sources.ReadingAngle * drift, 2), 0);
    }

    /// <summary>
    /// Variance, in each direction, of how far the change of the wind carries a canopy on its way down, square metres. The change of a
    /// layer is a part shared by all heights and one whose correlation falls with the distance of the layers' middles, so that the sum over
    /// layers is a double sum; it is normal when the changes are.
    /// </summary>
    internal static double Blown(ForecastSetting setting, ForecastErrorSources sources)
    {
        var (seconds, own) = (setting.Layers.Sum(l => l.Seconds), 0.0);
        foreach (var a in setting.Layers)
        {
            foreach (var b in setting.Layers) own += a.Seconds * b.Seconds * Correlation(a, b, sources);
        }
        return Math.Pow(sources.WindSd(setting.Age), 2) * (sources.SharedByHeight * seconds * seconds + (1 - sources.SharedByHeight) * own);
    }

    private static double Correlation(DescentLayer a, DescentLayer b, ForecastErrorSources sources) =>
        Math.Exp(-Math.Abs((a.Bottom + a.Top) / 2 - (b.Bottom + b.Top) / 2) / sources.LayerDepth);

    private static PlaneCovariance Turned(ForecastSetting setting, double along, double across)
    {
        if (setting.Run is not { } run || setting.Drift.Direction is not { } drift) return PlaneCovariance.OfVariance((along + across) / 2);
        var (sin, cos) = Math.SinCos(run.Radians - drift.Radians);
        return new PlaneCovariance(along * cos * cos + across * sin * sin, along * sin * sin + across * cos * cos,
            (along - across) * sin * cos);
    }
}
