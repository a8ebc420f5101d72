using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class BearingTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(360, 0)]
    [InlineData(-360, 0)]
    [InlineData(370, 10)]
    [InlineData(-10, 350)]
    [InlineData(-730, 350)]
    [InlineData(359.5, 359.5)]
    [InlineData(-1e-15, 0)] // rounds to a full turn
    public void Degrees_come_into_one_turn(double degrees, double expected) =>
        Assert.Equal(expected, Bearing.FromDegrees(degrees).Degrees);

    [Fact]
    public void Any_finite_angle_lies_in_one_turn_and_keeps_its_direction() =>
        Cases.Each(Gen.Double[-1e4, 1e4], 2000, 12, degrees =>
        {
            var bearing = Bearing.FromDegrees(degrees);
            Assert.InRange(bearing.Degrees, 0, Math.BitDecrement(360));
            Close.Absolute(Math.Sin(double.DegreesToRadians(degrees)), Math.Sin(bearing.Radians), 1e-10);
            Close.Absolute(Math.Cos(double.DegreesToRadians(degrees)), Math.Cos(bearing.Radians), 1e-10);
            var turn = Math.Abs(bearing.Degrees - bearing.Reversed.Reversed.Degrees);
            Assert.True(Math.Min(turn, 360 - turn) < 1e-12, $"{turn}");
            Close.Absolute(180, Math.Abs(bearing.Degrees - bearing.Reversed.Degrees), 1e-12);
        });

    [Theory]
    [InlineData(0, 0, 100)]
    [InlineData(90, 100, 0)]
    [InlineData(180, 0, -100)]
    [InlineData(270, -100, 0)]
    public void Polar_displacements_point_to_the_bearing(double degrees, double east, double north) =>
        Close.Absolute(new LocalVector(east, north), LocalVector.FromPolar(100, Bearing.FromDegrees(degrees)), 1e-12);

    [Fact]
    public void A_displacement_points_where_it_was_pointed() =>
        Cases.Each(Gen.Select(Gen.Double[0.1, 1e5], Gen.Double[0, 359.999]), 1000, 13, t =>
        {
            var v = LocalVector.FromPolar(t.Item1, Bearing.FromDegrees(t.Item2));
            Close.Relative(t.Item1, v.Length, 1e-12);
            var turn = Math.Abs(v.Direction!.Value.Degrees - t.Item2);
            Assert.True(Math.Min(turn, 360 - turn) < 1e-9, $"{turn}");
        });

    [Fact]
    public void No_length_no_direction() => Assert.Null(default(LocalVector).Direction);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void A_bearing_that_is_no_number_is_refused(double degrees) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Bearing.FromDegrees(degrees));
}
