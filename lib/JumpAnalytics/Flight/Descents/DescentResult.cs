namespace JumpAnalytics;

/// <summary>From the smoothed states of a descent to its results.</summary>
internal static class DescentResult
{
    private const int N = CanopyState.Size;

    /// <summary>Half width of a 95 % interval in standard deviations.</summary>
    private const double Half = 1.959964;

    public static Fit<FlownDescent> Of(DescentTrack track, DescentBlocks blocks, DescentFit fit, double turned, FlownDescentOptions options)
    {
        var (states, covariances) = (fit.States, fit.Covariances);
        var factors = DescentErrors.Of(blocks, fit, options);
        var layers = Layers(blocks, states, covariances, factors, options);
        if (!layers.Any(l => l.Wind.Success))
            return Fit<FlownDescent>.Refused("the canopy turned too little: the wind is nowhere told to within what was asked for");
        var last = blocks.Seconds.Length - 1;
        var flown = new LocalVector(states[last * N + CanopyState.SteeringEast], states[last * N + CanopyState.SteeringNorth]);
        var error = factors.Steering * Covariance(covariances, last, CanopyState.SteeringEast, CanopyState.SteeringNorth);
        var (seen, rate) = (blocks.Seconds[last] - blocks.Seconds[0],
            (blocks.Heights[0] - blocks.Heights[last]) / (blocks.Seconds[last] - blocks.Seconds[0]));
        var unseen = Unseen(track, blocks, layers, rate, options);
        var speed = Speed(states, covariances, factors);
        // what was not seen may have been flown any way, and so may the seconds by which the opening is in doubt
        error += PlaneCovariance.Round(speed.Value * double.Hypot(unseen.Seconds, track.Opening?.SecondsSd ?? 0) / Math.Sqrt(2));
        var displacement = Place(states, last) - Place(states, 0) + Before(track, blocks, states) + unseen.Drift;
        var ends = Covariance(covariances, 0, CanopyState.East, CanopyState.North)
            + Covariance(covariances, last, CanopyState.East, CanopyState.North);
        var rateHalf = Half * Math.Sqrt(2) * Math.Max(track.HeightSd, 0.1) / seen;
        return Fit<FlownDescent>.Made(new FlownDescent
        {
            Displacement = displacement, Steering = flown, SteeringError = error, UnsteeredDrift = displacement - flown,
            UnsteeredDriftError = error + ends, Layers = layers,
            ForwardSpeed = speed, DescentRate = Estimate.Of(rate, new Interval(rate - rateHalf, rate + rateHalf)), Turned = turned,
            FullTurnSeconds = FullTurn(states), PlaceSd = fit.PlaceSd, Seconds = seen,
            UnseenSeconds = unseen.Seconds, UnsteeredPath = Unsteered(blocks, states),
        });
    }

    private static List<WindLayer> Layers(DescentBlocks blocks, double[] states, double[] covariances,
        DescentErrors factors, FlownDescentOptions options)
    {
        var (layers, top) = (new List<WindLayer>(), blocks.Heights[0]);
        for (var bottom = 0.0; bottom < top; bottom += options.LayerDepth)
        {
            var above = bottom + options.LayerDepth;
            var inside = Enumerable.Range(0, blocks.Seconds.Length)
                .Where(i => blocks.Heights[i] >= bottom && blocks.Heights[i] < above).ToList();
            if (inside.Count < 2) continue;
            var middle = inside.MinBy(i => Math.Abs(blocks.Heights[i] - (bottom + above) / 2));
            var seconds = blocks.Seconds[inside[^1]] - blocks.Seconds[inside[0]];
            var turned = double.RadiansToDegrees(
                inside.Skip(1).Sum(i => Math.Abs(states[i * N + CanopyState.Turn]) * (blocks.Seconds[i] - blocks.Seconds[i - 1])));
            var error = factors.Wind * Covariance(covariances, middle, CanopyState.WindEast, CanopyState.WindNorth);
            layers.Add(new WindLayer
            {
                Bottom = bottom, Top = above, Points = inside.Sum(i => (int)blocks.Weights[i]), Turned = turned,
                TurnRate = seconds > 0 ? turned / seconds : 0,
                Wind = error.AxisSds.Longest <= options.WidestWind
                    ? Fit<WindLevel>.Made(new WindLevel(blocks.Heights[middle],
                        new WindVector(states[middle * N + CanopyState.WindEast], states[middle * N + CanopyState.WindNorth]), error))
                    : Fit<WindLevel>.Refused("the canopy turned too little near this height: the wind is told to "
                        + $"{Rounding.Fixed(error.AxisSds.Longest, 1)} m/s only"),
                ForwardSpeed = Math.Exp(states[middle * N + CanopyState.Speed]),
                ForwardSpeedSd = Math.Exp(states[middle * N + CanopyState.Speed]) * Math.Sqrt(
                    factors.Speed * covariances[middle * N * N + (N + 1) * CanopyState.Speed]),
                DescentRate = seconds > 0 ? (blocks.Heights[inside[0]] - blocks.Heights[inside[^1]]) / seconds : 0,
            });
        }
        return layers;
    }

