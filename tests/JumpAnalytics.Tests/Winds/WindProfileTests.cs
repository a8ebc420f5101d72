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
        Assert.Equal("Known: 2 winds, from 100 to 300 m above ground, linear between. Filled in: below held constant, above held constant.", profile.Account);
    }

    /// <summary>Seventh-root law (AMS Glossary): 20 ft to 1,500 ft × 1.85, mean of the layer × 1.62; to 3,000 ft × 2.05, mean × 1.79 (trade notes, computed). The mean over height h is (h/20 ft)^(1/7)/(8/7).</summary>
    [Theory]
    [InlineData(1500, 1.85, 1.62)]
    [InlineData(3000, 2.05, 1.79)]
    public void The_seventh_root_law_gives_the_ratios_of_trade_notes(double feet, double ratio, double mean)
    {
        var profile = WindProfile.Through([new(20 * _foot, new WindVector(1, 0))], new WindFill(WindLaw.Power), new WindFill(WindLaw.Power));
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
        foreach (var shape in new[] { WindFill.Constant, new WindFill(WindLaw.Power), new WindFill(WindLaw.Power, 0.3), new WindFill(WindLaw.Logarithmic, Roughness: 0.5, Displacement: 3) })
        {
            var profile = WindProfile.WithMean(mean, 457, shape);
            Close.Absolute(mean.Over(1), profile.Mean(0, 457).Over(1), 1e-10, shape.Words);
            Assert.Contains(shape.Words, profile.Account, StringComparison.Ordinal);
        }
    }

    /// <summary>Two streamers sets from 150 and 450 m in a wind that is (2,0) below 150 m and (6,3) above: the upper layer's mean comes out by difference, whatever the rates of fall.</summary>
    [Fact]
    public void Sets_from_two_heights_tell_two_layers()
    {
        static StreamerSet Set(double height, double rate, LocalVector drift) => new(height, new CanopyDescent(rate), drift, 10);
        double Seconds(double bottom, double top, double rate) => new CanopyDescent(rate).Seconds(bottom, top, 0);
        var low = Set(150, 5, new WindVector(2, 0).Over(Seconds(0, 150, 5)));
        var high = Set(450, 6, new WindVector(2, 0).Over(Seconds(0, 150, 6)) + new WindVector(6, 3).Over(Seconds(150, 450, 6)));
        var profile = StreamerSet.Profile([high, low], WindFill.Constant);
        Assert.Equal([75.0, 300.0], profile.Levels.Select(l => l.Height));
        Close.Absolute(new LocalVector(2, 0), profile.Levels[0].Wind.Over(1), 1e-9);
        Close.Absolute(new LocalVector(6, 3), profile.Levels[1].Wind.Over(1), 1e-9);
        Assert.True(profile.Levels[1].Error!.Value.East > profile.Levels[0].Error!.Value.East / 4); // a difference is worse known than the lower mean would be over so long a fall
        Assert.Equal(2, StreamerSet.Profile([low, low with { Drift = default }], WindFill.Constant).At(10).East * 2, 9); // two sets at one height: their mean
    }

    [Fact]
    public void Winds_aloft_stand_above_sea_level_and_come_from()
    {
        var level = WindLevel.Aloft(2743.2, 1500, 10, Bearing.FromDegrees(270), 1.5);
        Close.Absolute(1243.2, level.Height, 1e-9);
        Close.Absolute(new LocalVector(10, 0), level.Wind.Over(1), 1e-12);
        Assert.Equal(2.25, level.Error!.Value.North);
        Assert.Throws<ArgumentOutOfRangeException>(() => WindLevel.Aloft(1400, 1500, 10, Bearing.FromDegrees(270)));
    }

    [Fact]
    public void What_makes_no_profile_is_refused_with_what_to_do()
    {
        Assert.Contains("at least one", Assert.Throws<ArgumentException>(() => WindProfile.Through([])).Message, StringComparison.Ordinal);
        Assert.Contains("one height, 50.0 m", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(50, default), new(50, default)])).Message, StringComparison.Ordinal);
        Assert.Contains("above zero", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(0, default)])).Message, StringComparison.Ordinal);
        Assert.Contains("displacement", Assert.Throws<ArgumentException>(() => WindProfile.Through([new(5, default)], new WindFill(WindLaw.Logarithmic, Displacement: 8))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => StreamerSet.Profile([], WindFill.Constant));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindProfile.WithMean(default, 0, WindFill.Constant));
    }
}
