namespace JumpAnalytics;

/// <summary>One set of drift streamers: released at a height, fallen at a rate, drifted by a vector.</summary>
/// <param name="ReleaseHeight">Metres above the ground.</param>
/// <param name="Descent">How fast they fell.</param>
/// <param name="Drift">Metres east and north from release to the ground.</param>
/// <param name="DriftError">Covariance of the reading of that, m², first axis east; no error when left out.</param>
[TypeFormatterSource]
public sealed record StreamerSet(double ReleaseHeight, CanopyDescent Descent, LocalVector Drift, PlaneCovariance? DriftError = null)
{
    /// <summary>
    /// Mean wind over the fall, the time counting, with its error: by the reading of the drift and by the spread of the rate.
    /// </summary>
    /// <param name="groundElevation">Metres above sea level.</param>
    public (WindVector Mean, PlaneCovariance Error) MeanWind(double groundElevation)
    {
        var seconds = Descent.Seconds(0, ReleaseHeight, groundElevation);
        // a rate that is larger by a share takes that share off the time, and so adds it to the wind
        var byRate = PlaneCovariance.OfMultiples(Descent.LogSd * Drift.East, Descent.LogSd * Drift.North);
        var error = 1 / (seconds * seconds) * ((DriftError ?? PlaneCovariance.None) + byRate);
        return (new WindVector(Drift.East / seconds, Drift.North / seconds), error);
    }

    /// <summary>
    /// The wind by height that they tell: the mean over their fall, and its change with height by a law; streamers that fall through it
    /// drift as these did.
    /// </summary>
    /// <param name="shape">The law by which the wind changes with height, under the release and above it.</param>
    /// <param name="groundElevation">Metres above sea level of the ground.</param>
    /// <exception cref="ArgumentException">
    /// Released at no height, a drift or an error that is no number, or a law that can't hold there.
    /// </exception>
    public WindProfile Profile(WindFill shape, double groundElevation = 0)
    {
        if (!(ReleaseHeight > 0))
            throw new ArgumentException($"Release heights are above zero; at {Rounding.Fixed(ReleaseHeight, 0)} m streamers tell no wind.");
        if (!double.IsFinite(Drift.Length)) throw new ArgumentException($"A drift is finite; found {Drift}.");
        var (mean, error) = MeanWind(groundElevation);
        // a fall counts each height by the time it spends there, which is the same share of it at every rate
        return WindProfile.WithMean(mean, ReleaseHeight, shape, error, z => 1 / Descent.RateAt(groundElevation + z));
    }
}
