namespace JumpAnalytics.Tests;

public sealed class TwoLevelAxisModelTests
{
    private const LikelihoodKind Reml = LikelihoodKind.Restricted;
    private const LikelihoodKind Ml = LikelihoodKind.Full;

    // Closed form of the even design: mean squares 11271.5 between and 2451.25 within batches of 5; log-likelihoods and predictions lme4
    // 1.1-31 (also Bates, lme4: Mixed-effects Modeling with R).
    [Theory]
    [InlineData(Reml, 1764.05, 19.3834121524, -159.827138421)]
    [InlineData(Ml, 1388.33333333333, 17.694553462, -163.66352994057)]
    public void The_parts_of_the_dyestuff_record_are_those_of_the_closed_form(LikelihoodKind kind, double between,
        double meanError, double logLikelihood)
    {
        var model = Model(LevelRecords.Dyestuff, kind);
        Close.Relative(between, model.Between.Value, 1e-11, "between");
        Close.Relative(2451.25, model.Within.Value, 1e-11, "within");
        Close.Relative(1527.5, model.Mean, 1e-13, "mean");
        Close.Relative(meanError, model.MeanError, 1e-10, "error of the mean");
        Close.Relative(logLikelihood, model.LogLikelihood, 1e-11, "log-likelihood");
        Assert.Equal((6, 30), (model.Clusters, model.Points));
        // Covariance of the mean squares: Var(within) = 2 MSW²/24; restricted: Var(between) = (2 MSB²/5 + 2
        // MSW²/24)/25, full: MSB has 6 for 5.
        var degrees = kind == Reml ? 5 : 6;
        var msb = 2451.25 + 5 * between;
        Close.Relative(Math.Sqrt(2 * 2451.25 * 2451.25 / 24), model.Within.StandardError!.Value, 1e-7, "error of within");
        Close.Relative(Math.Sqrt((2 * msb * msb / degrees + 2 * 2451.25 * 2451.25 / 24) / 25), model.Between.StandardError!.Value,
            1e-7, "error of between");
    }

    [Theory]
    [InlineData(Reml, -17.6068514, .391263364, 28.5622256, -23.0845385, 56.7331877, -44.9952868)]
    [InlineData(Ml, -16.6282217, .369516037, 26.9746707, -21.8014462, 53.5798253, -42.4943442)]
    public void Predictions_of_the_dyestuff_batches_are_those_of_lme4(LikelihoodKind kind, params double[] expected)
    {
        var model = Model(LevelRecords.Dyestuff, kind);
        for (var i = 0; i < expected.Length; i++) Close.Relative(expected[i], model.ClusterEffects[i].Value, 2e-8, $"batch {i}");
        // Error of prediction in an even design, of the restricted fit: σ_b²(1 − s) + s²·Var(mean), s = 5 σ_b²/(5 σ_b² + σ_w²).
        var s = 5 * model.Between.Value / (5 * model.Between.Value + model.Within.Value);
        var error = Math.Sqrt(model.Between.Value * (1 - s) + s * s * model.MeanError * model.MeanError);
        Assert.All(model.ClusterEffects, e => Close.Relative(error, e.StandardError, 1e-12));
    }

    // reference/mixed-models: direct search in R 4.2.2 (optimize and uniroot). confint of lme4 1.1-31 interpolates: it has 12.19853522 and
    // 84.06304671 for the first two, 2e-4 and 5e-6 off.
    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void Profile_intervals_of_the_dyestuff_record_agree_with_a_direct_search(LikelihoodKind kind)
    {
        var figures = ReferenceFiles.Rows("mixed-models/reference.csv").Where(r => r["method"] == "profile")
            .ToDictionary(r => r["quantity"], r => double.Parse(r["value"], System.Globalization.CultureInfo.InvariantCulture));
        var profile = Model(LevelRecords.Dyestuff, kind).Profile!;
        Close.Relative(figures["sd between low"], profile.SdBetween.Low, 1e-7);
        Close.Relative(figures["sd between high"], profile.SdBetween.High, 1e-7);
        Close.Relative(figures["sd within low"], profile.SdWithin.Low, 1e-7);
        Close.Relative(figures["sd within high"], profile.SdWithin.High, 1e-7);
        Close.Relative(figures["mean low"], profile.Mean.Low, 1e-7);
        Close.Relative(figures["mean high"], profile.Mean.High, 1e-7);
    }

    // lme4 with tight tolerances, R 4.2.2, lme4 1.1-31; it stops within 2e-8 of the likeliest variances, which is
    // where the tolerance comes from.
    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void Crossed_plates_and_samples_agree_with_lme4(LikelihoodKind kind)
    {
        var figures = LevelRecords.Figures("Penicillin", kind, "lme4");
        var model = Model(LevelRecords.Penicillin, kind);
        Close.Relative(figures["var plate"], model.Between.Value, 1e-6);
        Close.Relative(figures["var sample"], model.BetweenRaters!.Value, 1e-6);
        Close.Relative(figures["var Residual"], model.Within.Value, 1e-7);
        Close.Relative(figures["(Intercept)"], model.Mean, 1e-11);
        Close.Relative(figures["se (Intercept)"], model.MeanError, 1e-7);
        Close.Relative(figures["logLik"], model.LogLikelihood, 1e-12);

        // The same with plates and samples changing places.
        var swapped = Model([.. LevelRecords.Penicillin.Select(r => r with { Cluster = r.Rater!, Rater = r.Cluster })], kind);
        Close.Relative(model.Between.Value, swapped.BetweenRaters!.Value, 1e-9);
        Close.Relative(model.BetweenRaters.Value, swapped.Between.Value, 1e-9);
        Close.Relative(model.LogLikelihood, swapped.LogLikelihood, 1e-13);
        Assert.All(model.ClusterEffects.Zip(swapped.RaterEffects), p =>
        {
            Close.Absolute(p.First.Value, p.Second.Value, 1e-9);
            Close.Relative(p.First.StandardError, p.Second.StandardError, 1e-8);
        });
        Assert.All(model.RaterEffects.Zip(swapped.ClusterEffects), p =>
        {
            Close.Absolute(p.First.Value, p.Second.Value, 1e-8);
            Close.Relative(p.First.StandardError, p.Second.StandardError, 1e-8);
        });
    }

