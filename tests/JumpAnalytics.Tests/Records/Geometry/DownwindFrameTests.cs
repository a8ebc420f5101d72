using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class DownwindFrameTests
{
    private static readonly Gen<LocalVector> _vectors =
        Gen.Select(Gen.Double[-5000, 5000], Gen.Double[-5000, 5000], (east, north) => new LocalVector(east, north));

    /// <summary>
    /// Drift into each quadrant, 3-4-5 triangles worked by hand: 100 m farther along the drift is long, 100 m towards the hand
    /// that points right when one looks along the drift is right.
    /// </summary>
    [Theory]
    [InlineData(300, 400, 60, 80, 80, -60)] // to the north-east; right is south-east
    [InlineData(300, -400, 60, -80, -80, -60)] // to the south-east; right is south-west
    [InlineData(-300, -400, -60, -80, -80, 60)] // to the south-west; right is north-west
    [InlineData(-300, 400, -60, 80, 80, 60)] // to the north-west; right is north-east
    [InlineData(0, 250, 0, 100, 100, 0)] // to the north; right is east
    [InlineData(250, 0, 100, 0, 0, -100)] // to the east; right is south
    public void Long_is_along_the_drift_and_right_is_right_of_it(
        double driftEast, double driftNorth, double longEast, double longNorth, double rightEast, double rightNorth)
    {
        var frame = DownwindFrame.Along(new LocalVector(driftEast, driftNorth))!;
        AssertNear(new PlaneVector(100, 0), frame.ToDownwind(new LocalVector(longEast, longNorth)));
        AssertNear(new PlaneVector(0, 100), frame.ToDownwind(new LocalVector(rightEast, rightNorth)));
        AssertNear(new PlaneVector(-100, 0), frame.ToDownwind(new LocalVector(-longEast, -longNorth)));
        AssertNear(new PlaneVector(0, -100), frame.ToDownwind(new LocalVector(-rightEast, -rightNorth)));
    }

    [Fact]
    public void Lengths_distances_and_the_way_back_are_kept() =>
        Cases.Each(Gen.Select(_vectors, _vectors, _vectors), 2000, 11, t =>
        {
            var (drift, a, b) = t;
            if (DownwindFrame.Along(drift) is not { } frame)
            {
                Assert.Equal(0, drift.Length);
                return;
            }
            var (da, db) = (frame.ToDownwind(a), frame.ToDownwind(b));
            Close.Absolute(a.Length, da.Length, 1e-9);
            Close.Absolute((a - b).Length, double.Hypot(da.Along - db.Along, da.Across - db.Across), 1e-9);
            Close.Absolute(a, frame.ToLocal(da), 1e-9);
            AssertNear(new PlaneVector(drift.Length, 0), frame.ToDownwind(drift));
        });

    [Fact]
    public void A_drift_without_length_has_no_direction()
    {
        Assert.Null(DownwindFrame.Along(default));
        Assert.Null(DownwindFrame.Along(new LocalVector(double.NaN, 1)));
        Assert.Null(Made.Drop(forecastDrift: new LocalVector(0, 0)).Frame);
    }

    private static void AssertNear(PlaneVector expected, PlaneVector actual)
    {
        Close.Absolute(expected.Along, actual.Along, 1e-9, "downwind");
        Close.Absolute(expected.Across, actual.Across, 1e-9, "right");
    }
}
