namespace JumpAnalytics;

/// <summary>What a normal is held to; the fewer parameters, the fewer landings they need.</summary>
[Flags]
public enum NormalForm
{
    /// <summary>Bias, two variances and covariance: five parameters.</summary>
    Full = 0,

    /// <summary>One variance in every direction: circles, not ellipses.</summary>
    EqualVariance = 1,

    /// <summary>No bias: the misses centre on the spot.</summary>
    NoBias = 2,
}

public sealed partial record BivariateNormal
{
    private static readonly ParameterOf<BivariateNormal>[] _bias =
    [
        new("bias downwind", ParameterKind.Length, m => m.MeanDownwind),
        new("bias right", ParameterKind.Length, m => m.MeanRight),
    ];

    private static readonly ParameterOf<BivariateNormal>[] _ellipse =
    [
        new("standard deviation downwind", ParameterKind.Length, m => Math.Sqrt(m.VarianceDownwind)),
        new("standard deviation right", ParameterKind.Length, m => Math.Sqrt(m.VarianceRight)),
        new("correlation", ParameterKind.Number, m => m.Covariance / Math.Sqrt(m.VarianceDownwind * m.VarianceRight)),
    ];

    private static readonly ParameterOf<BivariateNormal>[] _circle = [new("standard deviation", ParameterKind.Length, m => Math.Sqrt(m.VarianceDownwind))];

    /// <summary>
    /// Fits by full likelihood (variances with divisor n), landings known only as beyond a distance included: each counts with the
    /// probability of lying beyond it.
    /// </summary>
    /// <param name="sample">Misses and missions.</param>
    /// <param name="form">What the normal is held to.</param>
    /// <returns>
    /// The fit, or the reason why there is none: fewer than three placed landings (two for one variance), all on one line, or a
    /// likelihood that rises without end because too few of the landings are placed.
    /// </returns>
    public static Fit<ModelFit<BivariateNormal>> FitTo(MissSample sample, NormalForm form = NormalForm.Full)
    {
        var (circular, centred) = (form.HasFlag(NormalForm.EqualVariance), form.HasFlag(NormalForm.NoBias));
        var fewest = circular ? 2 : FewestMisses;
        if (sample.Placed.Count < fewest)
            return Fit<ModelFit<BivariateNormal>>.Refused($"{Placed(sample.Placed.Count)}; this normal needs {fewest}");
        var placed = Moments(sample, circular, centred);
        var (v1, v2, c) = (placed.VarianceDownwind, placed.VarianceRight, placed.Covariance);
        if (!(v1 + v2 > 0)) return Fit<ModelFit<BivariateNormal>>.Refused("all misses are the same; a normal in the plane can't be fitted");
        if (v1 * v2 - c * c <= 1e-12 * (v1 + v2) * (v1 + v2))
            return Fit<ModelFit<BivariateNormal>>.Refused("all misses lie on one line; a normal in the plane can't be fitted");

        var unit = Math.Sqrt(v1 + v2);
        double[] start =
        [
            .. centred ? [] : new[] { placed.MeanDownwind / unit, placed.MeanRight / unit },
            .. circular ? [0.5 * Math.Log(v1)] : new[] { 0.5 * Math.Log(v1), 0.5 * Math.Log(v2), Math.Atanh(c / Math.Sqrt(v1 * v2)) },
        ];
        var likelihood = MissLikelihood.Of(sample, x => At(x, unit, circular, centred));
        ParameterOf<BivariateNormal>[] parameters = [.. centred ? [] : _bias, .. circular ? _circle : _ellipse];
        return sample.Beyond.Count > 0
            ? likelihood.Climb(start, parameters, [])
            : Fit<ModelFit<BivariateNormal>>.Made(new ModelFit<BivariateNormal>(likelihood, start, parameters, []));
    }

    /// <summary>How many landings are placed, in words.</summary>
    internal static string Placed(int count) => $"{count} landing{(count == 1 ? "" : "s")} with a known place";

    /// <summary>Mean and covariance of the placed misses, divisor n: the maximum of their likelihood.</summary>
    private static BivariateNormal Moments(MissSample sample, bool circular, bool centred)
    {
        var (n, mean1, mean2) = ((double)sample.Placed.Count, 0.0, 0.0);
        if (!centred)
        {
            foreach (var m in sample.Misses) (mean1, mean2) = (mean1 + m.Downwind, mean2 + m.Right);
            (mean1, mean2) = (mean1 / n, mean2 / n);
        }
        var (s11, s22, s12) = (0.0, 0.0, 0.0);
        foreach (var m in sample.Misses)
        {
            var (d, r) = (m.Downwind - mean1, m.Right - mean2);
            (s11, s22, s12) = (s11 + d * d, s22 + r * r, s12 + d * r);
        }
        return circular
            ? new BivariateNormal(mean1, mean2, (s11 + s22) / (2 * n), (s11 + s22) / (2 * n), 0)
            : new BivariateNormal(mean1, mean2, s11 / n, s22 / n, s12 / n);
    }

    private static BivariateNormal? At(double[] x, double unit, bool circular, bool centred)
    {
        var spread = centred ? 0 : 2;
        var (sd1, sd2) = (Math.Exp(x[spread]), Math.Exp(x[circular ? spread : spread + 1]));
        var correlation = circular ? 0 : Math.Tanh(x[spread + 2]);
        var model = new BivariateNormal(centred ? 0 : x[0] * unit, centred ? 0 : x[1] * unit, sd1 * sd1, sd2 * sd2, correlation * sd1 * sd2);
        return double.IsFinite(model.VarianceDownwind + model.VarianceRight) && model.VarianceDownwind > 0 && model.VarianceRight > 0 && Math.Abs(correlation) < 1 ? model : null;
    }
}
