namespace JumpAnalytics.Tests;

public sealed class ModelChoiceTests
{
    private static PlaneSample Drawn(IPlaneModel model, int count, int seed, int stick = 1)
    {
        var random = SeedStream.For(seed, "choice");
        return PlaneSample.Of(Enumerable.Range(0, count).Select(i => new PlaneReading($"{i / stick}", model.Draw(random))));
    }

    private static readonly BivariateNormal _normal = new(5, -2, 400, 225, 60);

    /// <summary>
    /// R 4.2.2: weights exp(-d/2)/sum(exp(-d/2)) of the printed AICc; chi-square pchisq(2*gain, 3, lower.tail = FALSE). The gain is read
    /// from the fits, which other tests check.
    /// </summary>
    [Fact]
    public void Forms_of_the_normal_are_compared_by_the_likelihood_ratio()
    {
        var sample = Drawn(_normal, 60, 4);
        var forms = (NormalForm[])[NormalForm.Full, NormalForm.EqualVariance, NormalForm.NoBias,
            NormalForm.EqualVariance | NormalForm.NoBias];
        var fits = forms.Select(f => BivariateNormal.FitTo(sample, f).Value!).ToList();
        var choice = ModelChoice.Of(fits, ["full", "circle", "no bias", "circle, no bias"]);
        Close.Absolute(1, choice.Models.Sum(m => m.Weight!.Value), 1e-12);
        Assert.Equal(choice.Models.OrderBy(m => m.Aicc).Select(m => m.Name), choice.Models.Select(m => m.Name));
        var (first, second) = (choice.Models[0], choice.Models[1]);
        Close.Relative(Math.Exp((first.Aicc!.Value - second.Aicc!.Value) / 2), second.Weight!.Value / first.Weight!.Value, 1e-12);
        foreach (var model in choice.Models.Skip(1))
        {
            // The forms of three parameters hold different ones: neither is a special case of the other.
            var nested = model.FreeParameters != first.FreeParameters;
            Assert.Equal(nested ? ContrastMethod.LikelihoodRatio : ContrastMethod.Vuong, model.BestAgainst!.Method);
            Close.Absolute(first.LogLikelihood!.Value - model.LogLikelihood!.Value, model.BestAgainst.LogRatio, 1e-12);
        }
    }

    /// <summary>For a chi-square of two degrees of freedom the probability is exp(−gain); five against three parameters.</summary>
    [Fact]
    public void The_likelihood_ratio_is_a_chi_square()
    {
        var sample = Drawn(_normal, 400, 9);
        var (full, circle) = (BivariateNormal.FitTo(sample).Value!, BivariateNormal.FitTo(sample, NormalForm.EqualVariance).Value!);
        var contrast = ModelChoice.Of([full, circle], ["full", "circle"]).Models[1].BestAgainst!;
        Close.Relative(Math.Exp(circle.LogLikelihood!.Value - full.LogLikelihood!.Value), contrast.PValue, 1e-9);
    }

    /// <summary>
    /// With one parameter at its end half the samples gain nothing; of the others, chi-square with one degree of freedom:
    /// erfc of the root of the gain.
    /// </summary>
    [Fact]
    public void The_normal_is_at_the_end_of_the_t()
    {
        var sample = Drawn(new BivariateT(_normal, 12), 150, 2);
        var (t, normal) = (BivariateT.FitTo(sample).Value!, BivariateNormal.FitTo(sample).Value!);
        var other = ModelChoice.Of([normal, t]).Models[1];
        Assert.Equal(ContrastMethod.LikelihoodRatio, other.BestAgainst!.Method);
        var gain = t.LogLikelihood!.Value - normal.LogLikelihood!.Value;
        Assert.True(gain > 0.1);
        Close.Relative(0.5 * MathNet.Numerics.SpecialFunctions.Erfc(Math.Sqrt(gain)), other.BestAgainst.PValue, 1e-8);
    }

