namespace JumpAnalytics;

/// <summary>
/// The chances of every stick and run as smooth functions of the model's parameters, and their values in resampled missions.
/// </summary>
/// <remarks>
/// An exact chance is an integral that takes too long to repeat thousands of times. Its log odds are taken as linear in the parameters,
/// about the fit; a test compares that with the exact chances of resampled models.
/// </remarks>
internal sealed class StickChances
{
    private const double Step = 1e-3, Digits = 20, FewDigits = 14;

    private readonly double[][] _drawn; // changes of the parameters; the last is the share left of the exits' offset
    private readonly (double Odds, double[] Slope)[,,] _figures; // run, jumpers − 1, outside allowed

    private StickChances(double[][] drawn, (double, double[])[,,] figures, double[][][] counts) =>
        (_drawn, _figures, Counts) = (drawn, figures, counts);

    /// <summary>Distribution of the number inside: by run, then by jumpers − 1.</summary>
    public double[][][] Counts { get; }

    public int Resamples => _drawn.Length;

    public static PlaneVector Along(RunDirection run) => run switch
    {
        RunDirection.Along => new(1, 0),
        RunDirection.Oblique => new(Math.Sqrt(0.5), Math.Sqrt(0.5)),
        _ => new(0, 1),
    };

    public static StickChances Of(StickFitting fit, double radius, double gap, double left, int largest,
        IReadOnlyList<(double[] At, double Left)> resampled)
    {
        var runs = Enum.GetValues<RunDirection>();
        double[] at = [.. fit.At, left];
        var counts = runs.Select(r => Exact(at, r, Digits)).ToArray();
        var figures = new (double, double[])[runs.Length, largest, 2];
        foreach (var (r, run) in runs.Index())
        {
            var ups = at.Select((_, i) => Exact(Moved(i, Step), run, FewDigits)).ToArray();
            var here = Exact(at, run, FewDigits);
            for (var n = 1; n <= largest; n++)
            {
                for (var outside = 0; outside < 2; outside++)
                    figures[r, n - 1, outside] =
                        (Odds(counts[r], n, outside), [.. at.Select((_, i) => (Odds(ups[i], n, outside) - Odds(here, n, outside)) / Step)]);
            }
        }
        return new StickChances([.. resampled.Select(d => (double[])[.. d.At.Zip(fit.At, (x, y) => x - y), d.Left - left])],
            figures, counts);

        double[] Moved(int axis, double by)
        {
            var x = (double[])at.Clone();
            x[axis] += by;
            return x;
        }

        double[][] Exact(double[] x, RunDirection run, double digits)
        {
            var (along, smear) = (Along(run), gap * x[^1]);
            return StickFitting.ModelAt(x.AsSpan(0, x.Length - 1))
                .Counts(largest, radius, new(smear * along.Along, smear * along.Across), digits);
        }

        static double Odds(double[][] counts, int n, int outside)
        {
            var p = Math.Clamp(outside == 0 ? counts[n - 1][n] : counts[n - 1][n] + counts[n - 1][n - 1], 1e-12, 1 - 1e-12);
            return Kernels.Logit(p);
        }
    }

    /// <summary>The chance that at most so many of a stick are outside, in one resample; the fit's own for −1.</summary>
    public double At(int resample, RunDirection run, int jumpers, int outside)
    {
        var (odds, slope) = _figures[(int)run, jumpers - 1, outside];
        if (resample >= 0)
        {
            for (var i = 0; i < slope.Length; i++) odds += slope[i] * _drawn[resample][i];
        }
        return Kernels.Logistic(odds);
    }
}
