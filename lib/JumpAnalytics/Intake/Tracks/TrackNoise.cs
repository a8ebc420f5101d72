namespace JumpAnalytics;

/// <summary>
/// The noise of a track from the track itself: third differences of white noise have 20 times its variance, those of a smooth way next to
/// none; their median size, which a few turns or spikes can't move, gives the standard deviation. Noise that wanders slowly is not seen.
/// </summary>
internal static class TrackNoise
{
    /// <summary>Median size of a standard normal deviate.</summary>
    private const double MedianSize = 0.6744898;

    private const double Least = 0.05;

    /// <summary>Metres per axis.</summary>
    public static double OfPlaces(IReadOnlyList<TrackPoint> points) => Of(points, p => p.Place.East, p => p.Place.North);

    /// <summary>Metres.</summary>
    public static double OfHeights(IReadOnlyList<TrackPoint> points) => Of(points, p => p.Height);

    private static double Of(IReadOnlyList<TrackPoint> points, params Func<TrackPoint, double>[] axes)
    {
        var sizes = new List<double>();
        for (var i = 3; i < points.Count; i++)
        {
            double[] steps = [points[i - 2].Seconds - points[i - 3].Seconds, points[i - 1].Seconds - points[i - 2].Seconds,
                points[i].Seconds - points[i - 1].Seconds];
            if (steps.Max() > 1.5 * steps.Min()) continue; // only where times are even
            foreach (var axis in axes)
                sizes.Add(Math.Abs(axis(points[i]) - 3 * axis(points[i - 1]) + 3 * axis(points[i - 2]) - axis(points[i - 3])));
        }
        if (sizes.Count < 5) return 3;
        sizes.Sort();
        return Math.Max(Least, sizes[sizes.Count / 2] / MedianSize / Math.Sqrt(20));
    }
}