    /// <summary>
    /// 300 samples of 120 normal misses: at 5 % the normal is told apart from the t in 5 % or fewer. Chance that 31 or more of 300 are at
    /// 5 %: 1e-4. 60 samples of a t with three degrees of freedom: told apart in all but a few.
    /// </summary>
    [Fact]
    public void Normal_misses_are_seldom_taken_for_a_t_and_a_t_is_found()
    {
        Assert.InRange(Enumerable.Range(0, 300).Count(seed => Best(_normal, seed) is ("bivariate t", true)), 1, 30);
        Assert.InRange(Enumerable.Range(0, 60).Count(seed => Best(new BivariateT(_normal, 3), seed) is ("bivariate t", true)), 54, 60);

        static (string, bool) Best(IPlaneModel truth, int seed)
        {
            var sample = Drawn(truth, 120, seed);
            var choice = ModelChoice.Of([BivariateNormal.FitTo(sample).Value!, BivariateT.FitTo(sample).Value!]);
            return (choice.Models[0].Name, choice.Models[1].IsToldApart);
        }
    }

    /// <summary>
    /// Two models of which each mission favours one by chance alone, 2,000 times 25 missions: told apart at 5 % in 5 %. Chance of less than
    /// 55 or more than 150: 2e-6. With a lead of one spread of the missions' differences they are told apart nearly always.
    /// </summary>
    [Fact]
    public void Models_equally_good_over_missions_are_told_apart_as_often_as_the_significance_says()
    {
        var random = SeedStream.For(1, "equal");
        Assert.InRange(Enumerable.Range(0, 2000).Count(_ => Told(0)), 55, 150);
        Assert.InRange(Enumerable.Range(0, 50).Count(_ => Told(1)), 45, 50);

        bool Told(double lead)
        {
            var (one, other) = (new double[25], new double[25]);
            for (var m = 0; m < 25; m++) (one[m], other[m]) = StandardNormal.Pair(random);
            return ModelChoice.Of([Given("one", one.Select(l => lead * Math.Sqrt(2) + l)), Given("other", other)]).Models[1].IsToldApart;
        }
    }

    private sealed record Bare(string Name) : IErrorModel;

    /// <summary>A fit of no parameters whose missions have given log-likelihoods, four landings each.</summary>
    private static ModelFit<Bare> Given(string name, IEnumerable<double> missions)
    {
        var parts = missions.ToArray();
        return new ModelFit<Bare>(
            new Likelihood<Bare>(4 * parts.Length, parts.Length, _ => new Bare(name), (_, by) =>
            {
                for (var m = 0; by is not null && m < by.Length; m++) by[m] += parts[m];
                return parts.Sum();
            }), [], [], []);
    }

    [Fact]
    public void The_sentence_names_what_can_not_be_told_and_what_is_not_independent()
    {
        var sample = Drawn(new BivariateT(_normal, 3), 200, 1, stick: 4);
        var choice =
            ModelChoice.Of([BivariateNormal.FitTo(sample).Value!, BivariateT.FitTo(sample).Value!, EmpiricalPoints.FitTo(sample).Value!]);
        Assert.StartsWith("Of 2 models the bivariate t describes the points best, with ", choice.Reading, StringComparison.Ordinal);
        Assert.Contains("The weights take the 200 points as independent; they are of 50 "
            + "clusters", choice.Reading, StringComparison.Ordinal);
        Assert.EndsWith("Not ranked, for want of a likelihood or of points: points as "
            + "they were.", choice.Reading, StringComparison.Ordinal);
        Assert.Null(choice.Models[^1].Weight);
        Assert.Equal("The bivariate normal alone has a likelihood to go by.",
            ModelChoice.Of([BivariateNormal.FitTo(sample).Value!]).Reading);
        Assert.Equal("No model has a likelihood to go by.", ModelChoice.Of([EmpiricalPoints.FitTo(sample).Value!]).Reading);
    }

    [Fact]
    public void What_can_not_be_compared_is_named()
    {
        var (one, two) = (BivariateNormal.FitTo(Drawn(_normal, 30, 1)).Value!, BivariateNormal.FitTo(Drawn(_normal, 31, 1)).Value!);
        Assert.Throws<ArgumentException>(() => ModelChoice.Of([]));
        Assert.Throws<ArgumentException>(() => ModelChoice.Of([one, one]));
        Assert.Throws<ArgumentException>(() => ModelChoice.Of([one, one], ["a"]));
        Assert.Throws<ArgumentException>(() => ModelChoice.Of([one, two], ["a", "b"]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ModelChoice.Of([one], significance: 0));
    }
}
