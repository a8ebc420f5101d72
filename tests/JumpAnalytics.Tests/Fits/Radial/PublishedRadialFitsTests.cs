using static JumpAnalytics.Tests.PublishedDistances;

namespace JumpAnalytics.Tests;

/// <summary>
/// Fits of public data against other programs: R 4.2.2 with survival 3.5-3 (survreg) and optim; where a
/// closed form exists, against that.
/// </summary>
public sealed class PublishedRadialFitsTests
{
    private static readonly DistanceSample _arrows = DistanceSample.Of(MissSample.Of(Arrows));

    private static TFit Made<TFit>(Fit<TFit> fit) where TFit : class
    {
        Assert.True(fit.Success, fit.Reason);
        return fit.Value;
    }

    private static double Error<TModel>(ModelFit<TModel> fit, Func<TModel, double> figure) where TModel : class, IErrorModel =>
        fit.Derived(figure, 0.6826894921370859).Range is { } range ? (range.High - range.Low) / 2 : double.NaN; // one standard error either side

    // √(Σr²/2n); -247.898446078 by R. With the arrows beyond 20 known only as that, √(Σ min(r, 20)² / 2·55); rings by optim.
    [Fact]
    public void Rayleigh_of_the_arrows_measured_censored_and_in_rings()
    {
        Assert.Equal(72, _arrows.Landings);
        var whole = Made(RayleighDistance.FitTo(_arrows));
        Close.Relative(12.4365133333, whole.Model.StandardDeviation, 1e-10);
        Close.Absolute(-247.898446078, whole.LogLikelihood!.Value, 1e-9);
        Close.Relative(12.4365133333 / Math.Sqrt(4 * 72), whole.Parameters[0].StandardError!.Value, 1e-6);

        var censored = Made(RayleighDistance.FitTo(DistanceSample.Of(_arrows.Readings.Select(r => r.Low > 20 ? DistanceReading.Beyond(20) : r))));
        Close.Relative(11.8757299106, censored.Model.StandardDeviation, 1e-10);

        var rings = Made(RayleighDistance.FitTo(Sample(ArrowRings)));
        Close.Relative(12.14895562, rings.Model.StandardDeviation, 1e-8);
        Close.Absolute(-95.3444118188, rings.LogLikelihood!.Value, 1e-9);
    }

    // survreg; optim for Hoyt; the Rice likelihood of the arrows is greatest without a bias.
    [Fact]
    public void Weibull_Hoyt_and_Rice_of_the_arrows()
    {
        var weibull = Made(WeibullDistance.FitTo(_arrows));
        Close.Relative(1.99918759, weibull.Model.Shape, 1e-8);
        Close.Relative(17.5862326, weibull.Model.Scale, 1e-8);
        Close.Absolute(-247.898435359, weibull.LogLikelihood!.Value, 1e-8);

        var hoyt = Made(HoytDistance.FitTo(_arrows));
        Close.Relative(14.8986334, hoyt.Model.Larger, 1e-6);
        Close.Relative(9.3468961, hoyt.Model.Smaller, 1e-6);
        Close.Absolute(-247.526915244, hoyt.LogLikelihood!.Value, 1e-8);
        Assert.Empty(hoyt.Warnings);

        var rice = Made(RiceDistance.FitTo(_arrows));
        Assert.Equal(0, rice.Model.Bias);
        Close.Relative(12.4365133333, rice.Model.StandardDeviation, 1e-10);
        Close.Absolute(-247.898446078, rice.LogLikelihood!.Value, 1e-9);
        Assert.Single(rice.Warnings);
    }

    // The score equation at 30 digits; R's optim agrees to 1e-8.
    [Theory]
    [InlineData(Wind, 9.163676615619, 3.708745064302, -408.38190244295)]
    [InlineData(GroundBeef, 48.02665110621, 46.90298160139, -1256.4337157393)]
    public void Rice_with_a_bias(string readings, double bias, double deviation, double logLikelihood)
    {
        var fit = Made(RiceDistance.FitTo(Sample(readings)));
        Close.Relative(bias, fit.Model.Bias, 1e-9);
        Close.Relative(deviation, fit.Model.StandardDeviation, 1e-9);
        Close.Absolute(logLikelihood, fit.LogLikelihood!.Value, 1e-9);
        Assert.Empty(fit.Warnings);
    }

