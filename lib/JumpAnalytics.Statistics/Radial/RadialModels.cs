namespace JumpAnalytics;

/// <summary>A distribution of distances that was to be fitted.</summary>
/// <param name="Model">What it is called.</param>
/// <param name="Fit">The fit, or the reason why there is none.</param>
[TypeFormatterSource]
public sealed record RadialFit(string Model, Fit<IModelFit<IRadialModel>> Fit);

/// <summary>The distributions of distances from the spot that the library knows.</summary>
public static class RadialModels
{
    /// <summary>Fits each to the same distances: Rayleigh, Rice, Hoyt, Weibull, gamma and lognormal.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <returns>One fit for each distribution, or why it has none, always in the same order.</returns>
    public static IReadOnlyList<RadialFit> FitAll(DistanceSample sample) =>
    [
        Named("Rayleigh", RayleighDistance.FitTo(sample)),
        Named("Rice", RiceDistance.FitTo(sample)),
        Named("Hoyt", HoytDistance.FitTo(sample)),
        Named("Weibull", WeibullDistance.FitTo(sample)),
        Named("gamma", GammaDistance.FitTo(sample)),
        Named("lognormal", LognormalDistance.FitTo(sample)),
    ];

    private static RadialFit Named<TModel>(string name, Fit<ModelFit<TModel>> fit) where TModel : class, IRadialModel => new(name, fit.Success
        ? Fit<IModelFit<IRadialModel>>.Made((IModelFit<IRadialModel>)fit.Value)
        : Fit<IModelFit<IRadialModel>>.Refused(fit.Reason));
}
