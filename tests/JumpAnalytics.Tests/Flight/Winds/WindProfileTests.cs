namespace JumpAnalytics.Tests;

/// <summary>Winds by height: known levels, laws beyond them, exact means.</summary>
public sealed class WindProfileTests
{
    private static readonly double _foot = MeasureUnit.Distance("ft").Si;

    [Fact]
    public void It_is_linear_between_levels_by_components()
    {
        var profile = WindProfile.Through([new(300, new WindVector(0, 6)), new(100, new WindVector(4, 0))]);
        Close.Absolute(new LocalVector(2, 3), profile.At(200).Over(1), 1e-12);
        Close.Absolute(new LocalVector(4, 0), profile.At(10).Over(1), 1e-12);
        Close.Absolute(new LocalVector(0, 6), profile.At(900).Over(1), 1e-12);
        Close.Absolute(new LocalVector(2, 3), profile.Mean(100, 300).Over(1), 1e-12);
        // 0 to 400: 100 m at (4,0), 200 m with mean (2,3), 100 m at (0,6)
        Close.Absolute(new LocalVector(2, 3), profile.Mean(0, 400).Over(1), 1e-12);
        Assert.Equal("Known: 2 winds, from 100 to 300 m above ground, linear between. Filled in: below held constant, above held constant.",
            profile.Account);
    }

    /// <summary>
    /// Seventh-root law (AMS Glossary), computed by hand: 20 ft to 1,500 ft × 1.85, mean of the layer × 1.62; to 3,000 ft × 2.05, mean
    /// × 1.79. The mean over height h is (h/20 ft)^(1/7)/(8/7).
    /// </summary>
    [Theory]
    [InlineData(1500, 1.85, 1.62)]
    [InlineData(3000, 2.05, 1.79)]
    public void The_seventh_root_law_gives_its_ratios(double feet, double ratio, double mean)
    {
        var profile = WindProfile.Through([new(20 * _foot, new WindVector(1, 0))],
            new WindFill(WindLaw.Power), new WindFill(WindLaw.Power));
        Close.Absolute(ratio, profile.At(feet * _foot).East, 0.006);
        Close.Absolute(mean, profile.Mean(0, feet * _foot).East, 0.006);
        Close.Relative(Math.Pow(feet / 20, 1 / 7.0) * 7 / 8, profile.Mean(0, feet * _foot).East, 1e-12);
    }

    /// <summary>Mean of ln((z−d)/z0) from d + z0 to h, times that stretch: (h−d)·(ln((h−d)/z0) − 1) + z0.</summary>
    [Theory]
    [InlineData(0.03, 0)]
    [InlineData(1, 12)]
    public void The_logarithmic_law_has_its_closed_integral(double roughness, double displacement)
    {
        var fill = new WindFill(WindLaw.Logarithmic, Roughness: roughness, Displacement: displacement);
        var profile = WindProfile.Through([new(30, new WindVector(0, 5))], fill, fill);
        var (h, reference) = (100 - displacement, Math.Log((30 - displacement) / roughness));
        Close.Relative(5 / reference * (h * (Math.Log(h / roughness) - 1) + roughness), 100 * profile.Mean(0, 100).North, 1e-10);
        Assert.Equal(0, profile.At(displacement).North);
    }

    [Fact]
    public void A_mean_is_kept_whatever_the_shape()
    {
        var mean = new WindVector(3, -2);
        foreach (var shape in new[] { WindFill.Constant, new WindFill(WindLaw.Power), new WindFill(WindLaw.Power, 0.3),
            new WindFill(WindLaw.Logarithmic, Roughness: 0.5, Displacement: 3) })
        {
            var profile = WindProfile.WithMean(mean, 457, shape);
            Close.Absolute(mean.Over(1), profile.Mean(0, 457).Over(1), 1e-10, shape.Words);
            Assert.Contains(shape.Words, profile.Account, StringComparison.Ordinal);
        }
    }