    // survreg: the logarithm of Weibull's scale, the inverse of its shape, and Rayleigh's as Weibull's scale for shape 2.
    [Theory]
    [InlineData(Fans, 70, 10.1772042556, 0.944781445404, -135.152719943, 9.52472296223, -139.370861535, 10.1432390946, 1.67959261434, -134.549648222)]
    [InlineData(Ovarian, 26, 7.1110380718, 0.90247841726, -97.9539010471, 6.91726068429, -101.509829177, 6.77210985859, 1.26577092762, -97.1217420427)]
    public void Right_censored(string readings, int n, double logScale, double inverseShape, double weibullTop, double rayleighLogScale, double rayleighTop, double mean, double spread, double lognormalTop)
    {
        var sample = Sample(readings);
        Assert.Equal(n, sample.Landings);
        var weibull = Made(WeibullDistance.FitTo(sample));
        Close.Relative(logScale, Math.Log(weibull.Model.Scale), 1e-9);
        Close.Relative(inverseShape, 1 / weibull.Model.Shape, 1e-9);
        Close.Absolute(weibullTop, weibull.LogLikelihood!.Value, 1e-8);
        var rayleigh = Made(RayleighDistance.FitTo(sample));
        Close.Relative(rayleighLogScale, Math.Log(rayleigh.Model.StandardDeviation * Math.Sqrt(2)), 1e-9);
        Close.Absolute(rayleighTop, rayleigh.LogLikelihood!.Value, 1e-8);
        var lognormal = Made(LognormalDistance.FitTo(sample));
        Close.Relative(mean, Math.Log(lognormal.Model.Median), 1e-9);
        Close.Relative(spread, lognormal.Model.LogSpread, 1e-9);
        Close.Absolute(lognormalTop, lognormal.LogLikelihood!.Value, 1e-8);
    }

    // survreg's standard errors of log scale and of the logarithm of the inverse shape.
    [Fact]
    public void Right_censored_standard_errors()
    {
        var fit = Made(WeibullDistance.FitTo(Sample(Fans)));
        Close.Relative(0.465889661, Error(fit, m => Math.Log(m.Scale)), 1e-6);
        Close.Relative(0.253438535, Error(fit, m => -Math.Log(m.Shape)), 1e-6);
    }

    // survreg (interval2), and the root of the score at 30 digits for Rayleigh; Weibull is printed as 1.4854 and 71.6904 for these data in the literature of life data analysis.
    [Fact]
    public void Interval_censored()
    {
        var sample = Sample(Cracks);
        Assert.Equal(167, sample.Landings);
        var weibull = Made(WeibullDistance.FitTo(sample));
        Close.Relative(1.48536736527, weibull.Model.Shape, 1e-9);
        Close.Relative(71.6904055615, weibull.Model.Scale, 1e-9);
        Close.Absolute(-309.668408928, weibull.LogLikelihood!.Value, 1e-8);
        var rayleigh = Made(RayleighDistance.FitTo(sample));
        Close.Relative(47.534605203504, rayleigh.Model.StandardDeviation, 1e-11);
        Close.Absolute(-314.732458187, rayleigh.LogLikelihood!.Value, 1e-8);
    }

