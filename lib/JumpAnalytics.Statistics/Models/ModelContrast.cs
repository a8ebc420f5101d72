using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Statistics;

/// <summary>How two models were compared.</summary>
public enum ContrastMethod
{
    /// <summary>Likelihood ratio of a model and a special case of it, points being independent.</summary>
    LikelihoodRatio,

    /// <summary>Vuong's statistic, clusters being independent.</summary>
    Vuong,

    /// <summary>Vuong's statistic of a model and a special case of it, for which its p-value is but a guide.</summary>
    VuongAsGuide,
}

/// <summary>The best model against another over the same points.</summary>
/// <param name="Method">How they were compared.</param>
/// <param name="LogRatio">Log-likelihood of the best less that of the other.</param>
/// <param name="PValue">
/// Two-sided for Vuong's statistic; probability of as much gain by the larger of two nested models if the smaller holds.
/// </param>
[TypeFormatterSource]
public sealed record ModelContrast(ContrastMethod Method, double LogRatio, double PValue)
{
    internal static ModelContrast Of(IModelFit<IErrorModel> best, IModelFit<IErrorModel> other)
    {
        var ratio = best.LogLikelihood!.Value - other.LogLikelihood!.Value;
        var wider = best.FreeParameters > other.FreeParameters;
        var (inner, outer) = wider ? (other, best) : (best, other);
        var nested = Nesting.Of(inner, outer);
        return nested is Nested.Inside or Nested.OnEdge && best.Clusters == best.Points
            ? new ModelContrast(ContrastMethod.LikelihoodRatio, ratio,
                ByGain(wider ? ratio : -ratio, outer.FreeParameters - inner.FreeParameters, nested == Nested.OnEdge))
            : new ModelContrast(nested == Nested.No ? ContrastMethod.Vuong : ContrastMethod.VuongAsGuide, ratio, ByCluster(best, other));
    }

    /// <summary>
    /// Chi-square of twice the gain, or its even mixture with the chi-square of one degree of freedom less where a parameter is at its end
    /// (Self and Liang 1987, Journal of the American Statistical Association 82:605-610).
    /// </summary>
    private static double ByGain(double gain, int freedom, bool onEdge)
    {
        return onEdge ? (Above(freedom) + Above(freedom - 1)) / 2 : Above(freedom);

        double Above(int k) => gain <= 0 ? 1 : k == 0 ? 0 : SpecialFunctions.GammaUpperRegularized(k / 2.0, gain);
    }

    /// <summary>
    /// Vuong (1989, Econometrica 57:307-333), with clusters as the independent units: the difference of the criteria, halved, over the
    /// standard error of the sum of the clusters' differences; t on clusters − 1.
    /// </summary>
    private static double ByCluster(IModelFit<IErrorModel> best, IModelFit<IErrorModel> other)
    {
        var differences = best.ByCluster!.Zip(other.ByCluster!, (b, o) => b - o).ToArray();
        var (count, mean) = (differences.Length, differences.Average());
        var error = Math.Sqrt(count / (count - 1.0) * differences.Sum(d => (d - mean) * (d - mean)));
        var lead = (other.Aicc!.Value - best.Aicc!.Value) / 2;
        return count > 1 && error > 0 ? 2 * StudentT.CDF(0, 1, count - 1, -Math.Abs(lead / error)) : 1;
    }
}
