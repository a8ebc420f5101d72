namespace JumpAnalytics;

/// <summary>
/// Exit, opening and touchdown in the points of a track. The descent is the longest stretch of steady falling; its ends are found by
/// fitting two straight pieces of height against time to either side and weighing every place of the break by its likelihood, which gives
/// the time, its error and how sure it is.
/// </summary>
internal sealed class TrackMoments
{
    /// <summary>Seconds to either side over which speeds are smoothed, and beyond an end that a break is looked for.</summary>
    private const double Smooth = 3, Search = 25;

    /// <summary>
    /// Seconds by which the exit may be told too early: the first seconds fall faster than the straight piece that is fitted.
    /// </summary>
    private const double Hurry = 1.3;

    /// <summary>No canopy is open sooner after the exit, seconds.</summary>
    private const double Soonest = 2;

    private readonly IReadOnlyList<TrackPoint> _points;
    private readonly double[] _down, _over;
    private readonly double _heightSd;
    private readonly TrackOptions _options;

    private TrackMoments(IReadOnlyList<TrackPoint> points, double heightSd, TrackOptions options)
    {
        (_points, _heightSd, _options) = (points, heightSd, options);
        double[] seconds = [.. points.Select(p => p.Seconds)], ones = [.. points.Select(_ => 1.0)];
        double[] heights = [.. points.Select(p => p.Height)], east = [.. points.Select(p => p.Place.East)],
            north = [.. points.Select(p => p.Place.North)];
        double step = points.Count > 1 ? (seconds[^1] - seconds[0]) / (points.Count - 1) : 1;
        var reach = Math.Max(Smooth, 1.6 * step);
        _down =
            [.. points.Select((_, i) => -(LocalCubic.At(seconds, heights, ones, i, Math.Max(reach, heightSd > 3 ? 5 : 0), 2)?.Slope ?? 0))];
        _over = [.. points.Select((_, i) => LocalCubic.At(seconds, east, ones, i, reach, 2) is { } e
            && LocalCubic.At(seconds, north, ones, i, reach, 2) is { } n ? double.Hypot(e.Slope, n.Slope) : 0)];
    }

    /// <summary>What was found; null when nothing descends.</summary>
    public static (TrackMoment? Exit, TrackMoment? Opening, TrackMoment? Touchdown, int First, int Last)? Of(
        IReadOnlyList<TrackPoint> points, double heightSd, TrackOptions options)
    {
        var moments = new TrackMoments(points, heightSd, options);
        if (moments.Descent() is not { } descent) return null;
        var touchdown = moments.Touchdown(descent);
        var exit = moments.Exit(descent);
        return (exit, exit is null ? null : moments.Opening(exit, descent), touchdown, descent.First, descent.Last);
    }

    /// <summary>
    /// Falling, and no longer as fast over the ground as the aircraft, which may lose more height on its way than the jump does.
    /// </summary>
    private bool Falls(int i) => _down[i] >= _options.LeastDescent && _over[i] < _options.AircraftSpeed;

    /// <summary>The stretch of steady falling that loses most height; pauses of a few seconds do not end it.</summary>
    private (int First, int Last)? Descent()
    {
        (int First, int Last)? best = null;
        var most = 30.0; // metres: less is no descent under canopy
        for (var i = 0; i < _points.Count; i++)
        {
            if (!Falls(i)) continue;
            var (first, last) = (i, i);
            while (i + 1 < _points.Count && (Falls(i + 1) || _points[i + 1].Seconds - _points[last].Seconds < 4))
            {
                i++;
                if (Falls(i)) last = i;
            }
            i = last;
            if (_points[first].Height - _points[last].Height is var lost && lost > most) (best, most) = ((first, last), lost);
        }
        return best;
    }

    private TrackMoment? Touchdown((int First, int Last) descent)
    {
        var end = _points[descent.Last].Seconds;
        var window = Enumerable.Range(0, _points.Count)
            .Where(i => i >= descent.First && Math.Abs(_points[i].Seconds - end) <= Search).ToList();
        // Nothing after the fall.
        if (window.Count < 6 || _points[^1].Seconds - end < 3 || _points.Count - 1 - descent.Last < 2) return null;
        if (Break(window, flatFirst: false) is not { } found) return null;
        return new TrackMoment(Next(found.Seconds), found.Seconds, found.Sd, found.Confidence, "the falling ends and the height stays");
    }

