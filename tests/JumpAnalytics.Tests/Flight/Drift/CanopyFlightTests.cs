namespace JumpAnalytics.Tests;

/// <summary>How far a canopy can be steered, and how fast it comes down.</summary>
public sealed class CanopyFlightTests
{
    private static readonly CanopyFlight _canopy = new("made", 4, 5, "made up");

    /// <summary>Reaches by arithmetic, speed times time: 9 mph for 95 s is about 420 yd; 20 mph for 160 s about 1,560 yd.</summary>
    [Theory]
    [InlineData(9, 95, 420)]
    [InlineData(20, 160, 1560)]
    public void Reaches_of_trade_notes(double mph, double seconds, double yards)
    {
        var canopy = new CanopyFlight("made", MeasureUnit.Speed("mph").ToSi(mph), 500 / seconds, "made up");
        Close.Absolute(yards, canopy.Reach(500) / MeasureUnit.Distance("yd").Si, 5);
    }

    /// <summary>Holding into a wind of its own speed makes no way: the drift is as long as the reach, but for the density.</summary>
    [Fact]
    public void Holding_into_a_wind_of_its_own_speed_makes_no_way()
    {
        var path = DriftModel.Drift(WindProfile.Uniform(new WindVector(0, 4)), _canopy.Descent, 400);
        Close.Relative(_canopy.Reach(400), path.Drift.Length, 0.02);
        Assert.Equal((0.0, 5.0), (_canopy.Reach(0), _canopy.Descent.RateAt(0)));
    }

    [Fact]
    public void A_class_is_found_by_its_name_in_any_case()
    {
        Assert.Same(CanopyFlight.Examples[1], CanopyFlight.Of("Ram-Air", CanopyFlight.Examples));
        Assert.Null(CanopyFlight.Of("kite", CanopyFlight.Examples));
        Assert.Null(CanopyFlight.Of(null, CanopyFlight.Examples));
    }

    [Fact]
    public void Heights_that_can_not_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => _canopy.Reach(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => _canopy.Reach(double.NaN));
    }
}
