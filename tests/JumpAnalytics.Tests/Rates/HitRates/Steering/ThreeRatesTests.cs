namespace JumpAnalytics.Tests;

public sealed class ThreeRatesTests
{
    // Reach 1 m for each metre of height.
    private static readonly AccuracyOptions _options =
        new() { Canopies = [new CanopyFlight("made", 5, 5, "made up"), new CanopyFlight("glider", 10, 5, "made up")] };

    private static Drop Drop(string id, double? height = 20, double radius = 30, LocalVector? exit = null) =>
        Made.Drop(id, id, targetRadius: radius) with { ExitHeight = height, ActualExit = exit ?? new LocalVector(0, -300) };

    private static Landing At(Drop drop, double east, string? canopy = "made", int order = 1) =>
        Made.Landing(drop, east, 0, order) with { Canopy = canopy };

    private static (double Least, double Most) Share(Fit<BoundedRate> rate) =>
        (rate.Value!.AtLeast.Rate.Value, rate.Value.AtMost.Rate.Value);

    [Theory]
    [InlineData(5, 1, 1)] // 5 + 20 <= 30: surely
    [InlineData(25, 0, 1)] // 5 to 45: can't tell
    [InlineData(60, 0, 0)] // 40 at least: surely not
    public void The_forecast_of_a_drop_is_bounded_by_the_reach(double east, double least, double most)
    {
        var rates = ThreeRates.Of([At(Drop("a"), east)], _options);
        Assert.Equal((least, most), Share(rates.Forecast));
    }

    [Theory]
    [InlineData(30, 1, 1)] // 50 at most, radius and reach
    [InlineData(60, 0, 1)]
    [InlineData(75, 0, 0)] // 55 at least
    public void Recoverable_is_what_radius_and_reach_hold(double east, double least, double most) =>
        Assert.Equal((least, most), Share(ThreeRates.Of([At(Drop("a"), east)], _options).Recoverable));

    /// <summary>
    /// Two jumpers of one drop: the unsteered drift lies within reach of both, which is less than within reach of either.
    /// </summary>
    [Fact]
    public void A_stick_bounds_more_tightly_than_one_landing()
    {
        var drop = Drop("a");
        Assert.Equal((0, 1), Share(ThreeRates.Of([At(drop, 25)], _options).Forecast));
        Assert.Equal((1, 1), Share(ThreeRates.Of([At(drop, 15), At(drop, -15)], _options).Forecast));
    }

    /// <summary>The exit was 40 m off: the landing on the spot had a forecast error of 40 m, whoever flew what.</summary>
    [Fact]
    public void The_exit_placement_is_taken_out_of_the_miss()
    {
        var rates = ThreeRates.Of([At(Drop("a", height: 5, exit: new LocalVector(40, -300)), 0)], _options);
        Assert.Equal((1, 1), Share(rates.Landing));
        Assert.Equal((0, 0), Share(rates.Forecast));
    }

    [Fact]
    public void What_is_missing_is_counted_and_leaves_the_drop_undetermined()
    {
        var rates = ThreeRates.Of(
            [At(Drop("a", height: null), 0), At(Drop("b"), 0, "kite"), Made.Beyond(Drop("c"), 90),
                At(Drop("d") with { ActualExit = null }, 5)], _options);
        Assert.Equal((0.25, 1), Share(rates.Forecast));
        Assert.Equal(
            ["no flight figures for the canopy 'kite'", "no landing with a known place", "the exit height was not recorded",
                "the exit was not recorded"],
            rates.Missing.Select(m => m.Why).Order(StringComparer.Ordinal));
        Assert.All(rates.Missing, m => Assert.Equal(1, m.Drops));
    }

    /// <summary>A canopy whose class was not recorded may be the one with the longest reach.</summary>
    [Fact]
    public void An_unknown_canopy_takes_the_longest_reach()
    {
        Assert.Equal((1, 1), Share(ThreeRates.Of([At(Drop("a"), 5)], _options).Forecast));
        Assert.Equal((0, 1), Share(ThreeRates.Of([At(Drop("a"), 5, canopy: null)], _options).Forecast));
    }

