namespace JumpAnalytics.Tests;

/// <summary>The circle of ground velocities: exact without noise, honest with it, refused where there is none.</summary>
public sealed class VelocityCircleTests
{
    private static (List<WindVector> Velocities, List<double> Heights) Made(WindVector wind, WindVector shear, double speed,
        double fromDegrees, double toDegrees, int n, double noise, int seed = 1)
    {
        var random = SeedStream.For(seed, "circle");
        var (velocities, heights) = (new List<WindVector>(), new List<double>());
        for (var i = 0; i < n; i++)
        {
            var ((a, b), height) = (StandardNormal.Pair(random), 400.0 - 300.0 * i / (n - 1));
            var (sin, cos) = Math.SinCos(double.DegreesToRadians(fromDegrees + (toDegrees - fromDegrees) * i / (n - 1)));
            velocities.Add(wind + (height - 250) * shear + new WindVector(speed * sin + noise * a, speed * cos + noise * b));
            heights.Add(height);
        }
        return (velocities, heights);
    }

    [Theory]
    [InlineData(0, 360)]
    [InlineData(20, 110)] // a quarter of a circle is enough where there is no noise
    public void Without_noise_it_is_exact(double from, double to)
    {
        var (velocities, heights) = Made(new WindVector(5, -3), default, 4, from, to, 30, 0);
        var circle = VelocityCircle.Of(velocities, heights, withShear: false).Value!;
        Close.Absolute(new LocalVector(5, -3), circle.Wind.Over(1), 1e-7);
        Close.Absolute(4, circle.ForwardSpeed, 1e-7);
        Close.Absolute(0, circle.Scatter, 1e-7);
    }

    [Fact]
    public void A_wind_that_changes_with_height_is_told_with_its_change()
    {
        var (velocities, heights) = Made(new WindVector(5, -3), new WindVector(0.01, 0.004), 9, 0, 1500, 60, 0);
        var circle = VelocityCircle.Of(velocities, heights, withShear: true).Value!;
        Close.Absolute(new LocalVector(0.01, 0.004), circle.Shear.Over(1), 1e-8);
        Close.Absolute(new LocalVector(6.5, -2.4), circle.At(400).Over(1), 1e-6);
    }

    /// <summary>
    /// Of 400 circles with independent noise, 90 % regions hold the wind in 90 %: between 340 and 378 but for a chance below 1 in 1,000.
    /// </summary>
    [Theory]
    [InlineData(720, 4)]
    [InlineData(200, 9)]
    public void Its_errors_are_those_of_least_squares(double degrees, double speed)
    {
        var (inside, speeds) = (0, new List<double>());
        for (var seed = 1; seed <= 400; seed++)
        {
            var (velocities, heights) = Made(new WindVector(2, 2), default, speed, 0, degrees, 60, 0.8, seed);
            var circle = VelocityCircle.Of(velocities, heights, withShear: false).Value!;
            var (e, n, c) = (circle.Wind.East - 2, circle.Wind.North - 2, circle.Error);
            if (c.SquaredLength(e, n) < 4.605) inside++;
            speeds.Add(circle.ForwardSpeed);
        }
        Assert.InRange(inside, 340, 378);
        Close.Absolute(speed, speeds.Average(), 0.05); // the noise's share of the radius is taken off
    }

    [Fact]
    public void A_straight_flight_has_no_circle_or_one_nobody_would_trust()
    {
        var (velocities, heights) = Made(new WindVector(2, 2), default, 9, 40, 40, 60, 0.5);
        var fit = VelocityCircle.Of(velocities, heights, withShear: false);
        // a cloud of noise has a small circle of its own.
        Assert.True(!fit.Success || fit.Value.Error.AxisSds.Longest > 0.2 || fit.Value.ForwardSpeed < 2);
        Assert.False(VelocityCircle.Of([.. Enumerable.Range(0, 20).Select(i => new WindVector(i, 2 * i))],
            [.. Enumerable.Range(0, 20).Select(i => (double)i)], false).Success);
        Assert.Contains("too few", VelocityCircle.Of(velocities[..4], heights[..4], false).Reason, StringComparison.Ordinal);
    }
}