    // survreg (interval2), rel.tolerance 1e-14. fitdistcens, whose simplex search stops earlier, has a likelihood that is 1e-6 less and the same first four digits.
    [Theory]
    [InlineData(Salinity, 108, 3.3853709904092, 0.49613804193914, 0.06486324377998, 0.054552726616969, -139.0549558518)]
    [InlineData(Fluazinam, 14, 4.9773106523418, 2.6879296996818, 0.74227330374454, 0.60575243957495, -72.812663648723)]
    public void Measured_and_censored_on_either_side(string readings, int n, double mean, double spread, double meanError, double spreadError, double top)
    {
        var sample = Sample(readings);
        Assert.Equal(n, sample.Landings);
        var fit = Made(LognormalDistance.FitTo(sample));
        Close.Relative(mean, Math.Log(fit.Model.Median), 1e-9);
        Close.Relative(spread, fit.Model.LogSpread, 1e-9);
        Close.Relative(meanError, Error(fit, m => Math.Log(m.Median)), 1e-6);
        Close.Relative(spreadError, fit.Parameters[1].StandardError!.Value, 1e-6);
        Close.Absolute(top, fit.LogLikelihood!.Value, 1e-9);
    }

    // survreg as above.
    [Theory]
    [InlineData(Salinity, 2.6470718010409, 35.857086395303, 0.29969572284524, 2.0038073586564, -139.09971357396)]
    [InlineData(Fluazinam, 0.44110195232658, 434.57128981162, 0.11111913703189, 297.34915706896, -73.63583605216)]
    public void Measured_and_censored_on_either_side_Weibull(string readings, double shape, double scale, double shapeError, double scaleError, double top)
    {
        var fit = Made(WeibullDistance.FitTo(Sample(readings)));
        Close.Relative(shape, fit.Model.Shape, 1e-9);
        Close.Relative(scale, fit.Model.Scale, 1e-9);
        Close.Relative(shapeError, fit.Parameters[1].StandardError!.Value, 1e-6);
        Close.Relative(scaleError, fit.Parameters[0].StandardError!.Value, 1e-6);
        Close.Absolute(top, fit.LogLikelihood!.Value, 1e-9);
    }

    // survreg as above; for gamma the root of log k - digamma(k) and its information matrix, R. The likelihoods, shapes, scales and errors printed by
    // Delignette-Muller and Dutang (2015, Journal of Statistical Software 64(4)) agree to their four digits.
    [Fact]
    public void Ground_beef()
    {
        var sample = Sample(GroundBeef);
        Assert.Equal(254, sample.Landings);
        var weibull = Made(WeibullDistance.FitTo(sample));
        Close.Relative(2.1856123322594, weibull.Model.Shape, 1e-9);
        Close.Relative(83.346668831632, weibull.Model.Scale, 1e-9);
        Close.Relative(.10456642294714, weibull.Parameters[1].StandardError!.Value, 1e-6);
        Close.Relative(2.5271217033683, weibull.Parameters[0].StandardError!.Value, 1e-6);
        Close.Absolute(-1255.2247198636, weibull.LogLikelihood!.Value, 1e-9);
        var gamma = Made(GammaDistance.FitTo(sample));
        Close.Relative(4.0083390318291, gamma.Model.Shape, 1e-9);
        Close.Relative(4.0083390318291 / 0.054427355612348, gamma.Model.Mean, 1e-9);
        Close.Relative(0.34191282370934, gamma.Parameters[1].StandardError!.Value, 1e-6);
        Close.Relative(0.0049461137044072, Error(gamma, m => m.Shape / m.Mean), 1e-6);
        Close.Absolute(-1253.6251136893, gamma.LogLikelihood!.Value, 1e-9);
        var lognormal = Made(LognormalDistance.FitTo(sample));
        Close.Relative(4.1693700894537, Math.Log(lognormal.Model.Median), 1e-10);
        Close.Relative(.53660951339526, lognormal.Model.LogSpread, 1e-10);
        Close.Relative(.033669875427221, Error(lognormal, m => Math.Log(m.Median)), 1e-6);
        Close.Relative(.023808197236295, lognormal.Parameters[1].StandardError!.Value, 1e-6);
        Close.Absolute(-1261.3192986763, lognormal.LogLikelihood!.Value, 1e-9);
        var rayleigh = Made(RayleighDistance.FitTo(sample));
        Close.Relative(57.9065565488, rayleigh.Model.StandardDeviation, 1e-10);
        Close.Absolute(-1256.86595089, rayleigh.LogLikelihood!.Value, 1e-8);
    }
}
