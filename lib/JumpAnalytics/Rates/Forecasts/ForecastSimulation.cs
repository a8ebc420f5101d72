namespace JumpAnalytics;

/// <summary>
/// Where canopies would come down that a forecast was made for, over all that can go wrong with it: the predicted distribution of misses.
/// </summary>
/// <remarks>
/// Each descent draws a change of the wind (one part for all heights, one that wanders from layer to layer), an error of reading, an exit,
/// a descent rate (log-normal) and the jumper's own part. In blocks with a stream of random numbers each, so that the result does not
/// depend on the number of threads.
/// </remarks>
[TypeFormatterSource]
public sealed record ForecastSimulation
{
    private const int Block = 8192;

    /// <summary>Normal numbers of a descent, and descents whose numbers are drawn at once.</summary>
    private const int Normals = 9, Chunk = 256;

    /// <summary>Descents simulated.</summary>
    public required int Descents { get; init; }

    /// <summary>Mean miss in the downwind frame, metres.</summary>
    public required PlaneVector Mean { get; init; }

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
    public static ForecastSimulation Of(ForecastSetting setting, ForecastErrorSources sources, int descents = 20_000, int seed = 1) =>
        Of(setting, sources, descents, seed, "forecast");

    /// <summary>Simulates with random numbers of a name of their own.</summary>
    internal static ForecastSimulation Of(ForecastSetting setting, ForecastErrorSources sources, int descents, int seed, string stream)
    {
        Guard.AtLeast(descents, 100);
        if (setting.Layers.Count == 0) throw new ArgumentException("A forecast is made of one layer or more.", nameof(setting));
        var (long_, right, distances, moments) =
            (new double[descents], new double[descents], new double[descents], new BlockMoments[(descents + Block - 1) / Block]);
        Parallel.For(0, moments.Length, block =>
        {
            var (from, length) = (block * Block, Math.Min(Block, descents - block * Block));
            Fly(setting, sources, SeedStream.For(seed, $"{stream}, block {block}"), long_.AsSpan(from, length), right.AsSpan(from, length));
            moments[block] = BlockMoments.Of(long_.AsSpan(from, length), right.AsSpan(from, length),
                distances.AsSpan(from, length), setting.TargetRadius);
        });
        var (n, all) = ((double)descents, moments.Aggregate((a, b) => a.With(b)));
        HalvesSort.Sort(distances);
        var (p, se) = (all.Hits / n, 1.96 * Math.Sqrt(Math.Max(all.Hits / n * (1 - all.Hits / n), 1 / n) / n));
        return new ForecastSimulation
        {
            Descents = descents, Mean = new PlaneVector(all.X, all.Y),
            Covariance = new PlaneCovariance(all.XX / (n - 1), all.YY / (n - 1), all.XY / (n - 1)), Half = Quantile(distances, 0.5),
            NineInTen = Quantile(distances, 0.9),
            HitChance = Estimate.Of(p, new Interval(Math.Max(0, p - se), Math.Min(1, p + se))),
            Sources = SourceVariances.Of(setting, sources), Distances = distances,
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
        // the change of the wind over all layers is one normal pair, and so are the two parts of the reading: a sum of normals is
        // normal, whatever their number
        var (drift, windSd) = (setting.Drift, Math.Sqrt(SourceVariances.Blown(setting, sources)));
        var (length, direction) = (drift.Length, drift.Direction?.Radians ?? 0);
        var (sin, cos) = Math.SinCos((setting.Run?.Radians ?? 0) - direction);
        // without a run, or a drift to tell it from, the exit's errors count in every direction alike
        var unknownRun = setting.Run is null || drift.Direction is null;
        var everyWay = Math.Sqrt((Math.Pow(sources.ExitTiming * setting.GroundSpeed, 2) + sources.ExitAcross * sources.ExitAcross) / 2);
        var (readingX, readingY) = (double.Hypot(sources.ReadingShare * length, sources.ReadingFloor),
            double.Hypot(sources.ReadingAngle * length, sources.ReadingFloor));
        Span<double> normals = stackalloc double[Normals * Chunk];
        for (var i = 0; i < downwind.Length; i++)
        {
            if (i % Chunk == 0) StandardNormal.Fill(random, normals);
            var own = normals.Slice(Normals * (i % Chunk), Normals);
            var (blownX, blownY, readX, readY, timing, line, rate, ownX, ownY) =
                (windSd * own[0], windSd * own[1], own[2], own[3], own[4], own[5], own[6], own[7], own[8]);
            // the canopy drifts with forecast and change for as long as its rate lets it; the exit was planned by the reading
            var time = Math.Exp(-sources.DescentRate * rate);
            var (alongRun, acrossRun) = (sources.ExitTiming * setting.GroundSpeed * timing, sources.ExitAcross * line);
            if (unknownRun) (alongRun, acrossRun) = (everyWay * timing, everyWay * line);
            var missX = time * (length + blownX) - length + readingX * readX + alongRun * cos - acrossRun * sin;
            var missY = time * blownY + readingY * readY + alongRun * sin + acrossRun * cos;
            (downwind[i], right[i]) =
                (sources.SteeringLeaves * missX + sources.JumperOwn * ownX, sources.SteeringLeaves * missY + sources.JumperOwn * ownY);
        }
    }
}