    /// <summary>
    /// A jumper who landed 5 m from the spot and steered 60 m west had a forecast error of 65 m. The 95 % disc of a round error has 2.4477
    /// times its sd as radius (square root of −2 ln 0.05): sd 3 m gives 7.3 m.
    /// </summary>
    [Theory]
    [InlineData(60, 3, 30, 0, 0, 0, 0)] // 57.7 to 72.3 m: beyond the radius, and beyond the 50 m that radius and reach hold together
    [InlineData(60, 3, 40, 0, 0, 0, 1)] // together 60 m: the track's error leaves it open
    [InlineData(60, 3, 65, 0, 1, 1, 1)] // here it leaves the forecast open
    [InlineData(60, 3, 75, 1, 1, 1, 1)]
    [InlineData(20, 0.1, 30, 1, 1, 1, 1)]
    public void A_track_tells_the_forecast_error_give_or_take_its_own(double west, double sd, double radius, double least, double most,
        double recoverableLeast, double recoverableMost)
    {
        var landing = At(Drop("a", radius: radius), 5);
        var rates = ThreeRates.Of([landing], _options,
            l => l == landing ? new KnownSteering(new LocalVector(-west, 0), PlaneCovariance.Round(sd)) : null);
        Assert.Equal((least, most), Share(rates.Forecast));
        Assert.Equal((recoverableLeast, recoverableMost), Share(rates.Recoverable));
    }

    /// <summary>
    /// Tracks of a stick are averaged: 60 and 68 m with sd 3 m each are 64 m give or take 5.2; the jumper without one adds nothing.
    /// </summary>
    [Fact]
    public void Tracks_of_a_stick_are_averaged()
    {
        LocalVector[] flown = [new(-60, 0), new(-68, 0)];
        double Least(double radius) => Share(Rates(radius).Forecast).Least;
        ThreeRates Rates(double radius)
        {
            var drop = Drop("a", radius: radius);
            Landing[] stick = [At(drop, 0), At(drop, 0), At(drop, 100)];
            return ThreeRates.Of(stick, _options, l => ReferenceEquals(l, stick[2])
                ? null : new KnownSteering(flown[ReferenceEquals(l, stick[0]) ? 0 : 1], PlaneCovariance.Round(3)));
        }
        Assert.Equal(0, Least(69.1)); // 64 + 2.4477 x 3 / sqrt 2 = 69.19
        Assert.Equal(1, Least(69.3));
        Assert.Equal(0, Share(Rates(58.7).Forecast).Most); // 58.81
        Assert.Equal(1, Share(Rates(58.9).Forecast).Most);
    }

    [Fact]
    public void Landings_too_far_apart_for_one_drift_contradict_the_reach()
    {
        var drop = Drop("a");
        var rates = ThreeRates.Of([At(drop, 50), At(drop, -50)], _options);
        Assert.Equal((0, 1), Share(rates.Forecast));
        Assert.Equal([1, 1, 1, 1, 1, 1], rates.ByShareOfReach.Select(r => r.Contradicting));
        Assert.Equal("landings too far apart for one unsteered drift and this reach", Assert.Single(rates.Missing).Why);
    }

    /// <summary>
    /// Jumps made forward from a known forecast error and steering within the reach: the truth never lies outside the bounds.
    /// </summary>
    [Fact]
    public void The_bounds_hold_the_truth()
    {
        var random = new Random(11);
        var (landings, good, recoverable) = (new List<Landing>(), 0, 0);
        for (var m = 0; m < 400; m++)
        {
            var drop = Drop($"d{m}", height: 25, exit: new LocalVector(20 * random.NextDouble(), -300));
            var error = LocalVector.FromPolar(90 * random.NextDouble(), Bearing.FromDegrees(360 * random.NextDouble()));
            if (error.Length <= 30) good++;
            if (error.Length <= 55) recoverable++;
            for (var j = 0; j < 3; j++)
            {
                var steering = LocalVector.FromPolar(25 * Math.Sqrt(random.NextDouble()), Bearing.FromDegrees(360 * random.NextDouble()));
                landings.Add(Made.Landing(drop, drop.ActualExit!.Value - drop.PlannedExit + error + steering, 1) with { Canopy = "made" });
            }
        }
        var rates = ThreeRates.Of(landings, _options);
        var (forecast, could) = (Share(rates.Forecast), Share(rates.Recoverable));
        Assert.InRange(good / 400.0, forecast.Least, forecast.Most);
        Assert.InRange(recoverable / 400.0, could.Least, could.Most);
        Assert.True(forecast.Least > 0.05 && forecast.Most < 0.8, "the bounds tell something");
        Assert.Empty(rates.Missing);
    }

    [Fact]
    public void Without_landings_there_is_no_rate()
    {
        var rates = ThreeRates.Of([], _options);
        Assert.Equal("None of the three rates can be given: no landing.", rates.Reading);
        Assert.All(rates.Tables, t => Assert.Empty(t.Rows));
    }
}
