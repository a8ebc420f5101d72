using System.Globalization;

namespace JumpAnalytics.Statistics;

public sealed partial record ScaleMixture
{
    /// <summary>Fewest placed points from which the two spreads are fitted.</summary>
    public const int FewestPoints = 12;

    /// <summary>
    /// Points that each part must have for it to be a spread and not a few points that happen to lie close together or far away.
    /// </summary>
    private const double FewestNarrow = 4;

    /// <summary>With fewer points than this the wide part is named a guess.</summary>
    private const double FewWide = 2;

    /// <summary>A likelihood that is no more than this above that of one normal has the same spread twice.</summary>
    private const double NoGain = 1e-6;

    private const string OneSpread = "no second, wider spread can be told from the first: the likelihood is highest where there is but one";

    private static ParameterOf<ScaleMixture>[] ParametersOf(SampleNouns nouns) =>
    [
        new($"bias {nouns.Along}", ParameterKind.Length, m => m.Core.MeanAlong),
        new($"bias {nouns.Across}", ParameterKind.Length, m => m.Core.MeanAcross),
        new($"narrow standard deviation {nouns.Along}", ParameterKind.Length, m => Math.Sqrt(m.Core.VarianceAlong)),
        new($"narrow standard deviation {nouns.Across}", ParameterKind.Length, m => Math.Sqrt(m.Core.VarianceAcross)),
        new("correlation", ParameterKind.Number, m => m.Core.Covariance / Math.Sqrt(m.Core.VarianceAlong * m.Core.VarianceAcross)),
        new("share of the wide part", ParameterKind.Number, m => m.WideShare),
        new("times as wide", ParameterKind.Number, m => m.Widening),
    ];

    /// <summary>
    /// Fits by full likelihood, points known only as beyond a distance included: each counts with the probability of lying beyond it.
    /// </summary>
    /// <param name="readings">One for each point. One with neither a place nor a distance is left out; a warning of the fit counts
    /// it.</param>
    /// <inheritdoc cref="PlaneSample.Of(IEnumerable{IPlaneReading}, SampleNouns)" path="/exception"/>
    /// <returns>
    /// The fit, or the reason why there is none: fewer than twelve placed points, most of them at one point or on one line, no second
    /// spread that can be told from the first, or a narrow part of fewer than four points.
    /// </returns>
    /// <remarks>
    /// Newton's method with slopes in closed form from six starts, about the centre and scatter of a t with three degrees of freedom. The
    /// likelihood of a mixture is without bound where the narrow part shrinks onto a single point (Day 1969, Biometrika 56:463-474); the
    /// maximum meant is the highest of those inside.
    /// </remarks>
    public static Fit<ModelFit<ScaleMixture>> FitTo(IEnumerable<IPlaneReading> readings) => FitTo(PlaneSample.Of(readings));

    /// <summary>Fits a sample of points in the same way.</summary>
    /// <param name="sample">Places and clusters.</param>
    /// <inheritdoc cref="FitTo(IEnumerable{IPlaneReading})" path="/returns"/>
    public static Fit<ModelFit<ScaleMixture>> FitTo(PlaneSample sample) =>
        new EllipticalFit<WideTail, ScaleMixture>
        {
            What = "a mixture of two spreads",
            Fewest = FewestPoints,
            Starts = [Start(0.1, 3), Start(0.3, 2), Start(0.3, 4), Start(0.6, 2), Start(0.6, 4), Start(0.03, 6)],
            Tail = x => new WideTail(Kernels.Logistic(x[0]), 1 + Math.Exp(x[1]))
                is { Share: > 0 and < 1, Widening: > 1 and < double.PositiveInfinity } tail ? tail : null,
            Build = (core, tail) => new ScaleMixture(core, tail.Share, tail.Widening),
            Parameters = ParametersOf(sample.Nouns),
            Unsettled = OneSpread,
            Refusal = (m, likelihood, over) =>
                (1 - m.WideShare) * over.Points < FewestNarrow ? $"fewer than {FewestNarrow} {sample.Nouns.Points} would be of the "
                    + "narrow kind"
                : likelihood <= BivariateNormal.FitTo(over).Value?.LogLikelihood + NoGain ? OneSpread : null,
            Warnings = m => m.WideShare * sample.Points < FewWide
                ? [string.Create(CultureInfo.InvariantCulture, $"the wide kind is a guess: {m.WideShare * sample.Points:0.0} of "
                    + $"{sample.Nouns.CountedPoints(sample.Points)} would be of it")] : [],
        }.To(sample);

    private static double[] Start(double share, double widening) => [Kernels.Logit(share), Math.Log(widening - 1)];
}
