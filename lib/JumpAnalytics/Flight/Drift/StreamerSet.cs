namespace JumpAnalytics;

/// <summary>One set of drift streamers: released at a height, fallen at a rate, drifted by a vector.</summary>
/// <param name="ReleaseHeight">Metres above the ground.</param>
/// <param name="Descent">How fast they fell.</param>
/// <param name="Drift">Metres east and north from release to the ground.</param>
/// <param name="DriftSd">Standard deviation per axis of the reading of that, metres; 0 when not told.</param>
[TypeFormatterSource]
public sealed record StreamerSet(double ReleaseHeight, CanopyDescent Descent, LocalVector Drift, double DriftSd = 0)
{
    /// <summary>Mean wind over the fall, with its error, the time counting.</summary>
    /// <param name="groundElevation">Metres above sea level.</param>
    public (WindVector Mean, PlaneCovariance Error) MeanWind(double groundElevation)
    {
        var seconds = Descent.Seconds(0, ReleaseHeight, groundElevation);
        return (new WindVector(Drift.East / seconds, Drift.North / seconds), PlaneCovariance.Round(DriftSd / seconds));
    }

    /// <summary>
    /// The wind by height that sets tell. Sets released at different heights tell the mean of each layer between them by difference, since the lower part of each fall is that of the next lower set;
    /// a level stands in the middle of each layer, and the winds there are such that streamers that fall through the profile drift as each set did. One set tells a mean alone, and a law its
    /// shape. The sets' errors are independent of one another and pass into the drift with their correlation: from the height of the highest set it is as well known as that set.
    /// </summary>
    /// <param name="sets">One or more; of several at one height the mean counts. Heights only a little apart tell the layer between them poorly, and its error says so.</param>
    /// <param name="shape">The law by which the wind changes where no set tells it: shape under a single set, below the lowest and above the highest level.</param>
    /// <param name="groundElevation">Metres above sea level of the ground.</param>
    /// <exception cref="ArgumentException">No set, one released at no height, a drift or an error that is no number, or a law that can't hold there.</exception>
    public static WindProfile Profile(IReadOnlyList<StreamerSet> sets, WindFill shape, double groundElevation = 0)
    {
        if (sets.Count == 0) throw new ArgumentException("A wind from streamers needs at least one set.", nameof(sets));
        if (sets.FirstOrDefault(s => !(s.ReleaseHeight > 0)) is { } low) throw new ArgumentException($"Streamers released at {Rounding.Fixed(low.ReleaseHeight, 0)} m tell no wind; a release height is above zero.", nameof(sets));
        if (sets.FirstOrDefault(s => !double.IsFinite(s.Drift.Length) || !(s.DriftSd >= 0)) is { } odd) throw new ArgumentException($"A drift is finite and its standard deviation zero or more; found {odd.Drift} and {odd.DriftSd} m.", nameof(sets));
        var falls = sets.GroupBy(s => s.ReleaseHeight).OrderBy(g => g.Key).Select(g =>
        {
            var means = g.Select(s => s.MeanWind(groundElevation)).ToList();
            return (Top: g.Key, Mean: 1.0 / means.Count * means.Select(m => m.Mean).Aggregate((a, b) => a + b), Error: 1.0 / (means.Count * means.Count) * means.Select(m => m.Error).Aggregate((a, b) => a + b));
        }).ToList();
        // a fall counts each height by the time it spends there, which is the same share of it at every rate
        var unit = new CanopyDescent(1);
        double Slowness(double z) => 1 / unit.RateAt(groundElevation + z);
        return falls.Count == 1 ? WindProfile.WithMean(falls[0].Mean, falls[0].Top, shape, falls[0].Error, Slowness) : WindProfile.WithMeans(falls, shape, Slowness);
    }
}
