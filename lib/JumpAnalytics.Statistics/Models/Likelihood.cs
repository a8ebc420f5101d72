using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>A free parameter of a model as a reader wants it: a function of the model, with a name and a unit.</summary>
internal sealed record ParameterOf<TModel>(string Name, ParameterKind Kind, Func<TModel, double> Value);

/// <summary>
/// The likelihood of a family of models over coordinates of the order of one, in which its parameters are free: from coordinates to a
/// model, and from a model to the logarithm of the likelihood, point by point summed up by cluster.
/// </summary>
/// <param name="Points">Number of points.</param>
/// <param name="Clusters">Number of clusters.</param>
/// <param name="Build">The model at some coordinates; null outside the parameter space.</param>
/// <param name="Sum">The log-likelihood of a model. Given an array with a place for each cluster, the part of each is added there.</param>
/// <param name="Slopes">
/// Slope and curvature at some coordinates with the value there, where a closed form is faster; null for differences.
/// </param>
internal sealed record Likelihood<TModel>(
    int Points, int Clusters, Func<double[], TModel?> Build, Func<TModel, double[]?, double> Sum,
    Func<double[], double, (double[]? Gradient, Matrix<double>? Curvature)>? Slopes = null) where TModel : class, IErrorModel
{
    /// <summary>What points and clusters are called in texts.</summary>
    public SampleNouns Nouns { get; init; } = SampleNouns.Default;

    /// <summary>Warnings about the points themselves.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>Why there is no fit where a search did not end.</summary>
    public const string NoMaximum = "the likelihood has no maximum that the search could settle on; fewer parameters may help";

    /// <summary>The log-likelihood at some coordinates; negative infinity outside the parameter space.</summary>
    public double At(double[] coordinates) =>
        Build(coordinates) is { } model && Sum(model, null) is var sum && !double.IsNaN(sum) ? sum : double.NegativeInfinity;

    /// <summary>
    /// The fit that is reached from a start, or why it is not. Parameters on their boundary are fitted ones without a coordinate.
    /// </summary>
    public Fit<ModelFit<TModel>> Climb(double[] start, IReadOnlyList<ParameterOf<TModel>> parameters,
        IReadOnlyList<string> warnings, int onBoundary = 0)
    {
        var top = Statistics.Climb.To(At, start, Slopes);
        return top.Converged
            ? Fit<ModelFit<TModel>>.Made(new ModelFit<TModel>(this, top.At, parameters, warnings, onBoundary))
            : Fit<ModelFit<TModel>>.Refused(NoMaximum);
    }

    /// <summary>
    /// Covariance of the coordinates at the maximum: from the curvature, and from sums over clusters where points share them.
    /// </summary>
    public (Matrix<double>? Model, Matrix<double>? Robust, string? WhyNot) Covariance(double[] at)
    {
        var (_, curvature) = Slopes is null ? Statistics.Climb.Slopes(At, at, At(at)) : Slopes(at, At(at));
        if (curvature is null) return (null, null, "the likelihood ends too near the estimate");
        var information = -curvature;
        if (information.Evd(Symmetricity.Symmetric).EigenValues.Any(v => v.Real <= 0))
            return (null, null, "the likelihood is flat about the estimate");
        var model = information.Inverse();
        if (Clusters == Points) return (model, null, null);
        if (Clusters <= at.Length + 1) return (model, null, $"{Nouns.CountedClusters(Clusters)} are too few for {at.Length} parameters");
        var meat = Matrix<double>.Build.Dense(at.Length, at.Length);
        var slopes = Enumerable.Range(0, at.Length).Select(i => ClusterSlopes(at, i)).ToArray();
        if (slopes.Any(s => s is null)) return (model, null, "the likelihood ends too near the estimate");
        for (var i = 0; i < at.Length; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = 0.0;
                for (var m = 0; m < Clusters; m++) sum += slopes[i]![m] * slopes[j]![m];
                meat[i, j] = meat[j, i] = sum * Clusters / (Clusters - 1.0);
            }
        }
        return (model, model * meat * model, null);
    }

    /// <summary>The part of each cluster in the log-likelihood.</summary>
    public double[]? ByCluster(double[] at)
    {
        var sums = new double[Clusters];
        return Build(at) is { } model && double.IsFinite(Sum(model, sums)) ? sums : null;
    }

    private double[]? ClusterSlopes(double[] at, int axis)
    {
        const double Step = 1e-4;
        var (up, down) = ((double[])at.Clone(), (double[])at.Clone());
        up[axis] += Step;
        down[axis] -= Step;
        return ByCluster(up) is { } high && ByCluster(down) is { } low ? [.. high.Select((h, m) => (h - low[m]) / (2 * Step))] : null;
    }
}
