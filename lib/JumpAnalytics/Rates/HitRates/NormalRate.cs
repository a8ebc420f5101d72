namespace JumpAnalytics;

/// <summary>
/// The hit rate that a bivariate normal fitted to the misses of a group implies: the mean, over its landings, of the
/// probability inside each one's target radius. Landings known only as beyond their radius count as misses.
/// </summary>
internal sealed class NormalRate
{
    private readonly double[] _radii;
    private readonly MomentSums[] _moments;
    private readonly int[][] _perRadius;
    private readonly int[] _beyond;

    private NormalRate(double[] radii, MomentSums[] moments, int[][] perRadius, int[] beyond) =>
        (_radii, _moments, _perRadius, _beyond) = (radii, moments, perRadius, beyond);

    /// <summary>The fitted normal and its rate, each with the reason when it can't be made.</summary>
    public static (Fit<BivariateNormal> Model, Fit<Estimate> Rate) Of(MissionSample sample, AccuracyOptions options, string purpose)
    {
        var sums = Gather(sample);
        var all = new int[sample.Missions.Count];
        Array.Fill(all, 1);
        var model = sums.FitTo(all);
        if (!model.Success) return (model, Fit<Estimate>.Refused(model.Reason));
        var bootstrap = ClusterBootstrap.Of(sample.Missions.Count,
            draws => sums.FitTo(draws) is { Success: true } fit ? sums.Rate(fit.Value, draws) : null, options.Resampling(purpose));
        return (model, bootstrap.Success
            ? Fit<Estimate>.Made(bootstrap.Value.Interval(BootstrapMethod.WidenedPercentile, options.Confidence))
            : Fit<Estimate>.Refused(bootstrap.Reason));
    }

    private static NormalRate Gather(MissionSample sample)
    {
        var radii = sample.Landings.Select(l => l.Drop.TargetRadius).Distinct().Order().ToArray();
        var missions = sample.Missions.Count;
        var (moments, perRadius, beyond) = (new MomentSums[missions], new int[missions][], new int[missions]);
        for (var m = 0; m < missions; m++)
        {
            perRadius[m] = new int[radii.Length];
            foreach (var landing in sample.Missions[m])
            {
                if (landing.MissDownwind is { } miss) moments[m].Add(miss);
                if (landing.Miss is not null) perRadius[m][Array.BinarySearch(radii, landing.Drop.TargetRadius)]++;
                else if (landing.Outcome == LandingOutcome.Miss) beyond[m]++;
            }
        }
        return new NormalRate(radii, moments, perRadius, beyond);
    }

    private Fit<BivariateNormal> FitTo(int[] draws)
    {
        var sums = new MomentSums();
        for (var m = 0; m < draws.Length; m++)
        {
            for (var i = 0; i < draws[m]; i++) sums.Add(_moments[m]);
        }
        return sums.Fit(TradeNouns.Value);
    }

    private double Rate(BivariateNormal model, int[] draws)
    {
        var (expected, landings) = (0.0, 0L);
        for (var r = 0; r < _radii.Length; r++)
        {
            var count = 0L;
            for (var m = 0; m < draws.Length; m++) count += (long)draws[m] * _perRadius[m][r];
            if (count > 0) expected += count * model.ProbabilityWithin(_radii[r]);
            landings += count;
        }
        for (var m = 0; m < draws.Length; m++) landings += (long)draws[m] * _beyond[m];
        return expected / landings;
    }
}
