namespace JumpAnalytics;

/// <summary>Where canopies would come down that a forecast was made for, over all that can go wrong with it: the predicted distribution of misses.</summary>
/// <remarks>
/// Each descent draws a change of the wind (one part for all heights, one that wanders from layer to layer), an error of reading, an exit, a descent rate (log-normal) and the jumper's own part. In
/// blocks with a stream of random numbers each, so that the result does not depend on the number of threads.
/// </remarks>
[TypeFormatterSource]
public sealed record ForecastSimulation
{
    private const int Block = 8192;

    /// <summary>Descents simulated.</summary>
    public required int Descents { get; init; }

    /// <summary>Mean miss in the downwind frame, metres.</summary>
    public required DownwindVector Mean { get; init; }

    /// <summary>Covariance of the miss in the downwind frame, m².</summary>
    public required PlaneCovariance Covariance { get; init; }

    /// <summary>Radius that holds half of the landings, metres, with the simulation's 95 % error.</summary>
    public required Estimate Half { get; init; }

    /// <summary>Radius that holds nine in ten of them.</summary>
    public required Estimate NineInTen { get; init; }

    /// <summary>Chance of coming down inside the target radius, with the simulation's 95 % error.</summary>
    public required Estimate HitChance { get; init; }

    /// <summary>Distances from the spot, metres, in rising order.</summary>
    internal double[] Distances { get; private init; } = [];

    /// <summary>What each source adds, by the first order.</summary>
    public required SourceVariances Sources { get; init; }

    /// <summary>Simulates.</summary>
    /// <param name="setting">The pass.</param>
    /// <param name="sources">What can go wrong.</param>
    /// <param name="descents">How many; 20,000 unless said otherwise.</param>
    /// <param name="seed">Seed of the random numbers.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 100 descents.</exception>
    /// <exception cref="ArgumentException">The setting has no layer.</exception>
    public static ForecastSimulation Of(ForecastSetting setting, ForecastErrorSources sources, int descents = 20_000, int seed = 1)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(descents, 100);
        if (setting.Layers.Count == 0) throw new ArgumentException("A forecast is made of one layer or more.", nameof(setting));
        var (long_, right) = (new double[descents], new double[descents]);
        Parallel.For(0, (descents + Block - 1) / Block, block => Fly(setting, sources, SeedStream.For(seed, $"forecast, block {block}"), long_.AsSpan(block * Block, Math.Min(Block, descents - block * Block)), right.AsSpan(block * Block, Math.Min(Block, descents - block * Block))));
        var (n, x, y) = ((double)descents, long_.Average(), right.Average());
        double xx = 0, yy = 0, xy = 0;
        var distances = new double[descents];
        var hits = 0;
        for (var i = 0; i < descents; i++)
        {
            (xx, yy, xy) = (xx + (long_[i] - x) * (long_[i] - x), yy + (right[i] - y) * (right[i] - y), xy + (long_[i] - x) * (right[i] - y));
            distances[i] = double.Hypot(long_[i], right[i]);
            hits += distances[i] <= setting.TargetRadius ? 1 : 0;
        }
        Array.Sort(distances);
        var (p, se) = (hits / n, 1.96 * Math.Sqrt(Math.Max(hits / n * (1 - hits / n), 1 / n) / n));
        return new ForecastSimulation
        {
            Descents = descents, Mean = new DownwindVector(x, y), Covariance = new PlaneCovariance(xx / (n - 1), yy / (n - 1), xy / (n - 1)), Half = Quantile(distances, 0.5), NineInTen = Quantile(distances, 0.9),
            HitChance = Estimate.Of(p, new Interval(Math.Max(0, p - se), Math.Min(1, p + se))), Sources = SourceVariances.Of(setting, sources), Distances = distances,
        };
    }

    /// <summary>A quantile with the interval between the order statistics that bound its error.</summary>
    private static Estimate Quantile(double[] sorted, double share)
    {
        var half = 1.96 * Math.Sqrt(sorted.Length * share * (1 - share));
        double At(double position) => sorted[(int)Math.Clamp(position, 0, sorted.Length - 1)];
        return Estimate.Of(At(share * sorted.Length), new Interval(At(share * sorted.Length - half), At(share * sorted.Length + half)));
    }

    private static void Fly(ForecastSetting setting, ForecastErrorSources sources, Random random, Span<double> downwind, Span<double> right)
    {
        var layers = setting.Layers;
        var (drift, windSd) = (setting.Drift, sources.WindSd(setting.Age));
        var (length, direction) = (drift.Length, drift.Direction?.Radians ?? 0);
        var (shared, own) = (windSd * Math.Sqrt(sources.SharedByHeight), windSd * Math.Sqrt(1 - sources.SharedByHeight));
        var (sin, cos) = Math.SinCos((setting.Run?.Radians ?? 0) - direction);
        // without a run, or a drift to tell it from, the exit's errors count in every direction alike
        var unknownRun = setting.Run is null || drift.Direction is null;
        var everyWay = Math.Sqrt((Math.Pow(sources.ExitTiming * setting.GroundSpeed, 2) + sources.ExitAcross * sources.ExitAcross) / 2);
        var keep = layers.Skip(1).Select((l, i) => SourceVariances.Correlation(l, layers[i], sources)).Prepend(0).ToArray();
        double[] seconds = [.. layers.Select(l => l.Seconds)];
        var total = seconds.Sum();
        for (var i = 0; i < downwind.Length; i++)
        {
            var (x, y) = StandardNormal.Pair(random);
            var (blownX, blownY) = (shared * total * x, shared * total * y);
            if (own > 0)
            {
                var (a, b) = (0.0, 0.0);
                for (var k = 0; k < seconds.Length; k++)
                {
                    var (u, v) = StandardNormal.Pair(random);
                    var fresh = Math.Sqrt(1 - keep[k] * keep[k]);
                    (a, b) = (keep[k] * a + fresh * u, keep[k] * b + fresh * v);
                    (blownX, blownY) = (blownX + own * seconds[k] * a, blownY + own * seconds[k] * b);
                }
            }
            var (readX, readY) = StandardNormal.Pair(random);
            var (floorX, floorY) = StandardNormal.Pair(random);
            var (timing, line) = StandardNormal.Pair(random);
            var (rate, _) = StandardNormal.Pair(random);
            var (ownX, ownY) = StandardNormal.Pair(random);
            // the canopy drifts with forecast and change for as long as its rate lets it; the exit was planned by the reading
            var time = Math.Exp(-sources.DescentRate * rate);
            var (alongRun, acrossRun) = (sources.ExitTiming * setting.GroundSpeed * timing, sources.ExitAcross * line);
            if (unknownRun) (alongRun, acrossRun) = (everyWay * timing, everyWay * line);
            var missX = time * (length + blownX) - length + sources.ReadingShare * length * readX + sources.ReadingFloor * floorX + alongRun * cos - acrossRun * sin;
            var missY = time * blownY + sources.ReadingAngle * length * readY + sources.ReadingFloor * floorY + alongRun * sin + acrossRun * cos;
            (downwind[i], right[i]) = (sources.SteeringLeaves * missX + sources.JumperOwn * ownX, sources.SteeringLeaves * missY + sources.JumperOwn * ownY);
        }
    }
}
