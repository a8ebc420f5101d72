using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>
/// The bivariate normal fitted by likelihood: closed forms where there are some, R where landings are known only as beyond a distance.
/// </summary>
public sealed class BivariateNormalLikelihoodTests
{
    // 97.5 % points, R 4.2.2: qnorm(.975), qt(.975, 7), and qchisq(.95, 1).
    private const double Normal95 = 1.959963984540054;
    private const double T7 = 2.364624251592784;
    private const double ChiSquare95 = 3.841458820694124;

    private static readonly IReadOnlyList<PlaneVector> _arrows = CheckData.Arrows;

    private static ModelFit<BivariateNormal> Made(PlaneSample sample, NormalForm form = NormalForm.Full)
    {
        var fit = BivariateNormal.FitTo(sample, form);
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }

    private static PlaneSample Censored(IEnumerable<PlaneVector> misses, double distance) =>
        PlaneSample.Of(
            misses.Select((m, i) => m.Length > distance ? new PlaneReading($"m{i}", null, distance) : new PlaneReading($"m{i}", m)));

    // √(Σ min(r, 20)² / 2·55), where 55 of 72 arrows lie within 20 of the origin.
    [Fact]
    public void One_variance_without_bias_is_Rayleigh_of_the_distances()
    {
        var sample = Censored(_arrows, 20);
        Assert.Equal((55, 17), (sample.Placed.Count, sample.Beyond.Count));
        var fit = Made(sample, NormalForm.EqualVariance | NormalForm.NoBias);
        Close.Relative(11.8757299106, fit.Parameters[0].Value, 1e-10);
        Close.Relative(Math.Sqrt(_arrows.Sum(m => Math.Pow(Math.Min(m.Length, 20), 2)) / 110), fit.Parameters[0].Value, 1e-11);
        // Curvature of -2·55 log σ - Σ min(r, 20)² / 2σ² in log σ: -4·55.
        Close.Relative(fit.Parameters[0].Value / Math.Sqrt(220), fit.Parameters[0].StandardError!.Value, 1e-6);
    }

    /// <summary>Against R: tests/reference/censored-normal.</summary>
    [Theory]
    [InlineData("full", NormalForm.Full)]
    [InlineData("circle", NormalForm.EqualVariance)]
    [InlineData("centred", NormalForm.NoBias)]
    [InlineData("both", NormalForm.EqualVariance | NormalForm.NoBias)]
    public void Landings_beyond_a_distance(string form, NormalForm held)
    {
        var misses = ReferenceFiles.Rows("censored-normal/misses.csv").Select((r, i) => r["beyond"] == "NA"
            ? new PlaneReading($"m{i}", new PlaneVector(Number(r["downwind"]), Number(r["right"])))
            : new PlaneReading($"m{i}", null, Number(r["beyond"]))).ToList();
        Assert.Equal((48, 17), (misses.Count, misses.Count(m => m.Place is null)));
        var fit = Made(PlaneSample.Of(misses), held);
        var expected = ReferenceFiles.Rows("censored-normal/fits.csv").Where(r => r["form"] == form).ToList();
        Assert.Equal(expected.Count, fit.Parameters.Count);
        Assert.Equal(expected.Count, fit.FreeParameters);
        foreach (var (row, parameter) in expected.Zip(fit.Parameters))
        {
            var error = Number(row["standard_error"]);
            Close.Absolute(Number(row["value"]), parameter.Value, 1e-7 * error, parameter.Name);
            Close.Relative(error, parameter.StandardError!.Value, 1e-5, parameter.Name);
        }
        Close.Absolute(Number(expected[0]["log_likelihood"]), fit.LogLikelihood!.Value, 1e-9);

        static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
    }

