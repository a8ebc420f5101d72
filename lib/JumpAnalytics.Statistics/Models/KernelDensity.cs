namespace JumpAnalytics;

/// <summary>
/// Misses smoothed by a normal kernel: no shape is assumed but that the density changes little over a bandwidth. Metres; axis 1 downwind
/// (+ long), axis 2 to the right.
/// </summary>
/// <remarks>
/// <para>
/// Bandwidth: the normal-scale rule for two dimensions (Wand and Jones 1995, Kernel Smoothing, section 4.3), a kernel with the covariance
/// of the misses times M^(−1/3). M is the number of missions, not of landings: landings of one mission lie where their forecast put them, and
/// counting each would draw every mission as a hill of its own. Where each landing is a mission it is the rule of the book. A far tail
/// widens the covariance and with it the kernel.
/// </para>
/// <para>
/// Of more than 2,000 landings those in one cell of a grid, a quarter of the kernel's standard deviation wide, count as one normal with
/// their mean and covariance: probabilities change by less than 1e-6.
/// </para>
/// <para>Landings known only as beyond a distance are left out, so that the smoothed misses are shorter than the real ones.</para>
/// </remarks>
[TypeFormatterSource]
public sealed class KernelDensity : IMissModel
{
    /// <summary>Fewest missions with placed landings from which misses are smoothed.</summary>
    public const int FewestMissions = 5;

    private const int MostSingle = 2000;

    /// <summary>Cells for one standard deviation of the kernel.</summary>
    private const double Fineness = 4;

    private readonly BivariateNormal[] _cells;
    private readonly int[] _upTo; // landings in the cells up to each

    private KernelDensity(BivariateNormal kernel, ReadOnlySpan<DownwindVector> misses)
    {
        Kernel = kernel;
        (_cells, _upTo) = misses.Length > MostSingle ? Gathered(kernel, misses) : Single(kernel, misses);
    }

    /// <inheritdoc/>
    public string Name => "kernel density";

    /// <summary>The kernel about one miss; metres and square metres.</summary>
    public BivariateNormal Kernel { get; }

    /// <inheritdoc/>
    public double? LogDensity(DownwindVector miss)
    {
        var logs = new double[_cells.Length];
        for (var i = 0; i < logs.Length; i++) logs[i] = _cells[i].LogDensity(miss)!.Value + Math.Log(Count(i));
        return LogSum(logs) - Math.Log(_upTo[^1]);
    }

    /// <inheritdoc/>
    public double ProbabilityWithin(double radius, DownwindVector centre = default)
    {
        var sum = 0.0;
        for (var i = 0; i < _cells.Length; i++) sum += Count(i) * _cells[i].ProbabilityWithin(radius, centre);
        return sum / _upTo[^1];
    }

    /// <inheritdoc/>
    public double ProbabilityBeyond(double radius, DownwindVector centre = default)
    {
        var sum = 0.0;
        for (var i = 0; i < _cells.Length; i++) sum += Count(i) * _cells[i].ProbabilityBeyond(radius, centre);
        return sum / _upTo[^1];
    }

    /// <inheritdoc/>
    public double RadiusHolding(double probability, DownwindVector centre = default) =>
        RadiusSearch.Holding(this, probability, centre, _cells[0].Reach(centre));

    /// <inheritdoc/>
    public DownwindVector Draw(Random random)
    {
        var place = Array.BinarySearch(_upTo, random.Next(_upTo[^1]) + 1);
        return _cells[place < 0 ? ~place : place].Draw(random);
    }

    /// <summary>Smooths the placed misses of a sample.</summary>
    /// <param name="sample">Misses and missions.</param>
    /// <returns>
    /// The density, without a likelihood since it is the maximum of none, or the reason why there is none: fewer than five missions with
    /// placed landings, or all of them on one line.
    /// </returns>
    public static Fit<ModelFit<KernelDensity>> FitTo(MissSample sample)
    {
        var kernel = KernelFor(sample);
        return kernel.Success
            ? Fit<ModelFit<KernelDensity>>.Made(new ModelFit<KernelDensity>(
                new KernelDensity(kernel.Value, sample.Misses), sample.Landings, sample.Missions,
                [
                    new("bandwidth downwind", ParameterKind.Length, m => Math.Sqrt(m.Kernel.VarianceDownwind)),
                    new("bandwidth right", ParameterKind.Length, m => Math.Sqrt(m.Kernel.VarianceRight)),
                ],
                sample.Beyond.Count > 0 ? [$"{sample.Beyond.Count} landings known only as beyond a distance are left out: the smoothed misses are too short"] : [],
                "a kernel density follows from a rule and is the maximum of no likelihood"))
            : Fit<ModelFit<KernelDensity>>.Refused(kernel.Reason);
    }

