using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Models of the misses of the storms record against R 4.2.2 (tests/reference/miss-models), in nautical miles: optimisation from other starts by other derivatives.</summary>
public sealed class StormFitsTests
{
    private const double Limit = 60;

    private static readonly Dictionary<(string Fit, string Quantity), double> _figures = ReferenceFiles.Rows("miss-models/fits.csv")
        .ToDictionary(r => (r["fit"], r["quantity"]), r => double.Parse(r["value"], CultureInfo.InvariantCulture));

    private static readonly Lazy<IReadOnlyList<MissReading>> _readings = new(() =>
    [
        .. Storms.Log.Landings.Select(l => new MissReading(
            l.Drop.Mission, new DownwindVector(l.MissDownwind!.Value.Downwind / Storms.NauticalMile, l.MissDownwind.Value.Right / Storms.NauticalMile))),
    ]);

    private static MissSample Sample(bool censored) => MissSample.Of(_readings.Value.Select(r => censored && r.Miss!.Value.Length > Limit ? r with { Miss = null, Beyond = Limit } : r));

    /// <summary>Estimates to 1e-6, standard errors to 1e-4 (second differences of R), log-likelihoods to 1e-6 absolute.</summary>
    private static void Agree<T>(string kind, bool censored, ModelFit<T> fit, BivariateNormal core, params (string Quantity, double Value)[] more) where T : class, IErrorModel
    {
        var name = $"{kind} {(censored ? "beyond 60 nm" : "all placed")}";
        Assert.Equal(3785, fit.Landings);
        Close.Absolute(_figures[(name, "log_likelihood")], fit.LogLikelihood!.Value, 1e-6, name);
        (string, double)[] all =
        [
            ("centre_downwind", core.MeanDownwind), ("centre_right", core.MeanRight), ("scatter_11", core.VarianceDownwind), ("scatter_22", core.VarianceRight),
            ("scatter_12", core.Covariance), .. more,
        ];
        foreach (var (quantity, value) in all) Close.Relative(_figures[(name, quantity)], value, quantity.Contains("se_", StringComparison.Ordinal) ? 1e-4 : 1e-6, $"{name} {quantity}");
    }

    [Theory, InlineData(false), InlineData(true)]
    public void The_t_agrees_with_R(bool censored)
    {
        var fit = BivariateT.FitTo(Sample(censored)).Value!;
        Agree("t", censored, fit, fit.Model.Core, ("degrees_of_freedom", fit.Model.DegreesOfFreedom),
            ("mission_se_centre_downwind", fit.Parameters[0].StandardError!.Value), ("mission_se_degrees_of_freedom", fit.Parameters[5].StandardError!.Value));
    }

    [Theory, InlineData(false), InlineData(true)]
    public void The_mixture_of_two_spreads_agrees_with_R(bool censored)
    {
        var fit = ScaleMixture.FitTo(Sample(censored)).Value!;
        Agree("mixture", censored, fit, fit.Model.Core, ("wide_share", fit.Model.WideShare), ("widening", fit.Model.Widening),
            ("mission_se_wide_share", fit.Parameters[5].StandardError!.Value), ("mission_se_widening", fit.Parameters[6].StandardError!.Value));
    }

    /// <summary>Each landing a mission of its own: the standard errors are those of the curvature.</summary>
    [Theory, InlineData(false), InlineData(true)]
    public void Standard_errors_of_independent_landings_agree_with_R(bool censored)
    {
        var alone = MissSample.Of(Sample(censored).Placed.Select((m, i) => new MissReading($"placed {i}", m)).Concat(Sample(censored).Beyond.Select((b, i) => new MissReading($"beyond {i}", null, b))));
        var (t, mixture) = (BivariateT.FitTo(alone).Value!, ScaleMixture.FitTo(alone).Value!);
        Agree("t", censored, t, t.Model.Core, ("se_centre_downwind", t.Parameters[0].StandardError!.Value), ("se_degrees_of_freedom", t.Parameters[5].StandardError!.Value));
        Agree("mixture", censored, mixture, mixture.Model.Core, ("se_wide_share", mixture.Parameters[5].StandardError!.Value), ("se_widening", mixture.Parameters[6].StandardError!.Value));
    }

    [Fact]
    public void The_kernel_density_agrees_with_R()
    {
        var sample = Sample(false);
        var model = KernelDensity.FitTo(sample).Value!.Model;
        Close.Relative(Figure("kernel_11"), model.Kernel.VarianceDownwind, 1e-10);
        Close.Relative(Figure("kernel_22"), model.Kernel.VarianceRight, 1e-10);
        Close.Relative(Figure("kernel_12"), model.Kernel.Covariance, 1e-9);
        Close.Relative(Figure("density_at_spot"), Math.Exp(model.LogDensity(default)!.Value), 1e-5); // gathered in cells

        // The first hundred by id, each with the kernel of them all, not gathered.
        var hundred = Storms.Log.Landings.Zip(_readings.Value).OrderBy(p => p.First.Drop.Id, StringComparer.Ordinal).Take(100).Select(p => p.Second.Miss!.Value);
        Close.Relative(Figure("beyond_30_mean_of_first_100"), hundred.Average(m => (model.Kernel with { MeanDownwind = m.Downwind, MeanRight = m.Right }).ProbabilityBeyond(30)), 1e-9);

        double Figure(string quantity) => _figures[("kernel density", quantity)];
    }

    [Fact, Trait("Category", "Long")]
    public void Each_storm_foretold_by_the_others_agrees_with_R() => Close.Relative(_figures[("kernel density", "left_out")], KernelDensity.LeftOut(Sample(false))!.Value, 1e-9);

    [Fact]
    public void The_choice_between_models_agrees_with_R()
    {
        var sample = Sample(false);
        var choice = ModelChoice.Of([BivariateNormal.FitTo(sample).Value!, ScaleMixture.FitTo(sample).Value!, BivariateT.FitTo(sample).Value!, EmpiricalMisses.FitTo(sample).Value!]);
        Assert.Equal(["bivariate t", "mixture of two spreads", "bivariate normal", "landings as they were"], choice.Models.Select(m => m.Name));
        Close.Relative(Figure("aicc_t"), choice.Models[0].Aicc!.Value, 1e-10);
        Close.Relative(Figure("aicc_mixture"), choice.Models[1].Aicc!.Value, 1e-10);
        Close.Relative(Figure("aicc_normal"), choice.Models[2].Aicc!.Value, 1e-10);
        Close.Relative(Figure("bic_t"), choice.Models[0].Bic!.Value, 1e-10);
        Close.Relative(Figure("p_t_mixture"), choice.Models[1].BestAgainst!.PValue, 1e-6);
        Close.Relative(Figure("p_t_normal"), choice.Models[2].BestAgainst!.PValue, 1e-5);
        Assert.Equal((ContrastMethod.Vuong, ContrastMethod.VuongAsGuide), (choice.Models[1].BestAgainst!.Method, choice.Models[2].BestAgainst!.Method));
        Close.Relative(Math.Exp((Figure("aicc_t") - Figure("aicc_mixture")) / 2), choice.Models[1].Weight!.Value, 1e-5); // the others' weights are below 1e-7
        Assert.Equal(
            "Of 3 models the bivariate t describes the landings best, with 100 % of the Akaike weight. The data can't tell it from the mixture of two spreads; it is told apart from the bivariate normal. "
            + "The weights take the 3785 landings as independent; they are of 232 missions, so the weights overstate how sure one can be. "
            + "Not ranked, for want of a likelihood or of landings: landings as they were.",
            choice.Reading);

        double Figure(string quantity) => _figures[("choice", quantity)];
    }
}
