using static JumpAnalytics.Tests.PublishedDistances;

namespace JumpAnalytics.Tests;

/// <summary>Distances at the edge of what can be fitted: boundaries, few readings, none that tell, very many, shared missions.</summary>
public sealed class RadialLimitsTests
{
    private static string Reasons(string readings, double? resolution = null) => Reasons(DistanceSample.Of(Readings(readings), resolution));

    /// <summary>The reasons of the six families, a dash for a fit; every fit must be free of numbers that are none.</summary>
    private static string Reasons(DistanceSample sample) => string.Join('|', RadialModels.FitAll(sample).Select(f =>
    {
        if (!f.Fit.Success) return f.Fit.Reason;
        var fit = f.Fit.Value;
        Assert.True(double.IsFinite(fit.LogLikelihood!.Value), f.Model);
        Assert.All(fit.Parameters, p => Assert.True(double.IsFinite(p.Value) && p.StandardError is null or > 0 and < double.PositiveInfinity, $"{f.Model} {p}"));
        var share = fit.Derived(m => m.ProbabilityWithin(10), 0.95, IntervalScale.Logit);
        Assert.True(share.Range is not null || share.WhyNoRange is { Length: > 0 }, f.Model);
        return "-";
    }));

    private const string One = "the one reading agrees with one and the same distance; how distances spread can't be told";
    private const string All = "all readings agree with one and the same distance; how distances spread can't be told";
    private const string Sides = "every landing is known only as within or as beyond a distance; how distances spread can't be told";

    // In the order Rayleigh, Rice, Hoyt, Weibull, gamma, lognormal.
    [Theory]
    [InlineData("12", $"-|{One}|-|{One}|{One}|{One}")]
    [InlineData("10-20", $"-|{One}|-|{One}|{One}|{One}")]
    [InlineData("12*3", $"-|{All}|-|{All}|{All}|{All}")]
    [InlineData("12 12.000000001", $"-|{All}|-|{All}|{All}|{All}")]
    [InlineData("10-20*5 20-30*4", $"-|{All}|-|{All}|{All}|{All}")]
    [InlineData("12 10-20 5+", $"-|{All}|-|{All}|{All}|{All}")]
    [InlineData("12 12+", $"-|{All}|-|{All}|{All}|{All}")]
    [InlineData("0-10*4 20+*3", $"-|-|-|{Sides}|{Sides}|{Sides}")]
    [InlineData("12 13", "-|-|-|-|-|-")]
    [InlineData("12 13 19", "-|-|-|-|-|-")]
    [InlineData("12 30+", "-|-|-|-|-|-")]
    [InlineData("0-10 10-20 20+", "-|-|-|-|-|-")]
    [InlineData("0.001 100000", "-|-|-|-|-|-")]
    [InlineData("4 40+*200", "-|-|-|-|-|-")]
    public void Few_readings_give_a_fit_or_a_reason(string readings, string reasons) => Assert.Equal(reasons, Reasons(readings));

    [Theory]
    [InlineData("", "no distances")]
    [InlineData("10+*3 12+", "every landing is known only as beyond a distance; nothing tells how far they lie")]
    [InlineData("0+*3", "every landing is known only as beyond a distance; nothing tells how far they lie")]
    [InlineData("0-10*3 0-12", "every landing is known only as within a distance; nothing tells how near they lie")]
    [InlineData("0 12 14", "1 landing at exactly 0 m, where a distribution of distances has no likelihood; give the sample the resolution of the record, so that 0 stands for anything up to half of it")]
    [InlineData("0*2 12 14", "2 landings at exactly 0 m, where a distribution of distances has no likelihood; give the sample the resolution of the record, so that 0 stands for anything up to half of it")]
    public void What_tells_nothing_is_refused_by_all(string readings, string reason) => Assert.Equal(string.Join('|', Enumerable.Repeat(reason, 6)), Reasons(readings));

    [Fact]
    public void A_landing_on_the_spot_counts_as_within_half_a_step()
    {
        Assert.Equal("-|-|-|-|-|-", Reasons("0*2 12 14 21", resolution: 1));
        var (rounded, stated) = (WeibullDistance.FitTo(DistanceSample.Of(Readings("0*2 12 14 21"), 1)).Value!, WeibullDistance.FitTo(Sample("0-0.5*2 12 14 21")).Value!);
        Assert.Equal(stated.Model, rounded.Model);
        Assert.Equal(stated.LogLikelihood, rounded.LogLikelihood);
        Assert.Throws<ArgumentOutOfRangeException>("resolution", () => DistanceSample.Of(Readings("12"), 0));
    }

