using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>A model in its rank.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="FreeParameters">Number of parameters fitted.</param>
/// <param name="LogLikelihood">Natural logarithm of the likelihood; null when it has none.</param>
/// <param name="Aicc">Akaike's criterion, corrected for small samples, less is better; null when it has none.</param>
/// <param name="Bic">Schwarz's criterion, less is better; null when it has no likelihood.</param>
/// <param name="Weight">Akaike weight among the models ranked, adding up to 1; null when it is not ranked.</param>
/// <param name="BestAgainst">The best model against this one; null for the best itself and for models that are not ranked.</param>
/// <param name="IsToldApart">Whether the data tell it from the best; false for the best itself.</param>
[TypeFormatterSource]
public sealed record RankedModel(
    string Name, int FreeParameters, double? LogLikelihood, double? Aicc, double? Bic, double? Weight,
    ModelContrast? BestAgainst, bool IsToldApart);

/// <summary>
/// Which of several models describes the same points best, and which of the others the data can't tell from it.
/// </summary>
/// <remarks>
/// <para>
/// Rank: AICc. Weights: exp(−Δ/2), normed (Burnham and Anderson 2002, Model Selection and Multimodel Inference, section 2.9). Both take
/// points as independent, and so overstate certainty where points share clusters.
/// </para>
/// <para>
/// Told apart: the best against each other, by sums over clusters (Vuong 1989, corrected by the difference of AICc). A special case of
/// a model is held against it by the likelihood ratio where each point is a cluster of its own; its distribution is the even mixture
/// of two chi-squares where the special case is at the end of a parameter, as the normal is of the t. Where points share clusters, or
/// parameters lose their meaning (one normal as a mixture of two), Vuong's p-value stands as a guide. The p-values
/// are held against the significance by Holm's method (1979, Scandinavian Journal of Statistics 6:65-70).
/// </para>
/// </remarks>
[TypeFormatterSource]
public sealed class ModelChoice
{
    private ModelChoice(IReadOnlyList<RankedModel> models, string reading) => (Models, Reading) = (models, reading);

    /// <summary>The models, best first; those without a criterion last, in the order given.</summary>
    public IReadOnlyList<RankedModel> Models { get; }

    /// <summary>What the comparison says, in words.</summary>
    public string Reading { get; }

    /// <summary>Compares fits to the same points.</summary>
    /// <param name="fits">The fits.</param>
    /// <param name="names">What to call them; by default the names of the models, which must then differ.</param>
    /// <param name="significance">
    /// Probability, above 0 and below 1, with which a model as good as the best may be called told apart from it.
    /// </param>
    /// <exception cref="ArgumentException">
    /// There is no fit, two have one name, names and fits differ in number, or the fits are not of the same points.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">The significance is not between 0 and 1.</exception>
    public static ModelChoice Of(IReadOnlyList<IModelFit<IErrorModel>> fits, IReadOnlyList<string>? names = null,
        double significance = 0.05)
    {
        names ??= [.. fits.Select(f => f.Model.Name)];
        if (!(significance is > 0 and < 1)) throw Guard.Refused(nameof(significance), significance,
            "above 0 and below 1, for instance 0.05");
        if (fits.Count == 0) throw new ArgumentException("No fit to compare; one or more are needed.", nameof(fits));
        if (names.Count != fits.Count)
            throw new ArgumentException($"{names.Count} names for {fits.Count} fits; each needs one.", nameof(names));
        if (names.GroupBy(n => n).FirstOrDefault(g => g.Count() > 1) is { } twice)
            throw new ArgumentException($"Two fits are called '{twice.Key}'; names must differ.", nameof(names));
        if (fits.Any(f => f.Points != fits[0].Points || f.Clusters != fits[0].Clusters))
        {
            var sizes = fits.Select(f => $"{f.Nouns.CountedPoints(f.Points)} in {f.Nouns.CountedClusters(f.Clusters)}").Distinct();
            throw new ArgumentException($"The fits are of {string.Join(" and ", sizes)}; they must be of the same.", nameof(fits));
        }

        var ranked = fits.Zip(names, (fit, name) => (Fit: fit, Name: name)).Where(f => f.Fit.Aicc is not null)
            .OrderBy(f => f.Fit.Aicc).ToList();
        var contrasts = ranked.Skip(1).Select(other => ModelContrast.Of(ranked[0].Fit, other.Fit)).ToList();
        var apart = Holm(contrasts.Select(c => c.PValue).ToList(), significance);
        var shares = ranked.Select(f => Math.Exp((ranked[0].Fit.Aicc!.Value - f.Fit.Aicc!.Value) / 2)).ToList();
        List<RankedModel> models =
        [
            .. ranked.Select((f, i) => Row(f.Fit, f.Name, shares[i] / shares.Sum(), i == 0 ? null : contrasts[i - 1],
                i > 0 && apart[i - 1])),
            .. fits.Zip(names, (fit, name) => (fit, name)).Where(f => f.fit.Aicc is null)
                .Select(f => Row(f.fit, f.name, null, null, false)),
        ];
        return new ModelChoice(models, Say(models, fits[0]));
    }