    // As above; restricted 1378.1785 and 960.4566 also in Bates, Mächler, Bolker and Walker, Journal of Statistical Software 67 (2015).
    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void A_mean_that_runs_along_days_agrees_with_lme4(LikelihoodKind kind)
    {
        var figures = LevelRecords.Figures("sleepstudy", kind, "lme4");
        var model = Model(LevelRecords.Sleep, kind);
        Close.Relative(figures["var Subject"], model.Between.Value, 1e-8);
        Close.Relative(figures["var Residual"], model.Within.Value, 1e-9);
        Close.Relative(figures["(Intercept)"], model.Mean, 1e-11);
        Close.Relative(figures["Days"], model.Slope!.Value, 1e-11);
        Close.Relative(figures["se (Intercept)"], model.MeanError, 1e-8);
        Close.Relative(figures["se Days"], model.SlopeError!.Value, 1e-9);
        Close.Relative(figures["logLik"], model.LogLikelihood, 1e-12);
        Assert.Null(model.Profile);
    }

    // As above: batches differ less than their samples, so that the variance between them is zero in lme4 too.
    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void Batches_that_differ_less_than_their_samples_have_no_variance(LikelihoodKind kind)
    {
        var figures = LevelRecords.Figures("Dyestuff2", kind, "lme4");
        var model = Model(LevelRecords.Dyestuff2, kind);
        Assert.Equal(0, figures["var Batch"]);
        Assert.Equal(0, model.Between.Value);
        Assert.Null(model.Between.StandardError);
        Assert.Contains("edge", model.Between.WhyNoError, StringComparison.Ordinal);
        Close.Relative(figures["var Residual"], model.Within.Value, 1e-10);
        Close.Relative(figures["(Intercept)"], model.Mean, 1e-12);
        Close.Relative(figures["se (Intercept)"], model.MeanError, 1e-10);
        Close.Relative(figures["logLik"], model.LogLikelihood, 1e-12);
        Assert.All(model.ClusterEffects, e => Assert.Equal((0, 0), (e.Value, e.StandardError)));
        Assert.Equal(0, model.Profile!.SdBetween.Low);
        Assert.True(model.Profile.SdBetween.High > 1);
    }

    [Theory]
    [InlineData(Reml)]
    [InlineData(Ml)]
    public void Nested_spotters_agree_with_lme4(LikelihoodKind kind)
    {
        var figures = LevelRecords.Figures("downwind with spotters", kind, "lme4");
        var readings = ReferenceFiles.Rows("mixed-models/landings.csv")
            .Select(r => new AxisReading(r["mission"], double.Parse(r["downwind"], System.Globalization.CultureInfo.InvariantCulture),
                r["spotter"])).ToList();
        var model = Model(readings, kind);
        Close.Relative(figures["var mission"], model.Between.Value, 1e-6);
        Close.Absolute(figures["var spotter"], model.BetweenRaters!.Value, 1e-4);
        Close.Relative(figures["var Residual"], model.Within.Value, 1e-6);
        Close.Relative(figures["(Intercept)"], model.Mean, 1e-6);
        Close.Relative(figures["se (Intercept)"], model.MeanError, 1e-6);
        Close.Relative(figures["logLik"], model.LogLikelihood, 1e-12);
    }

    /// <summary>R 4.2.2 with lme4 1.1-31 as it stops by default: good to 1e-6.</summary>
    [Theory]
    [InlineData("downwind", 2e-6)]
    [InlineData("right", 2e-6)]
    public void Each_axis_of_the_storms_agrees_with_lme4(string axis, double tolerance)
    {
        double Figure(string quantity) =>
            Storms.Figures.Single(f => f.Cell == $"lmer {axis}~1+(1|mission), REML" && f.Quantity == quantity).Value;
        var model = Model([.. Storms.Log.Landings.Select(l => new AxisReading(l.Drop.Mission,
            (axis == "downwind" ? l.MissDownwind!.Value.Along : l.MissDownwind!.Value.Across) / Storms.NauticalMile))], Reml);
        Close.Relative(Figure("mean"), model.Mean, tolerance);
        Close.Relative(Figure("var_between"), model.Between.Value, tolerance);
        Close.Relative(Figure("var_within"), model.Within.Value, tolerance);
    }

    [Fact]
    public void Readings_must_be_alike()
    {
        Assert.Throws<ArgumentException>(() => TwoLevelAxisModel.FitTo([new("a", 1), new("a", 2, "s")]));
        Assert.Throws<ArgumentException>(() => TwoLevelAxisModel.FitTo([new("a", 1), new("a", 2, Along: 3)]));
        Assert.Throws<ArgumentException>(() => TwoLevelAxisModel.FitTo([new("a", double.NaN)]));
        Assert.Throws<ArgumentException>(() => TwoLevelAxisModel.FitTo([new("a", 1, Along: double.PositiveInfinity)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => TwoLevelAxisModel.FitTo([new("a", 1)], confidence: 1));
    }

    private static TwoLevelAxisModel Model(IReadOnlyList<AxisReading> readings, LikelihoodKind kind)
    {
        var fit = TwoLevelAxisModel.FitTo(readings, kind);
        Assert.Null(fit.Reason);
        return fit.Value!;
    }
}
