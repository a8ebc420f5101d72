namespace JumpAnalytics;

/// <summary>
/// The points under canopy as the smoother takes them: close ones averaged, long gaps filled with times at which no place is known.
/// </summary>
internal sealed class DescentBlocks
{
    /// <summary>
    /// Points nearer to one another than this are averaged, seconds: in half a second a turning canopy hardly leaves its chord.
    /// </summary>
    private const double Average = 0.55;

    /// <summary>The longest step of the smoother, seconds.</summary>
    private const double LongestStep = 1.05;

    /// <summary>Heights are smoothed over this many seconds to either side.</summary>
    private const double HeightReach = 5;

    private DescentBlocks(double[] seconds, double[] east, double[] north, double[] heights, double[] weights) =>
        (Seconds, East, North, Heights, Weights) = (seconds, east, north, heights, weights);

    public double[] Seconds { get; }

    public double[] East { get; }

    public double[] North { get; }

    /// <summary>Smoothed heights.</summary>
    public double[] Heights { get; }

    /// <summary>Points behind each place; 0 where none is known.</summary>
    public double[] Weights { get; }

    /// <summary>Indices at which a place is known.</summary>
    public IEnumerable<int> Known => Enumerable.Range(0, Seconds.Length).Where(i => Weights[i] > 0);

    public static DescentBlocks Of(IReadOnlyList<TrackPoint> points)
    {
        var (seconds, east, north, heights, weights) =
            (new List<double>(), new List<double>(), new List<double>(), new List<double>(), new List<double>());
        for (var i = 0; i < points.Count;)
        {
            var (t, e, n, h, count) = (0.0, 0.0, 0.0, 0.0, 0);
            var first = points[i].Seconds;
            for (; i < points.Count && points[i].Seconds < first + Average; i++) (t, e, n, h, count) =
                (t + points[i].Seconds, e + points[i].Place.East, n + points[i].Place.North, h + points[i].Height, count + 1);
            if (seconds.Count > 0)
            {
                var (from, height) = (seconds[^1], heights[^1]);
                var gaps = (int)Math.Ceiling((t / count - from) / LongestStep);
                for (var g = 1; g < gaps; g++) Add(from + (t / count - from) * g / gaps, 0, 0, height + (h / count - height) * g / gaps, 0);
            }
            Add(t / count, e / count, n / count, h / count, count);
        }
        double[] times = [.. seconds], raw = [.. heights], seen = [.. weights];
        return new DescentBlocks(times, [.. east], [.. north],
            [.. raw.Select((height, i) => LocalCubic.At(times, raw, seen, i, HeightReach, 3)?.Value ?? height)], seen);

        void Add(double t, double e, double n, double h, double weight)
        {
            seconds.Add(t);
            east.Add(e);
            north.Add(n);
            heights.Add(h);
            weights.Add(weight);
        }
    }

    /// <summary>Ground velocity at a time by a cubic through the places some seconds to either side; null where too few are near.</summary>
    public WindVector? Velocity(int at, double reach) =>
        LocalCubic.At(Seconds, East, Weights, at, reach, 4) is { } east && LocalCubic.At(Seconds, North, Weights, at, reach, 4) is { } north
            ? new WindVector(east.Slope, north.Slope) : null;

    /// <summary>The places of a fitted descent seen through fresh noise.</summary>
    public DescentBlocks Seen(Random random, DescentFit fit)
    {
        double[] east = [.. East], north = [.. North];
        foreach (var i in Known)
        {
            var (a, b) = StandardNormal.Pair(random);
            var sd = fit.PlaceSd / Math.Sqrt(Weights[i]);
            (east[i], north[i]) = (fit.States[i * CanopyState.Size + CanopyState.East] + sd * a,
                fit.States[i * CanopyState.Size + CanopyState.North] + sd * b);
        }
        return new DescentBlocks(Seconds, east, north, Heights, Weights);
    }
}