    private static RankedModel Row(IModelFit<IErrorModel> fit, string name, double? weight, ModelContrast? against, bool apart) =>
        new(name, fit.FreeParameters, fit.LogLikelihood, fit.Aicc, fit.Bic, weight, against, apart);

    /// <summary>Which p-values are below the significance when the least is held against its share, and so on until one is not.</summary>
    private static bool[] Holm(List<double> values, double significance)
    {
        var apart = new bool[values.Count];
        var left = values.Count;
        foreach (var i in Enumerable.Range(0, values.Count).OrderBy(i => values[i]))
        {
            if (values[i] * left-- > significance) break;
            apart[i] = true;
        }
        return apart;
    }

    private static string Say(List<RankedModel> models, IModelFit<IErrorModel> fit)
    {
        var (points, clusters, nouns) = (fit.Points, fit.Clusters, fit.Nouns);
        var ranked = models.Where(m => m.Weight is not null).ToList();
        var without = models.Where(m => m.Weight is null).Select(m => m.Name).ToList();
        var sentences = new List<string>();
        if (ranked.Count > 1)
        {
            var (same, other) = (ranked.Skip(1).Where(m => !m.IsToldApart).Select(m => m.Name).ToList(),
                ranked.Where(m => m.IsToldApart).Select(m => m.Name).ToList());
            sentences.Add(string.Create(CultureInfo.InvariantCulture, $"Of {ranked.Count} models the {ranked[0].Name} describes the "
                + $"{nouns.Points} best, with {100 * ranked[0].Weight!.Value:0} % of the Akaike weight."));
            if (same.Count > 0) sentences.Add("The data can't tell it from the "
                + $"{Listed(same)}{(other.Count > 0 ? $"; it is told apart from the {Listed(other)}" : "")}.");
            else sentences.Add($"The data tell it apart from the {Listed(other)}.");
            if (clusters < points) sentences.Add($"The weights take the {nouns.CountedPoints(points)} as independent; they are of "
                + $"{nouns.CountedClusters(clusters)}, so the weights overstate how sure one can be.");
        }
        else
        {
            sentences.Add(
                ranked.Count == 1 ? $"The {ranked[0].Name} alone has a likelihood to go by." : "No model has a likelihood to go by.");
        }
        if (ranked.Count > 0 && without.Count > 0) sentences.Add($"Not ranked, for want of a likelihood or of {nouns.Points}: "
            + $"{Listed(without)}.");
        return string.Join(' ', sentences);
    }

    private static string Listed(List<string> names) => names.Count == 1 ? names[0] : $"{string.Join(", ", names[..^1])} and {names[^1]}";
}
