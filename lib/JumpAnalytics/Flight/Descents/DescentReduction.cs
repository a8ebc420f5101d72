namespace JumpAnalytics;

/// <summary>From the points of a track to wind, steering and drift.</summary>
internal static class DescentReduction
{
    private const int N = CanopyState.Size;

    public static Fit<FlownDescent> Of(DescentTrack track, FlownDescentOptions options)
    {
        var points = track.UnderCanopy;
        if (points.Count < 12) return Refused($"{Rounding.Count(points.Count, "point")} under canopy are too few; 12 or more are needed");
        double[] gaps = [.. points.Zip(points.Skip(1), (a, b) => b.Seconds - a.Seconds).Order()];
        if (gaps[gaps.Length / 2] > options.SparsestSampling)
            return Refused($"a point every {Rounding.Fixed(gaps[gaps.Length / 2], 1)} s is too sparse to follow turns; "
                + $"every {Rounding.Short(options.SparsestSampling)} s or closer is needed");
        var blocks = DescentBlocks.Of(points);
        if (DescentFit.Of(blocks, track.PlaceSd, options) is not { } fit)
            return Refused("the track could not be followed: heading and wind do not settle");
        var turned = double.RadiansToDegrees(
            Enumerable.Range(1, blocks.Seconds.Length - 1).Sum(i => Turned(fit, i) * (blocks.Seconds[i] - blocks.Seconds[i - 1])));
        if (turned < options.LeastTurning && options.ForwardSpeed is null)
            return Refused($"the canopy turned {Rounding.Fixed(turned, 0)} degrees in all: too little to tell wind from forward speed");
        if (fit.Evidence < options.LeastEvidence)
            return Refused("no turn stands out from the noise of the places: too little to tell wind from forward speed");
        return DescentResult.Of(track, blocks, fit, turned, options);

        // only turning that the noise can't have made
        static double Turned(DescentFit fit, int i) => Math.Abs(fit.States[i * N + CanopyState.Turn]) is var rate
            && rate > 2 * Math.Sqrt(fit.Covariances[i * N * N + (N + 1) * CanopyState.Turn]) ? rate : 0;

        static Fit<FlownDescent> Refused(string why) => Fit<FlownDescent>.Refused(why);
    }
}