    /// <summary>The way between exit and opening, which nobody steers.</summary>
    private static LocalVector Before(DescentTrack track, DescentBlocks blocks, double[] states) =>
        track.Exit is { } exit && exit.Point < track.Points.Count && exit.Seconds < blocks.Seconds[0]
            ? Place(states, 0) - track.ExitPlace!.Value : default;

    /// <summary>What the track has not seen: the drift there by the nearest wind told, and the time.</summary>
    private static (LocalVector Drift, double Seconds) Unseen(DescentTrack track, DescentBlocks blocks, IReadOnlyList<WindLayer> layers,
        double rate, FlownDescentOptions options)
    {
        var told = layers.Select(l => l.Wind.Value).OfType<WindLevel>().ToList();
        var (drift, seconds) = (default(LocalVector), 0.0);
        if (track.Exit is null && track.Opening is null && options.ExitHeight is { } exit && exit > blocks.Heights[0] + 10 && rate > 0)
            Add((exit - blocks.Heights[0]) / rate, told[^1]);
        if (track.Touchdown is null && blocks.Heights[^1] > 10 && rate > 0) Add(blocks.Heights[^1] / rate, told[0]);
        return (drift, seconds);

        void Add(double missing, WindLevel nearest) => (drift, seconds) = (drift + nearest.Wind.Over(missing), seconds + missing);
    }

    /// <summary>Mean forward speed; its error is that at the best known moment, since the speed hardly changes.</summary>
    private static Estimate Speed(double[] states, double[] covariances, DescentErrors factors)
    {
        var count = states.Length / N;
        var mean = Enumerable.Range(0, count).Average(i => Math.Exp(states[i * N + CanopyState.Speed]));
        var sd = Math.Sqrt(factors.Speed * Enumerable.Range(0, count).Min(i => covariances[i * N * N + (N + 1) * CanopyState.Speed]));
        return Estimate.Of(mean, new Interval(mean * Math.Exp(-Half * sd), mean * Math.Exp(Half * sd)));
    }

    /// <summary>Seconds of a full turn at the rate at which the turning was done: each rate weighs as what it turned.</summary>
    private static double? FullTurn(double[] states)
    {
        double[] rates = [.. Enumerable.Range(0, states.Length / N).Select(i => Math.Abs(states[i * N + CanopyState.Turn]))
            .Where(r => r > double.DegreesToRadians(20))];
        return rates.Length < 3 ? null : 2 * Math.PI * rates.Sum() / rates.Sum(r => r * r);
    }

    private static IReadOnlyList<TrackPoint> Unsteered(DescentBlocks blocks, double[] states) =>
        [.. Enumerable.Range(0, blocks.Seconds.Length).Select(i => new TrackPoint(blocks.Seconds[i], Place(states, i)
            - new LocalVector(states[i * N + CanopyState.SteeringEast], states[i * N + CanopyState.SteeringNorth]), blocks.Heights[i]))];

    private static LocalVector Place(double[] states, int at) => new(states[at * N + CanopyState.East], states[at * N + CanopyState.North]);

    private static PlaneCovariance Covariance(double[] covariances, int at, int first, int second) =>
        new(covariances[at * N * N + (N + 1) * first], covariances[at * N * N + (N + 1) * second],
            covariances[at * N * N + N * first + second]);
}
