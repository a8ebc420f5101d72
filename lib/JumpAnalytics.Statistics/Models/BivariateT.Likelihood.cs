namespace JumpAnalytics.Statistics;

public sealed partial record BivariateT
{
    /// <summary>Fewest placed points from which centre, scatter and degrees of freedom are fitted.</summary>
    public const int FewestPoints = 7;

    /// <summary>Fewest degrees of freedom that are fitted: a heavier tail is a heap of points at one place, not a spread.</summary>
    public const double FewestDegreesOfFreedom = 0.5;

    private static string NoTail(SampleNouns nouns) => $"the {nouns.Places} have no heavier tail than a normal: "
        + "the degrees of freedom are infinite, which intervals take as known unless they are by profile";

    private static ParameterOf<BivariateT>[] CoreParameters(SampleNouns nouns) =>
    [
        new($"centre {nouns.Along}", ParameterKind.Length, m => m.Core.MeanAlong),
        new($"centre {nouns.Across}", ParameterKind.Length, m => m.Core.MeanAcross),
        new($"scatter {nouns.Along}", ParameterKind.Length, m => Math.Sqrt(m.Core.VarianceAlong)),
        new($"scatter {nouns.Across}", ParameterKind.Length, m => Math.Sqrt(m.Core.VarianceAcross)),
        new("correlation", ParameterKind.Number, m => m.Core.Covariance / Math.Sqrt(m.Core.VarianceAlong * m.Core.VarianceAcross)),
    ];

    /// <summary>
    /// Fits by full likelihood, points known only as beyond a distance included: each counts with the probability of lying beyond it.
    /// </summary>
    /// <returns>
    /// The fit, or the reason why there is none: fewer than seven placed points (five when the degrees of freedom are held), most of
    /// them at one place or on one line, or a tail heavier than that of half a degree of freedom. Places with no heavier tail than
    /// a normal give infinite degrees of freedom and a warning.
    /// </returns>
    /// <remarks>
    /// Newton's method with slopes in closed form, from the centre and scatter of a t with three degrees of freedom and from two starts of
    /// the degrees of freedom. The likelihood of every t with free degrees of freedom is without bound next to a single point as they go to
    /// 0 (Fernandez and Steel 1999, Biometrika 86:153-167); the maximum meant is the one inside.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">Fewer degrees of freedom are to be held than half of one.</exception>
    /// <inheritdoc cref="PlaneSample.Of(IEnumerable{IPlaneReading}, SampleNouns)" path="/exception"/>
    /// <param name="readings">One for each point. One with neither a place nor a distance is left out; a warning of the fit counts
    /// it.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom to hold, infinite for a normal; null to fit them.</param>
    public static Fit<ModelFit<BivariateT>> FitTo(IEnumerable<IPlaneReading> readings, double? degreesOfFreedom = null) =>
        FitTo(PlaneSample.Of(readings), degreesOfFreedom);

    /// <summary>Fits a sample of points in the same way.</summary>
    /// <param name="sample">Places and clusters.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom to hold, infinite for a normal; null to fit them.</param>
    /// <inheritdoc cref="FitTo(IEnumerable{IPlaneReading}, double?)" path="/returns|/exception"/>
    public static Fit<ModelFit<BivariateT>> FitTo(PlaneSample sample, double? degreesOfFreedom = null)
    {
        if (degreesOfFreedom is { } held)
        {
            Guard.AtLeast(held, FewestDegreesOfFreedom, nameof(degreesOfFreedom));
            return new EllipticalFit<StudentTail, BivariateT>
            {
                What = "a bivariate t of given degrees of freedom",
                Fewest = EllipticalSample.Axes,
                Starts = [[]],
                Tail = _ => new StudentTail(Math.Sqrt(1 / held)),
                Build = (core, _) => new BivariateT(core, held),
                Parameters = CoreParameters(sample.Nouns),
            }.To(sample);
        }
        return new EllipticalFit<StudentTail, BivariateT>
        {
            What = "a bivariate t",
            Fewest = FewestPoints,
            Starts = [[Math.Sqrt(1 / 3.0)], [Math.Sqrt(1 / 30.0)]],
            Tail = x => x[0] * x[0] <= 1 / FewestDegreesOfFreedom ? new StudentTail(x[0]) : null,
            Build = (core, tail) => new BivariateT(core, 1 / tail.Inverse),
            Parameters = [.. CoreParameters(sample.Nouns), new("degrees of freedom", ParameterKind.Number, m => m.DegreesOfFreedom)],
            Edge = [0],
            Warnings = m => m.IsNormal ? [NoTail(sample.Nouns)] : [],
        }.To(sample);
    }
}
