namespace JumpAnalytics.Statistics;

/// <summary>What a normal is held to; the fewer parameters, the fewer points they need.</summary>
[Flags]
public enum NormalForm
{
    /// <summary>Bias, two variances and covariance: five parameters.</summary>
    Full = 0,

    /// <summary>One variance in every direction: circles, not ellipses.</summary>
    EqualVariance = 1,

    /// <summary>No bias: the points centre on the origin.</summary>
    NoBias = 2,
}

public sealed partial record BivariateNormal
{
    private static ParameterOf<BivariateNormal>[] Biases(SampleNouns nouns) =>
    [
        new($"bias {nouns.Along}", ParameterKind.Length, m => m.MeanAlong),
        new($"bias {nouns.Across}", ParameterKind.Length, m => m.MeanAcross),
    ];

    private static ParameterOf<BivariateNormal>[] Ellipses(SampleNouns nouns) =>
    [
        new($"standard deviation {nouns.Along}", ParameterKind.Length, m => Math.Sqrt(m.VarianceAlong)),
        new($"standard deviation {nouns.Across}", ParameterKind.Length, m => Math.Sqrt(m.VarianceAcross)),
        new("correlation", ParameterKind.Number, m => m.Covariance / Math.Sqrt(m.VarianceAlong * m.VarianceAcross)),
    ];

    private static readonly ParameterOf<BivariateNormal>[] _circle =
        [new("standard deviation", ParameterKind.Length, m => Math.Sqrt(m.VarianceAlong))];

    /// <summary>
    /// Fits by full likelihood (variances with divisor n), points known only as beyond a distance included: each counts with the
    /// probability of lying beyond it.
    /// </summary>
    /// <param name="readings">One for each point. One with neither a place nor a distance is left out; a warning of the fit counts
    /// it.</param>
    /// <param name="form">What the normal is held to.</param>
    /// <inheritdoc cref="PlaneSample.Of(IEnumerable{IPlaneReading}, SampleNouns)" path="/exception"/>
    /// <returns>
    /// The fit, or the reason why there is none: fewer than three placed points (two for one variance), all on one line, or a
    /// likelihood that rises without end because too few of the points are placed.
    /// </returns>
    public static Fit<ModelFit<BivariateNormal>> FitTo(IEnumerable<IPlaneReading> readings, NormalForm form = NormalForm.Full) =>
        FitTo(PlaneSample.Of(readings), form);

    /// <summary>Fits a sample of points in the same way.</summary>
    /// <param name="sample">Places and clusters.</param>
    /// <param name="form">What the normal is held to.</param>
    /// <inheritdoc cref="FitTo(IEnumerable{IPlaneReading}, NormalForm)" path="/returns"/>
    public static Fit<ModelFit<BivariateNormal>> FitTo(PlaneSample sample, NormalForm form = NormalForm.Full)
    {
        var (circular, centred) = (form.HasFlag(NormalForm.EqualVariance), form.HasFlag(NormalForm.NoBias));
        var fewest = circular ? 2 : FewestPoints;
        if (sample.Placed.Count < fewest)
            return Fit<ModelFit<BivariateNormal>>.Refused($"{Placed(sample.Placed.Count, sample.Nouns)}; this normal needs {fewest}");
        var (mean, v1, v2, c) = Moments(sample, circular, centred);
        if (WhyFlat(v1, v2, c, sample.Nouns) is { } flat) return Fit<ModelFit<BivariateNormal>>.Refused(flat);

        var unit = Math.Sqrt(v1 + v2);
        double[] start =
        [
            .. centred ? [] : new[] { mean.Along / unit, mean.Across / unit },
            .. circular ? [0.5 * Math.Log(v1)] : new[] { 0.5 * Math.Log(v1), 0.5 * Math.Log(v2), Math.Atanh(c / Math.Sqrt(v1 * v2)) },
        ];
        var likelihood = PlaneLikelihood.Of(sample, x => At(x, unit, circular, centred));
        ParameterOf<BivariateNormal>[] parameters = 
        [
            .. centred ? [] : Biases(sample.Nouns),
            .. circular ? _circle : Ellipses(sample.Nouns),
        ];
        return sample.Beyond.Count > 0
            ? likelihood.Climb(start, parameters, [])
            : Fit<ModelFit<BivariateNormal>>.Made(new ModelFit<BivariateNormal>(likelihood, start, parameters, []));
    }

    /// <summary>How many points are placed, in words.</summary>
    internal static string Placed(int count, SampleNouns nouns) => $"{nouns.CountedPoints(count)} with a known place";

    /// <summary>Mean and covariance of the placed points, divisor n: the maximum of their likelihood.</summary>
    private static (PlaneVector Mean, double VarianceAlong, double VarianceAcross, double Covariance) Moments(
        PlaneSample sample, bool circular, bool centred)
    {
        var (n, mean1, mean2) = ((double)sample.Placed.Count, 0.0, 0.0);
        if (!centred)
        {
            foreach (var m in sample.Places) (mean1, mean2) = (mean1 + m.Along, mean2 + m.Across);
            (mean1, mean2) = (mean1 / n, mean2 / n);
        }
        var (s11, s22, s12) = (0.0, 0.0, 0.0);
        foreach (var m in sample.Places)
        {
            var (d, r) = (m.Along - mean1, m.Across - mean2);
            (s11, s22, s12) = (s11 + d * d, s22 + r * r, s12 + d * r);
        }
        return circular
            ? (new(mean1, mean2), (s11 + s22) / (2 * n), (s11 + s22) / (2 * n), 0)
            : (new(mean1, mean2), s11 / n, s22 / n, s12 / n);
    }

    private static BivariateNormal? At(double[] x, double unit, bool circular, bool centred)
    {
        var spread = centred ? 0 : 2;
        var (sd1, sd2) = (Math.Exp(x[spread]), Math.Exp(x[circular ? spread : spread + 1]));
        var correlation = circular ? 0 : Math.Tanh(x[spread + 2]);
        var (along, across, v1, v2) = (centred ? 0 : x[0] * unit, centred ? 0 : x[1] * unit, sd1 * sd1, sd2 * sd2);
        return double.IsFinite(along + across) && double.IsFinite(v1 + v2) && v1 > 0 && v2 > 0
            && new BivariateNormal(along, across, v1, v2, correlation * sd1 * sd2) is { HasArea: true } model ? model : null;
    }
}