    /// <summary>Divisor n; the likelihood -n (log 2π + ½ log det + 1); errors sd/√n, sd/√2n, (1 - ρ²)/√n.</summary>
    [Fact]
    public void All_placed_and_independent_has_closed_forms()
    {
        var fit = Made(PlaneSample.Of(_arrows));
        // eigen- and moment figures of the arrows with divisor n - 1, R 4.2.2; det = 104.306389182·128.985722359 - 43.4173268192².
        var shrink = 71.0 / 72;
        var (v1, v2, c) = (104.306389182 * shrink, 128.985722359 * shrink, 43.4173268192 * shrink);
        double[] values = [6.77902777778, 5.77291666667, Math.Sqrt(v1), Math.Sqrt(v2), c / Math.Sqrt(v1 * v2)];
        double[] errors = [Math.Sqrt(v1 / 72), Math.Sqrt(v2 / 72), Math.Sqrt(v1 / 144), Math.Sqrt(v2 / 144),
            (1 - c * c / (v1 * v2)) / Math.Sqrt(72)];
        for (var i = 0; i < 5; i++)
        {
            Close.Relative(values[i], fit.Parameters[i].Value, 1e-10, fit.Parameters[i].Name);
            Close.Relative(errors[i], fit.Parameters[i].StandardError!.Value, 1e-6, fit.Parameters[i].Name);
        }
        var top = -72 * (Math.Log(2 * Math.PI) + 0.5 * Math.Log(v1 * v2 - c * c) + 1);
        Close.Absolute(top, fit.LogLikelihood!.Value, 1e-7);
        Close.Absolute(-2 * top + 5 * Math.Log(72), fit.Bic!.Value, 1e-6);
        Close.Absolute(-2 * top + 10 + 60.0 / 66, fit.Aicc!.Value, 1e-6);
        var range = fit.Derived(m => m.MeanAlong, 0.95).Range!.Value;
        Close.Relative(values[0] + Normal95 * errors[0], range.High, 1e-6);

        var circle = Made(PlaneSample.Of(_arrows), NormalForm.EqualVariance);
        Close.Relative(Math.Sqrt((v1 + v2) / 2), circle.Parameters[2].Value, 1e-10);
        Close.Relative(Math.Sqrt((v1 + v2) / 2 / 288), circle.Parameters[2].StandardError!.Value, 1e-6);
        Close.Absolute(-72 * (Math.Log(2 * Math.PI) + Math.Log((v1 + v2) / 2) + 1), circle.LogLikelihood!.Value, 1e-7);
        var centred = Made(PlaneSample.Of(_arrows), NormalForm.NoBias);
        Close.Relative(Math.Sqrt(_arrows.Average(m => m.Along * m.Along)), centred.Parameters[0].Value, 1e-12);
        Close.Relative(centred.Parameters[0].Value / Math.Sqrt(144), centred.Parameters[0].StandardError!.Value, 1e-6);
        var both = Made(PlaneSample.Of(_arrows), NormalForm.EqualVariance | NormalForm.NoBias);
        Close.Relative(12.4365133333, both.Parameters[0].Value, 1e-10);
    }

    private static readonly (string Mission, PlaneVector Miss)[] _sticks =
    [
        ("a", new(12, 3)), ("a", new(15, -2)), ("a", new(9, 1)), ("b", new(-20, 8)), ("b", new(-14, 11)),
        ("c", new(4, -9)), ("c", new(7, -15)),
        ("c", new(1, -6)), ("c", new(3, -12)), ("d", new(25, 6)), ("e", new(-3, 18)), ("e", new(2, 10)),
        ("f", new(-8, -20)), ("g", new(17, 4)),
        ("g", new(19, 13)), ("h", new(-11, 2)),
    ];

    /// <summary>
    /// The mean over landings is the ratio of sums over missions: its variance Σ_m (Σ_j x - mean)² M/(M - 1)/n², with t on M - 1 degrees of
    /// freedom; the mean and the variances are orthogonal, so that the latter do not enter.
    /// </summary>
    [Fact]
    public void The_error_of_the_bias_is_that_of_sums_over_missions()
    {
        var fit = Made(PlaneSample.Of(_sticks.Select(s => new PlaneReading(s.Mission, s.Miss))));
        Check(m => m.Along, 0, m => m.MeanAlong);
        Check(m => m.Across, 1, m => m.MeanAcross);
        Assert.Equal((16, 8), (fit.Points, fit.Clusters));

        void Check(Func<PlaneVector, double> axis, int parameter, Func<BivariateNormal, double> figure)
        {
            var mean = _sticks.Average(s => axis(s.Miss));
            var error = Math.Sqrt(_sticks.GroupBy(s => s.Mission).Sum(g => Math.Pow(g.Sum(s => axis(s.Miss) - mean), 2)) * 8 / 7) / 16;
            Close.Relative(mean, fit.Parameters[parameter].Value, 1e-12);
            Close.Relative(error, fit.Parameters[parameter].StandardError!.Value, 1e-6);
            var range = fit.Derived(figure, 0.95).Range!.Value;
            Close.Relative(mean + T7 * error, range.High, 1e-6);
            Close.Relative(mean - T7 * error, range.Low, 1e-6);
        }
    }

