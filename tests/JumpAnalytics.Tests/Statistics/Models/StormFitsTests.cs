using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>
/// Models of the misses of the storms record against R 4.2.2 (tests/reference/miss-models), in nautical miles: optimisation from other
/// starts by other derivatives.
/// </summary>
public sealed class StormFitsTests
{
    private const double Limit = 60;

    private static readonly Dictionary<(string Fit, string Quantity), double> _figures = ReferenceFiles.Rows("miss-models/fits.csv")
        .ToDictionary(r => (r["fit"], r["quantity"]), r => double.Parse(r["value"], CultureInfo.InvariantCulture));

    private static readonly Lazy<IReadOnlyList<PlaneReading>> _readings = new(() =>
    [
        .. Storms.Log.Landings.Select(l => new PlaneReading(
            l.Drop.Mission,
            new PlaneVector(l.MissDownwind!.Value.Along / Storms.NauticalMile, l.MissDownwind.Value.Across / Storms.NauticalMile))),
    ]);

    private static PlaneSample Sample(bool censored) => PlaneSample.Of(
        _readings.Value.Select(r => censored && r.Place!.Value.Length > Limit ? r with { Place = null, Beyond = Limit } : r));

    /// <summary>Estimates to 1e-6, standard errors to 1e-4 (second differences of R), log-likelihoods to 1e-6 absolute.</summary>
    private static void Agree<T>(string kind, bool censored, ModelFit<T> fit, BivariateNormal core,
        params (string Quantity, double Value)[] more) where T : class, IErrorModel
    {
        var name = $"{kind} {(censored ? "beyond 60 nm" : "all placed")}";
        Assert.Equal(3785, fit.Points);
        Close.Absolute(_figures[(name, "log_likelihood")], fit.LogLikelihood!.Value, 1e-6, name);
        (string, double)[] all =
        [
            ("centre_downwind", core.MeanAlong), ("centre_right", core.MeanAcross), ("scatter_11", core.VarianceAlong),
            ("scatter_22", core.VarianceAcross),
            ("scatter_12", core.Covariance), .. more,
        ];
        foreach (var (quantity, value) in all) Close.Relative(_figures[(name, quantity)], value,
            quantity.Contains("se_", StringComparison.Ordinal) ? 1e-4 : 1e-6, $"{name} {quantity}");
    }

    [Theory, InlineData(false), InlineData(true)]
    public void The_t_agrees_with_R(bool censored)
    {
        var fit = BivariateT.FitTo(Sample(censored)).Value!;
        Agree("t", censored, fit, fit.Model.Core, ("degrees_of_freedom", fit.Model.DegreesOfFreedom),
            ("mission_se_centre_downwind", fit.Parameters[0].StandardError!.Value),
            ("mission_se_degrees_of_freedom", fit.Parameters[5].StandardError!.Value));
    }

    [Theory, InlineData(false), InlineData(true)]
    public void The_mixture_of_two_spreads_agrees_with_R(bool censored)
    {
        var fit = ScaleMixture.FitTo(Sample(censored)).Value!;
        Agree("mixture", censored, fit, fit.Model.Core, ("wide_share", fit.Model.WideShare), ("widening", fit.Model.Widening),
            ("mission_se_wide_share", fit.Parameters[5].StandardError!.Value),
            ("mission_se_widening", fit.Parameters[6].StandardError!.Value));
    }

    /// <summary>Each landing a mission of its own: the standard errors are those of the curvature.</summary>
    [Theory, InlineData(false), InlineData(true)]
    public void Standard_errors_of_independent_landings_agree_with_R(bool censored)
    {
        var alone = PlaneSample.Of(Sample(censored).Placed.Select((m, i) => new PlaneReading($"placed {i}", m))
            .Concat(Sample(censored).Beyond.Select((b, i) => new PlaneReading($"beyond {i}", null, b))));
        var (t, mixture) = (BivariateT.FitTo(alone).Value!, ScaleMixture.FitTo(alone).Value!);
        Agree("t", censored, t, t.Model.Core, ("se_centre_downwind", t.Parameters[0].StandardError!.Value),
            ("se_degrees_of_freedom", t.Parameters[5].StandardError!.Value));
        Agree("mixture", censored, mixture, mixture.Model.Core, ("se_wide_share", mixture.Parameters[5].StandardError!.Value),
            ("se_widening", mixture.Parameters[6].StandardError!.Value));
    }

    [Fact]
    public void The_choice_between_models_agrees_with_R()
    {
        var sample = Sample(false);
        var choice = ModelChoice.Of([BivariateNormal.FitTo(sample).Value!, ScaleMixture.FitTo(sample).Value!,
            BivariateT.FitTo(sample).Value!, EmpiricalPoints.FitTo(sample).Value!]);
        Assert.Equal(["bivariate t", "mixture of two spreads", "bivariate normal", "points as they were"],
            choice.Models.Select(m => m.Name));
        Close.Relative(Figure("aicc_t"), choice.Models[0].Aicc!.Value, 1e-10);
        Close.Relative(Figure("aicc_mixture"), choice.Models[1].Aicc!.Value, 1e-10);
        Close.Relative(Figure("aicc_normal"), choice.Models[2].Aicc!.Value, 1e-10);
        Close.Relative(Figure("bic_t"), choice.Models[0].Bic!.Value, 1e-10);
        Close.Relative(Figure("p_t_mixture"), choice.Models[1].BestAgainst!.PValue, 1e-6);
        Close.Relative(Figure("p_t_normal"), choice.Models[2].BestAgainst!.PValue, 1e-5);
        Assert.Equal((ContrastMethod.Vuong, ContrastMethod.VuongAsGuide),
            (choice.Models[1].BestAgainst!.Method, choice.Models[2].BestAgainst!.Method));
        // The others' weights are below 1e-7.
        Close.Relative(Math.Exp((Figure("aicc_t") - Figure("aicc_mixture")) / 2), choice.Models[1].Weight!.Value, 1e-5);
        Assert.Equal(
            "Of 3 models the bivariate t describes the points best, with 100 % of the Akaike weight. The data can't tell it from the "
                + "mixture of two spreads; it is told apart from the bivariate normal. "
            + "The weights take the 3,785 points as independent; they are of 232 clusters, so the weights overstate how sure one can be. "
            + "Not ranked, for want of a likelihood or of points: points as they were.",
            choice.Reading);

        double Figure(string quantity) => _figures[("choice", quantity)];
    }
}