    /// <summary>Three fits in one: no bias, no ellipse and no line, each with Rayleigh's or the half normal's likelihood, one parameter more, and a warning.</summary>
    [Theory]
    [InlineData(Fans)]
    [InlineData("0-10*40 10-20*3 20-30 190-200")]
    [InlineData("1 2 3 5 8 13 21 34 55 89 60+")]
    public void Rice_without_a_bias_is_Rayleigh(string readings)
    {
        var sample = Sample(readings);
        var (rayleigh, rice) = (RayleighDistance.FitTo(sample).Value!, RiceDistance.FitTo(sample).Value!);
        Assert.Equal(0, rice.Model.Bias);
        Close.Relative(rayleigh.Model.StandardDeviation, rice.Model.StandardDeviation, 1e-9);
        Close.Absolute(rayleigh.LogLikelihood!.Value, rice.LogLikelihood!.Value, 1e-9);
        Assert.Equal(2, rice.FreeParameters);
        Close.Relative(rayleigh.Bic!.Value + Math.Log(sample.Landings), rice.Bic!.Value, 1e-12);
        Assert.Equal(["no bias makes the distances likelier than none: this is Rayleigh's distribution, and errors hold for a bias of 0"], rice.Warnings);
        Assert.Null(rice.Parameters[0].StandardError);
        Close.Relative(rayleigh.Parameters[0].StandardError!.Value, rice.Parameters[1].StandardError!.Value, 1e-6);
        Assert.Null(rice.Derived(m => m.Bias, 0.95).Range);
        var (one, other) = (rayleigh.Derived(m => m.RadiusHolding(0.9), 0.95).Range!.Value, rice.Derived(m => m.RadiusHolding(0.9), 0.95).Range!.Value);
        Close.Relative(one.High, other.High, 1e-6);
    }

    [Fact]
    public void Hoyt_ends_on_a_circle_or_on_a_line()
    {
        var wind = Sample(Wind); // about an offset: closer together than Rayleigh's
        var (rayleigh, circle) = (RayleighDistance.FitTo(wind).Value!, HoytDistance.FitTo(wind).Value!);
        Assert.Equal(circle.Model.Larger, circle.Model.Smaller, 1e-12);
        Close.Relative(rayleigh.Model.StandardDeviation, circle.Model.Larger, 1e-9);
        Close.Absolute(rayleigh.LogLikelihood!.Value, circle.LogLikelihood!.Value, 1e-9);
        Assert.Equal(2, circle.FreeParameters);
        Assert.StartsWith("no ellipse makes the distances likelier than a circle", Assert.Single(circle.Warnings));

        // More landings near the spot than along any ellipse; the half normal's maximum by mpmath 1.3.0 at 30 digits.
        var line = HoytDistance.FitTo(Sample("0-10*60 10-20*25 20-30*10 30+*5")).Value!;
        Assert.Equal(0, line.Model.Smaller);
        Close.Relative(13.87257004307204, line.Model.Larger, 1e-10);
        Close.Absolute(-105.30616078445173, line.LogLikelihood!.Value, 1e-9);
        Close.Relative(1.0556575814238458, line.Parameters[0].StandardError!.Value, 1e-6);
        Assert.Null(line.Parameters[1].StandardError);
        Assert.StartsWith("no ellipse makes the distances likelier than a line", Assert.Single(line.Warnings));
    }

    /// <summary>Rice's bias comes off 0 where the mean fourth power falls below twice the squared mean square.</summary>
    [Theory]
    [InlineData(230, true)]
    [InlineData(201, true)]
    [InlineData(190, false)]
    [InlineData(150, false)]
    public void Rice_leaves_the_boundary_where_the_moments_say(int near, bool boundary)
    {
        var distances = Enumerable.Repeat(10.0, 200).Concat(Enumerable.Repeat(0.01, near)).ToList();
        Assert.Equal(boundary, distances.Average(r => r * r * r * r) >= 2 * Math.Pow(distances.Average(r => r * r), 2));
        var sample = DistanceSample.Of(distances.Select(DistanceReading.Exact));
        var rice = RiceDistance.FitTo(sample).Value!;
        Assert.Equal(boundary, rice.Model.Bias == 0);
        Assert.Equal(boundary, rice.Warnings.Count == 1);
        Assert.True(rice.LogLikelihood >= RayleighDistance.FitTo(sample).Value!.LogLikelihood - 1e-9);
    }
}