    private TrackMoment? Exit((int First, int Last) descent)
    {
        var begin = _points[descent.First].Seconds;
        // back through the first of the fall, then through level flight, and no farther: what the aircraft did before is not asked
        var first = descent.First;
        while (first > 0 && _down[first - 1] >= _options.LeastDescent && begin - _points[first - 1].Seconds <= Smooth + 1) first--;
        while (first > 0 && Math.Abs(_down[first - 1]) < _options.LeastDescent && begin - _points[first - 1].Seconds <= Search) first--;
        var before = Enumerable.Range(first, descent.First + 1 - first).ToList();
        if (before.Count < 3 || begin - _points[first].Seconds < 3 || !before.Any(i => _over[i] > _options.AircraftSpeed)) return null;
        var window = Enumerable.Range(first, descent.Last + 1 - first)
            .Where(i => _points[i].Seconds - begin <= Math.Min(Search, Math.Max(8, begin - _points[first].Seconds))).ToList();
        if (window.Count < 5 || Break(window, flatFirst: true) is not { } found) return null;
        return new TrackMoment(Next(found.Seconds), found.Seconds, double.Hypot(found.Sd, Hurry), found.Confidence,
            "level flight at aircraft speed ends and the falling begins");
    }

    /// <summary>
    /// The first moment after the exit from which the fall is no faster than half as much again as under canopy, and
    /// the aircraft's speed is gone.
    /// </summary>
    private TrackMoment? Opening(TrackMoment exit, (int First, int Last) descent)
    {
        double[] falls = [.. Enumerable.Range(descent.First, descent.Last - descent.First + 1).Select(i => _down[i]).Order()];
        var usual = falls[falls.Length / 2];
        for (var i = exit.Point; i <= descent.Last; i++)
        {
            if (_points[i].Seconds < exit.Seconds + Soonest || _down[i] > 1.5 * usual || _over[i] > 0.75 * _options.AircraftSpeed) continue;
            var step = i > 0 ? _points[i].Seconds - _points[i - 1].Seconds : 1;
            return new TrackMoment(i, _points[i].Seconds, 2 + step / 2, exit.Confidence * 0.9,
                "the fall has slowed to that of the canopy, and the aircraft's speed is gone");
        }
        return null;
    }

    private int Next(double seconds) =>
        Math.Min(_points.Count - 1, Enumerable.Range(0, _points.Count).First(i => _points[i].Seconds >= seconds || i == _points.Count - 1));

    /// <summary>
    /// Where a level piece meets a falling one: the mean and spread of the break over its likelihood, and how much
    /// likelier a break is than one line.
    /// </summary>
    private (double Seconds, double Sd, double Confidence)? Break(List<int> window, bool flatFirst)
    {
        double[] t = [.. window.Select(i => _points[i].Seconds)], h = [.. window.Select(i => _points[i].Height)];
        var grid = Enumerable.Range(0, 201).Select(k => t[0] + (t[^1] - t[0]) * k / 200).ToArray();
        var costs = grid.Select(at => Cost(t, h, at, flatFirst)).ToArray();
        var least = costs.Min();
        var variance = Math.Max(least / Math.Max(1, t.Length - 3), _heightSd * _heightSd) * 2; // neighbours share some noise
        var weights = costs.Select(c => Math.Exp(-(c - least) / (2 * variance))).ToArray();
        var total = weights.Sum();
        var mean = grid.Zip(weights, (g, w) => g * w).Sum() / total;
        var sd = Math.Sqrt(grid.Zip(weights, (g, w) => (g - mean) * (g - mean) * w).Sum() / total
            + Math.Pow((t[^1] - t[0]) / (t.Length - 1), 2) / 12);
        var gain = (LineCost(t, h) - least) / (2 * variance) - Math.Log(t.Length);
        return double.IsFinite(mean) ? (mean, sd, Kernels.Logistic(Math.Min(gain, 30))) : null;
    }

    /// <summary>Squared distances from a level piece and a falling one that meet at a time.</summary>
    private static double Cost(double[] t, double[] h, double at, bool flatFirst)
    {
        // h = a + b·max(0, t − at) with the fall after, or max(0, at − t) with it before
        double n = t.Length, x = 0, xx = 0, y = 0, xy = 0, yy = 0;
        for (var i = 0; i < t.Length; i++)
        {
            var u = Math.Max(0, flatFirst ? t[i] - at : at - t[i]);
            (x, xx, y, xy, yy) = (x + u, xx + u * u, y + h[i], xy + u * h[i], yy + h[i] * h[i]);
        }
        var spread = xx - x * x / n;
        var slope = spread > 1e-9 ? (xy - x * y / n) / spread : 0;
        return Math.Max(0, yy - y * y / n - slope * (xy - x * y / n));
    }

    private static double LineCost(double[] t, double[] h) => Cost(t, h, t[0], flatFirst: true);
}