    /// <summary>
    /// How well missions are foretold by the others: the sum over placed landings of the logarithm of the density, per square metre, that the
    /// landings of all other missions give, with the kernel of the whole sample. It may be set beside other models' log-likelihoods
    /// over the same landings less their numbers of parameters. Takes time with the square of the landings.
    /// </summary>
    /// <param name="sample">Misses and missions.</param>
    /// <returns>The sum; null where no kernel can be had.</returns>
    public static double? LeftOut(MissSample sample)
    {
        if (KernelFor(sample).Value is not { } kernel) return null;
        var misses = sample.Misses;
        var missions = sample.MissionOfPlaced;
        var (sum, logs) = (0.0, new List<double>(misses.Length));
        for (var i = 0; i < misses.Length; i++)
        {
            logs.Clear();
            for (var j = 0; j < misses.Length; j++)
            {
                if (missions[j] != missions[i])
                    logs.Add(-0.5 * kernel.SquaredDistance(new DownwindVector(misses[i].Downwind - misses[j].Downwind, misses[i].Right - misses[j].Right)));
            }
            sum += LogSum([.. logs]) - Math.Log(logs.Count) + kernel.LogDensity(default)!.Value;
        }
        return sum;
    }

    private static Fit<BivariateNormal> KernelFor(MissSample sample)
    {
        var missions = sample.MissionOfPlaced.ToArray().Distinct().Count();
        if (missions < FewestMissions)
            return Fit<BivariateNormal>.Refused($"{missions} mission{(missions == 1 ? "" : "s")} with placed landings; a kernel density needs {FewestMissions}");
        var moments = BivariateNormal.FitTo(sample.Placed);
        if (!moments.Success) return moments;
        var share = Math.Cbrt(1.0 / missions);
        var (v1, v2, c) = (moments.Value.VarianceDownwind, moments.Value.VarianceRight, moments.Value.Covariance);
        return Fit<BivariateNormal>.Made(new BivariateNormal(0, 0, share * v1, share * v2, share * c));
    }

    private static (BivariateNormal[] Cells, int[] UpTo) Single(BivariateNormal kernel, ReadOnlySpan<DownwindVector> misses)
    {
        var cells = new BivariateNormal[misses.Length];
        for (var i = 0; i < cells.Length; i++) cells[i] = kernel with { MeanDownwind = misses[i].Downwind, MeanRight = misses[i].Right };
        return (cells, [.. Enumerable.Range(1, cells.Length)]);
    }

    private static (BivariateNormal[] Cells, int[] UpTo) Gathered(BivariateNormal kernel, ReadOnlySpan<DownwindVector> misses)
    {
        var along = Math.Sqrt(kernel.VarianceDownwind);
        var (turn, across) = (kernel.Covariance / kernel.VarianceDownwind, Math.Sqrt(kernel.Determinant()) / along);
        var places = new Dictionary<(double, double), int>();
        var sums = new List<MomentSums>();
        foreach (var miss in misses)
        {
            var cell = (Math.Floor(Fineness * miss.Downwind / along), Math.Floor(Fineness * (miss.Right - turn * miss.Downwind) / across));
            if (!places.TryGetValue(cell, out var place))
            {
                places.Add(cell, place = sums.Count);
                sums.Add(new MomentSums());
            }
            var sum = sums[place];
            sum.Add(miss);
            sums[place] = sum;
        }
        var (cells, upTo, total) = (new BivariateNormal[sums.Count], new int[sums.Count], 0);
        for (var i = 0; i < cells.Length; i++)
        {
            var own = sums[i].Population();
            cells[i] = own with { VarianceDownwind = own.VarianceDownwind + kernel.VarianceDownwind, VarianceRight = own.VarianceRight + kernel.VarianceRight, Covariance = own.Covariance + kernel.Covariance };
            upTo[i] = total += (int)sums[i].Count;
        }
        return (cells, upTo);
    }

    private int Count(int cell) => _upTo[cell] - (cell == 0 ? 0 : _upTo[cell - 1]);

    private static double LogSum(double[] logs)
    {
        var (top, sum) = (logs.Max(), 0.0);
        foreach (var log in logs) sum += Math.Exp(log - top);
        return top + Math.Log(sum);
    }
}