    /// <summary>
    /// One variance without bias: where -2n log σ - S/2σ² lies half the quantile below its top, by bisection;
    /// shared missions widen the drop.
    /// </summary>
    [Fact]
    public void The_profile_of_a_standard_deviation()
    {
        var fit = Made(PlaneSample.Of(_arrows), NormalForm.EqualVariance | NormalForm.NoBias);
        Ends(fit, _arrows.Count, _arrows.Sum(m => m.Length * m.Length), ChiSquare95 / 2);

        var shared = Made(PlaneSample.Of(_sticks.Select(s => new PlaneReading(s.Mission, s.Miss))),
            NormalForm.EqualVariance | NormalForm.NoBias);
        var square = _sticks.Average(s => s.Miss.Length * s.Miss.Length) / 2;
        // Slopes r²/σ² - 2 in log σ, curvature -4n: the sandwich over the plain variance.
        var widening =
            _sticks.GroupBy(s => s.Mission).Sum(g => Math.Pow(g.Sum(s => s.Miss.Length * s.Miss.Length / square - 2), 2)) * 8 / 7 / 64;
        Ends(shared, 16, 32 * square, T7 * T7 * widening / 2);

        static void Ends(ModelFit<BivariateNormal> fit, int n, double squares, double drop)
        {
            var top = Math.Sqrt(squares / (2 * n));
            var range = fit.Profile(m => Math.Sqrt(m.VarianceAlong), 0.95).Range!.Value;
            Close.Relative(End(top / 20, top), range.Low, 1e-6);
            Close.Relative(End(top * 20, top), range.High, 1e-6);

            double End(double outer, double inner)
            {
                for (var i = 0; i < 100; i++)
                {
                    var middle = (outer + inner) / 2;
                    if (At(top) - At(middle) > drop) outer = middle;
                    else inner = middle;
                }
                return inner;
            }

            double At(double sd) => -2 * n * Math.Log(sd) - squares / (2 * sd * sd);
        }
    }

    /// <summary>All else free, the likelihood of a mean is that of one normal variable: -n/2 log(1 + (mean - m)²/variance).</summary>
    [Fact]
    public void The_profile_of_a_bias()
    {
        var fit = Made(PlaneSample.Of(_arrows));
        var reach = Math.Sqrt(fit.Model.VarianceAlong * (Math.Exp(ChiSquare95 / 72) - 1));
        var range = fit.Profile(m => m.MeanAlong, 0.95).Range!.Value;
        Close.Relative(fit.Model.MeanAlong + reach, range.High, 1e-6);
        Close.Relative(fit.Model.MeanAlong - reach, range.Low, 1e-6);
    }

    /// <summary>
    /// 4,000 landings, about a fifth of them known only as beyond 60 m. Twice the likelihood ratio of fit and truth is never negative, and
    /// beyond 35.9, 30.7, 30.7 and 23.9 (chi-square with 5, 3, 3 and 1 degrees of freedom) with a probability of about 1e-6 each; taking
    /// those landings as lying at 60 m would fail it.
    /// </summary>
    [Theory]
    [InlineData(NormalForm.Full, 35.9)]
    [InlineData(NormalForm.EqualVariance, 30.7)]
    [InlineData(NormalForm.NoBias, 30.7)]
    [InlineData(NormalForm.EqualVariance | NormalForm.NoBias, 23.9)]
    public void The_planted_normal_comes_back(NormalForm form, double bound)
    {
        var (circular, centred) = (form.HasFlag(NormalForm.EqualVariance), form.HasFlag(NormalForm.NoBias));
        var truth = new BivariateNormal(centred ? 0 : 18, centred ? 0 : -7, 1600, circular ? 1600 : 625, circular ? 0 : 400);
        var random = SeedStream.For(20_310_722, $"planted normal {form}");
        var sample = Censored(Enumerable.Range(0, 4000).Select(_ => truth.Draw(random)), 60);
        Assert.InRange(sample.Beyond.Count, 300, 1600);
        var fit = Made(sample, form);
        var ofTruth = sample.Placed.Sum(m => truth.LogDensity(m)!.Value) + sample.Beyond.Count * Math.Log(truth.ProbabilityBeyond(60));
        Assert.InRange(2 * (fit.LogLikelihood!.Value - ofTruth), 0, bound);
    }

    [Theory]
    [InlineData(NormalForm.Full, 2, "2 points with a known place; this normal needs 3")]
    [InlineData(NormalForm.EqualVariance, 1, "1 point with a known place; this normal needs 2")]
    public void Too_few_placed_landings_are_refused(NormalForm form, int placed, string reason)
    {
        var readings = Enumerable.Range(0, placed).Select(i => new PlaneReading($"m{i}", new PlaneVector(i, 3 * i + 1)))
            .Append(new PlaneReading("far", null, 50));
        Assert.Equal(reason, BivariateNormal.FitTo(PlaneSample.Of(readings), form).Reason);
    }
}
