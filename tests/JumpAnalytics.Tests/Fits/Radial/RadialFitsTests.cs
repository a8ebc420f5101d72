namespace JumpAnalytics.Tests;

/// <summary>Fits of every distribution of distances: what must hold whatever the family.</summary>
public sealed class RadialFitsTests
{
    private static readonly string[] _families = ["Rayleigh", "Rice", "Hoyt", "Weibull", "gamma", "lognormal"];

    public static TheoryData<string> Families => [.. _families];

    private static Fit<IModelFit<IRadialModel>> Fit(string family, DistanceSample sample) => RadialModels.FitAll(sample).Single(f => f.Model == family).Fit;

    private static IModelFit<IRadialModel> Made(string family, DistanceSample sample)
    {
        var fit = Fit(family, sample);
        Assert.True(fit.Success, fit.Reason);
        Assert.Equal(family, fit.Value.Model.Name);
        return fit.Value;
    }

    private static double LogLikelihood(IRadialModel model, DistanceSample sample) =>
        sample.Readings.Sum(r => r.IsExact ? model.LogDensity(r.Low) : Math.Log(model.ProbabilityBetween(r.Low, r.High)));

    private const string Mixed = "3.5 8*2 12.5 17 21 22*2 26 33 41 58 0-10*3 10-20*4 20-30*2 30-50*3 40+*3 60+ 25+";

