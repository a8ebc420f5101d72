namespace JumpAnalytics.Statistics;

/// <summary>The scale on which an interval about an estimate is symmetric.</summary>
public enum IntervalScale
{
    /// <summary>The figure itself: a bias, a difference.</summary>
    Linear,

    /// <summary>Its logarithm: a radius, a variance.</summary>
    Log,

    /// <summary>Its log odds: a probability.</summary>
    Logit,
}

/// <summary>A model fitted to points or distances, with what its likelihood tells of its certainty.</summary>
/// <typeparam name="TModel">The kind of model.</typeparam>
public interface IModelFit<out TModel> where TModel : IErrorModel
{
    /// <summary>The fitted model.</summary>
    TModel Model { get; }

    /// <summary>Its parameters with standard errors.</summary>
    IReadOnlyList<ModelParameter> Parameters { get; }

    /// <summary>Why the parameters have no standard errors; null when they have.</summary>
    string? WhyNoErrors { get; }

    /// <summary>Points the model was fitted to.</summary>
    int Points { get; }

    /// <summary>Clusters they belong to.</summary>
    int Clusters { get; }

    /// <summary>
    /// Natural logarithm of the likelihood, points taken as independent given the model: of densities per square metre (plane) or per metre
    /// (distances), times the probability beyond for points known only as beyond a distance; null for a model without density.
    /// </summary>
    double? LogLikelihood { get; }

    /// <summary>Number of parameters that were fitted.</summary>
    int FreeParameters { get; }

    /// <summary>
    /// Akaike's information criterion with the small-sample correction of Hurvich and Tsai (1989, Biometrika 76:297-307), less is better;
    /// null without a likelihood or with no more than one point above the number of parameters.
    /// </summary>
    double? Aicc { get; }

    /// <summary>
    /// Schwarz's criterion (1978, Annals of Statistics 6:461-464) on the number of points, less is better; null without a likelihood.
    /// </summary>
    double? Bic { get; }

    /// <summary>What to know before the fit is used: a parameter on its boundary, points left out.</summary>
    IReadOnlyList<string> Warnings { get; }

    /// <summary>A figure of the model with its interval by the delta method.</summary>
    /// <param name="figure">A smooth function of the model, for instance its R90.</param>
    /// <param name="confidence">Coverage, between 0 and 1.</param>
    /// <param name="scale">The scale on which the interval is symmetric.</param>
    /// <remarks>
    /// Where points share clusters the variance is that of sums over clusters (sandwich estimator: Liang and Zeger 1986, Biometrika
    /// 73:13-22, times M/(M − 1)) with t on M − 1 degrees of freedom; otherwise that of the curvature of the likelihood, with the normal.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    Estimate Derived(Func<TModel, double> figure, double confidence, IntervalScale scale = IntervalScale.Linear);

    /// <summary>A figure of the model with its profile-likelihood interval, which needs no scale and holds near boundaries.</summary>
    /// <param name="figure">A smooth function of the model.</param>
    /// <param name="confidence">Coverage, between 0 and 1.</param>
    /// <remarks>
    /// The values whose best likelihood lies less below the top than half the quantile of chi-square (Venzon and Moolgavkar 1988, Applied
    /// Statistics 37:87-94, for the idea). Where points share clusters the fall is widened by the ratio of the two variances of
    /// <see cref="Derived"/> (Rotnitzky and Jewell 1990, Biometrika 77:485-497), with the square of t on M − 1 degrees of freedom.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    Estimate Profile(Func<TModel, double> figure, double confidence);

    /// <summary>Log-likelihood of each cluster's points; null without a likelihood.</summary>
    internal double[]? ByCluster { get; }

    /// <summary>What points and clusters are called in texts.</summary>
    internal SampleNouns Nouns { get; }
}
