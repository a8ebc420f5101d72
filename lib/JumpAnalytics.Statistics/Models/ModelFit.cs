using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <inheritdoc cref="IModelFit{TModel}"/>
[TypeFormatterSource]
public sealed partial class ModelFit<TModel> : IModelFit<TModel> where TModel : class, IErrorModel
{
    private readonly Likelihood<TModel>? _likelihood;
    private readonly double[] _at;
    private readonly IReadOnlyList<ParameterOf<TModel>> _parameters;
    private readonly Lazy<(Matrix<double>? Model, Matrix<double>? Robust, string? WhyNot)> _covariance;
    private readonly Lazy<IReadOnlyList<ModelParameter>> _shown;
    private readonly string? _whyNoLikelihood;
    private readonly SampleNouns _nouns;

    /// <summary>A fit at the maximum of a likelihood. Parameters that ended on their boundary have no coordinate, but count.</summary>
    internal ModelFit(Likelihood<TModel> likelihood, double[] at, IReadOnlyList<ParameterOf<TModel>> parameters,
        IReadOnlyList<string> warnings, int onBoundary = 0)
        : this(likelihood.Build(at)!, likelihood.Points, likelihood.Clusters, parameters, [.. warnings, .. likelihood.Warnings],
            likelihood.Nouns)
    {
        (_likelihood, _at, FreeParameters) = (likelihood, at, at.Length + onBoundary);
        LogLikelihood = likelihood.At(at);
        _covariance = new(() => likelihood.Covariance(at));
    }

    /// <summary>A model that is no maximum of a likelihood, and why it has none.</summary>
    internal ModelFit(TModel model, PlaneSample sample, IReadOnlyList<ParameterOf<TModel>> parameters,
        IReadOnlyList<string> warnings, string whyNoLikelihood)
        : this(model, sample.Points, sample.Clusters, parameters, [.. warnings, .. sample.Warnings], sample.Nouns) =>
            _whyNoLikelihood = whyNoLikelihood;

    private ModelFit(
        TModel model, int points, int clusters, IReadOnlyList<ParameterOf<TModel>> parameters, IReadOnlyList<string> warnings,
        SampleNouns nouns)
    {
        _nouns = nouns;
        (Model, Points, Clusters, _parameters, Warnings, _at) = (model, points, clusters, parameters, warnings, []);
        _covariance = new(() => (null, null, _whyNoLikelihood));
        _shown = new(() => [.. _parameters.Select(p => new ModelParameter(p.Name, p.Kind, p.Value(Model), StandardError(p.Value)))]);
    }

    /// <inheritdoc/>
    public TModel Model { get; }

    /// <inheritdoc/>
    public IReadOnlyList<ModelParameter> Parameters => _shown.Value;

    /// <inheritdoc/>
    public string? WhyNoErrors => _covariance.Value.WhyNot;

    /// <inheritdoc/>
    public int Points { get; }

    /// <inheritdoc/>
    public int Clusters { get; }

    /// <inheritdoc/>
    public double? LogLikelihood { get; }

    /// <inheritdoc/>
    public int FreeParameters { get; }

    /// <inheritdoc/>
    public double? Aicc => LogLikelihood is { } l && Points > FreeParameters + 1
        ? -2 * l + 2 * FreeParameters + 2.0 * FreeParameters * (FreeParameters + 1) / (Points - FreeParameters - 1) : null;

    /// <inheritdoc/>
    public double? Bic => LogLikelihood is { } l ? -2 * l + FreeParameters * Math.Log(Points) : null;

    /// <inheritdoc/>
    public IReadOnlyList<string> Warnings { get; }

    double[]? IModelFit<TModel>.ByCluster => _likelihood?.ByCluster(_at);

    SampleNouns IModelFit<TModel>.Nouns => _nouns;

    private bool SharesClusters => Clusters < Points;

    /// <inheritdoc/>
    public Estimate Derived(Func<TModel, double> figure, double confidence, IntervalScale scale = IntervalScale.Linear)
    {
        var value = figure(Model);
        var quantile = Quantile(confidence);
        if (StandardError(figure) is not { } error)
            return Estimate.WithoutRange(value, WhyNoErrors ?? "the figure does not change smoothly with the model");
        return scale switch
        {
            IntervalScale.Log when value > 0 => Estimate.Of(value, Scaled(Math.Log(value), error / value, Math.Exp)),
            IntervalScale.Logit when value is > 0 and < 1 =>
                Estimate.Of(value, Scaled(Kernels.Logit(value), error / (value * (1 - value)), x => Kernels.Logistic(x))),
            IntervalScale.Linear => Estimate.Of(value, Scaled(value, error, x => x)),
            _ => Estimate.WithoutRange(value, $"a value of {value:G3} has no {scale.ToString().ToLowerInvariant()} scale"),
        };

        Interval Scaled(double centre, double spread, Func<double, double> back) =>
            new(back(centre - quantile * spread), back(centre + quantile * spread));
    }

    private double Quantile(double confidence)
    {
        Guard.Confidence(confidence);
        if (!SharesClusters) return QuantileOf.Normal(TailShare.Middle(confidence));
        return Clusters < 2 ? double.NaN : QuantileOf.T(Clusters - 1, TailShare.Middle(confidence));
    }

    /// <summary>
    /// Standard error of a figure by the delta method; null when there is none, or when the figure is the same for all models near by:
    /// one fixed, or on its boundary.
    /// </summary>
    private double? StandardError(Func<TModel, double> figure)
    {
        var (model, robust, _) = _covariance.Value;
        var covariance = SharesClusters ? robust : model;
        return covariance is not null && Slope(figure) is { } slope
            && Variance(slope, covariance) is > 0 and < double.PositiveInfinity and var variance
            ? Math.Sqrt(variance) : null;
    }

    private static double Variance(double[] slope, Matrix<double> covariance)
    {
        var vector = Vector<double>.Build.Dense(slope);
        return vector * covariance * vector;
    }

    private double[]? Slope(Func<TModel, double> figure)
    {
        const double Step = 1e-5;
        var slope = new double[_at.Length];
        for (var i = 0; i < slope.Length; i++)
        {
            var (up, down) = ((double[])_at.Clone(), (double[])_at.Clone());
            up[i] += Step;
            down[i] -= Step;
            if (_likelihood!.Build(up) is not { } high || _likelihood.Build(down) is not { } low) return null;
            slope[i] = (figure(high) - figure(low)) / (2 * Step);
        }
        return slope.All(double.IsFinite) ? slope : null;
    }
}
