namespace JumpAnalytics;

/// <summary>One set of drift streamers: released at a height, fallen at a rate, drifted by a vector.</summary>
/// <param name="ReleaseHeight">Metres above the ground.</param>
/// <param name="Descent">How fast they fell.</param>
/// <param name="Drift">Metres east and north from release to the ground.</param>
/// <param name="DriftSd">Standard deviation per axis of the reading of that, metres; 0 when not told.</param>
public sealed record StreamerSet(double ReleaseHeight, CanopyDescent Descent, LocalVector Drift, double DriftSd = 0)
{
    /// <summary>Mean wind over the fall, with its error, the time counting.</summary>
    /// <param name="groundElevation">Metres above sea level.</param>
    public (WindVector Mean, LocalCovariance Error) MeanWind(double groundElevation)
    {
        var seconds = Descent.Seconds(0, ReleaseHeight, groundElevation);
        return (new WindVector(Drift.East / seconds, Drift.North / seconds), LocalCovariance.Round(DriftSd / seconds));
    }

    /// <summary>
    /// The wind by height that sets tell. Sets released at different heights tell the mean of each layer between them by difference, since the lower part of each fall is that of the next lower set;
    /// the mean stands in the middle of its layer. One set tells a mean alone, and a law its shape.
    /// </summary>
    /// <param name="sets">One or more; of several at one height the mean counts.</param>
    /// <param name="shape">The law by which the wind changes where no set tells it: shape under a single set, below the lowest and above the highest layer.</param>
    /// <param name="groundElevation">Metres above sea level of the ground.</param>
    /// <exception cref="ArgumentException">No set, or one released at no height.</exception>
    public static WindProfile Profile(IReadOnlyList<StreamerSet> sets, WindFill shape, double groundElevation = 0)
    {
        if (sets.Count == 0) throw new ArgumentException("A wind from streamers needs at least one set.", nameof(sets));
        if (sets.FirstOrDefault(s => !(s.ReleaseHeight > 0)) is { } low) throw new ArgumentException($"Streamers released at {Rounding.Fixed(low.ReleaseHeight, 0)} m tell no wind; a release height is above zero.", nameof(sets));
        // each fall as its time-weighted sum of wind: drift = ∫ wind / rate, with a rate common to a height
        var falls = sets.GroupBy(s => s.ReleaseHeight).OrderBy(g => g.Key).Select(g =>
        {
            var means = g.Select(s => s.MeanWind(groundElevation)).ToList();
            return (Top: g.Key, Mean: 1.0 / means.Count * means.Select(m => m.Mean).Aggregate((a, b) => a + b), Error: 1.0 / (means.Count * means.Count) * means.Select(m => m.Error).Aggregate((a, b) => a + b));
        }).ToList();
        if (falls.Count == 1) return WindProfile.WithMean(falls[0].Mean, falls[0].Top, shape, falls[0].Error);
        var (levels, below) = (new List<WindLevel>(), (Top: 0.0, Sum: default(WindVector), Error: default(LocalCovariance)));
        var unit = new CanopyDescent(1);
        foreach (var fall in falls)
        {
            var (weight, layer) = (unit.Seconds(0, fall.Top, groundElevation), unit.Seconds(below.Top, fall.Top, groundElevation));
            var sum = weight * fall.Mean;
            var error = weight * weight * fall.Error;
            levels.Add(new WindLevel((below.Top + fall.Top) / 2, 1 / layer * (sum - below.Sum), 1 / (layer * layer) * (error + below.Error)));
            below = (fall.Top, sum, error);
        }
        return WindProfile.Through(levels, shape, shape);
    }
}