    /// <summary>
    /// What was measured comes out again: streamers that fall through the profile drift as they did, with the error of their reading,
    /// whatever the wind and the shape. They fall through three winds, one of which turns.
    /// </summary>
    [Fact]
    public void Streamers_through_their_own_profile_drift_as_they_did()
    {
        var rate = new CanopyDescent(5);
        var power = new WindFill(WindLaw.Power, 0.25);
        var truths = new[]
        {
            WindProfile.Uniform(new WindVector(3, -4)), WindProfile.Through([new(6, new WindVector(3, 0))], power, power),
            WindProfile.Through([new(1, default), new(300, new WindVector(6, 0)), new(900, new WindVector(0, 9))]),
        };
        WindFill[] shapes = [WindFill.Constant, new(WindLaw.Power), new(WindLaw.Logarithmic, Roughness: 0.5, Displacement: 8)];
        foreach (var (truth, shape) in truths.SelectMany(_ => shapes, (t, s) => (t, s)))
        {
            var set = new StreamerSet(457, rate, DriftModel.Drift(truth, rate, 457, 1200).Drift, PlaneCovariance.Round(20));
            var back = DriftModel.Drift(set.Profile(shape, 1200), rate, 457, 1200);
            Close.Absolute(set.Drift, back.Drift, 1e-7);
            Close.Relative(20, back.Error!.AxisSds.Longest, 1e-9, shape.Words);
        }
    }

    /// <summary>A rate of fall that is off by a share makes the wind stronger or weaker by that share, along itself.</summary>
    [Fact]
    public void The_spread_of_the_rate_of_fall_goes_along_the_wind()
    {
        var set = new StreamerSet(457, new CanopyDescent(5, logSd: 0.1), new LocalVector(0, 300), PlaneCovariance.Round(12));
        var (mean, error) = set.MeanWind(0);
        var seconds = set.Descent.Seconds(0, 457, 0);
        Close.Absolute(new LocalVector(0, 300), mean.Over(seconds), 1e-9);
        Close.Relative(12 / seconds, Math.Sqrt(error.VarianceAlong), 1e-12);
        Close.Relative(Math.Sqrt(12 * 12 + 30 * 30) / seconds, Math.Sqrt(error.VarianceAcross), 1e-12);
    }

    [Fact]
    public void What_makes_no_profile_is_refused_with_what_to_do()
    {
        Assert.Contains("at least one", Assert.Throws<ArgumentException>(() => WindProfile.Through([])).Message, StringComparison.Ordinal);
        Assert.Contains("one height, 50.0 m",
            Assert.Throws<ArgumentException>(() => WindProfile.Through([new(50, default), new(50, default)])).Message,
            StringComparison.Ordinal);
        Assert.Contains("above zero", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(0, default)])).Message,
            StringComparison.Ordinal);
        Assert.Contains("displacement", Assert.Throws<ArgumentException>(() =>
            WindProfile.Through([new(5, default)], new WindFill(WindLaw.Logarithmic, Displacement: 8))).Message, StringComparison.Ordinal);
        Assert.Contains("5.0 m", Assert.Throws<ArgumentException>(() =>
            WindProfile.WithMean(default, 5, new WindFill(WindLaw.Logarithmic, Displacement: 8))).Message, StringComparison.Ordinal);
        Assert.Contains("roughness above zero", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(10, default)],
            above: new WindFill(WindLaw.Logarithmic, Roughness: 0))).Message, StringComparison.Ordinal);
        Assert.Contains("0 to 1; found -1",
            Assert.Throws<ArgumentException>(() => WindProfile.Through([new(10, default)], new WindFill(WindLaw.Power, -1))).Message,
            StringComparison.Ordinal);
        foreach (var odd in new WindLevel[] { new(10, new WindVector(double.NaN, 0)), new(double.PositiveInfinity, default) })
            Assert.Contains("finite", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(5, default), odd])).Message,
                StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => WindProfile.Uniform(default).Mean(50, 50));
        StreamerSet Streamers(double height, double drift) =>
            new(height, new CanopyDescent(5), new LocalVector(drift, 0), new PlaneCovariance(1, 1, 0));
        foreach (var bad in new[] { Streamers(400, double.NaN), Streamers(0, 100) })
            Assert.Throws<ArgumentException>(() => bad.Profile(WindFill.Constant));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindProfile.WithMean(default, 0, WindFill.Constant));
    }
}