    /// <summary>Distances drawn from some model, some of them coarsened into rings of 10 m, within 10 m, or beyond 60 m.</summary>
    private static DistanceSample Drawn(IRadialModel model, int count, int seed, bool coarse)
    {
        var random = SeedStream.For(seed, $"radial fits {model}");
        return DistanceSample.Of(Enumerable.Range(0, count).Select(i =>
        {
            var r = model.Draw(random);
            var ring = Math.Floor(r / 10) * 10;
            return !coarse || (i % 3 == 0 && r <= 60) ? DistanceReading.Exact(r)
                : r > 60 ? DistanceReading.Beyond(60)
                : DistanceReading.Between(ring, ring + 10);
        }));
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void Yards_or_metres_give_the_same_fit(string family)
    {
        var here = Made(family, PublishedDistances.Sample(Mixed));
        foreach (var unit in (double[])[0.9144, 1000, 1e-6])
        {
            var there = Made(family, PublishedDistances.Sample(Mixed, unit));
            Close.Absolute(here.LogLikelihood!.Value - 12 * Math.Log(unit), there.LogLikelihood!.Value, 1e-9); // twelve are measured
            Assert.Equal(here.Warnings, there.Warnings);
            foreach (var (one, other) in here.Parameters.Zip(there.Parameters))
            {
                var scale = one.Kind == ParameterKind.Length ? unit : 1;
                Close.Absolute(one.Value * scale, other.Value, 1e-8 * one.Value * scale, one.Name);
                Assert.Equal(one.StandardError is null, other.StandardError is null);
                if (one.StandardError is { } error) Close.Relative(error * scale, other.StandardError!.Value, 1e-5, one.Name);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void Readings_that_say_the_same_give_the_same_fit(string family)
    {
        var readings = PublishedDistances.Readings(Mixed).ToList();
        var plain = Made(family, DistanceSample.Of(readings));

        // Nothing more is known from landings beyond 0, nor from an end farther than any landing.
        var (hollow, far) = (
            Made(family, DistanceSample.Of([.. readings, DistanceReading.Beyond(0), DistanceReading.Within(1e9)])),
            Made(family, DistanceSample.Of(readings.Select(r => double.IsInfinity(r.High) ? DistanceReading.Between(r.Low, 1e9) : r))));
        // A measured distance and a ring of 1e-6 of it, whose share is the density times its width.
        var narrow = Made(family, DistanceSample.Of(readings.Select(r => r.IsExact ? DistanceReading.Between(r.Low * (1 - 5e-7), r.Low * (1 + 5e-7)) : r)));
        var widths = readings.Where(r => r.IsExact).Sum(r => Math.Log(r.Low * 1e-6));
        Close.Absolute(plain.LogLikelihood!.Value, hollow.LogLikelihood!.Value, 1e-9);
        Close.Absolute(plain.LogLikelihood!.Value, far.LogLikelihood!.Value, 1e-9);
        Close.Absolute(plain.LogLikelihood!.Value + widths, narrow.LogLikelihood!.Value, 1e-7);
        for (var i = 0; i < plain.Parameters.Count; i++)
        {
            var value = plain.Parameters[i].Value;
            Close.Absolute(value, hollow.Parameters[i].Value, 1e-8 * value);
            Close.Absolute(value, far.Parameters[i].Value, 1e-8 * value);
            Close.Absolute(value, narrow.Parameters[i].Value, 1e-6 * value);
        }
    }

    public static TheoryData<string, bool> Planted => new(_families.SelectMany(f => new[] { (f, false), (f, true) }));

    /// <summary>
    /// Twice the likelihood ratio of fit and truth: never negative, and beyond the quantile of chi-square with probability 1e-6 (24 for one parameter,
    /// 27.6 for two), for the twelve cases together 1.2e-5.
    /// </summary>
    [Theory]
    [MemberData(nameof(Planted))]
    public void The_planted_parameters_come_back(string family, bool coarse)
    {
        IRadialModel truth = family switch
        {
            "Rayleigh" => new RayleighDistance(25),
            "Rice" => new RiceDistance(30, 15),
            "Hoyt" => new HoytDistance(30, 12),
            "Weibull" => new WeibullDistance(35, 1.5),
            "gamma" => new GammaDistance(30, 2.2),
            _ => new LognormalDistance(25, 0.7),
        };
        var sample = Drawn(truth, 3000, 20_310_601, coarse);
        var fit = Made(family, sample);
        Assert.Empty(fit.Warnings);
        Close.Absolute(LogLikelihood(fit.Model, sample), fit.LogLikelihood!.Value, 1e-8);
        Assert.InRange(2 * (fit.LogLikelihood!.Value - LogLikelihood(truth, sample)), 0, family == "Rayleigh" ? 24 : 27.6);
        Assert.Equal(family == "Rayleigh" ? 1 : 2, fit.FreeParameters);
        Assert.All(fit.Parameters, p => Assert.InRange(p.StandardError!.Value, 0.001 * p.Value, 0.1 * p.Value));
    }

    /// <summary>No step of 1e-3 along either parameter finds a greater likelihood.</summary>
    [Theory]
    [InlineData(Mixed)]
    [InlineData(PublishedDistances.Salinity)]
    [InlineData(PublishedDistances.Fluazinam)]
    [InlineData(PublishedDistances.Fans)]
    [InlineData(PublishedDistances.Cracks)]
    [InlineData(PublishedDistances.ArrowRings)]
    [InlineData("5 9")]
    [InlineData("5 9 9.5")]
    [InlineData("100 100.0001 100.0003 100.00035")]
    [InlineData("0.001 1 1000")]
    [InlineData("5+ 9 2")]
    [InlineData("0-2 2-4 4+")]
    [InlineData("0-10*40 10-20*3 20-30 1900-2000")]
    public void A_fit_is_a_top(string readings)
    {
        var sample = PublishedDistances.Sample(readings);
        foreach (var (family, fit) in RadialModels.FitAll(sample))
        {
            Assert.True(fit.Success, $"{family}: {fit.Reason}");
            var top = fit.Value.LogLikelihood!.Value;
            Assert.True(double.IsFinite(top));
            var (a, b) = (fit.Value.Parameters[0].Value, fit.Value.Parameters.Count > 1 ? fit.Value.Parameters[1].Value : 0);
            foreach (var (da, db) in ((double, double)[])[(1e-3, 0), (-1e-3, 0), (0, 1e-3), (0, -1e-3), (1e-3, 1e-3), (-1e-3, 1e-3)])
            {
                var (x, y) = (a * (1 + da), b > 0 ? b * (1 + db) : Math.Max(0, db) * a);
                IRadialModel near = family switch
                {
                    "Rayleigh" => new RayleighDistance(x),
                    "Rice" => a > 0 ? new RiceDistance(x, y) : new RiceDistance(Math.Max(0, da) * 100 * b, y),
                    "Hoyt" => new HoytDistance(Math.Max(x, y), Math.Min(x, y)),
                    "Weibull" => new WeibullDistance(x, y),
                    "gamma" => new GammaDistance(x, y),
                    _ => new LognormalDistance(x, y),
                };
                var there = sample.Readings.Sum(r => r.IsExact ? near.LogDensity(r.Low) : near.LogBetween(r.Low, r.High));
                Assert.True(there <= top + 1e-9 * Math.Max(1, Math.Abs(top)), $"{family} {near}: {there:R} above {top:R} of {fit.Value.Model}");
            }
        }
    }
}
