using CsCheck;

namespace JumpAnalytics.Tests;

public sealed class DiscOverlapTests
{
    [Fact]
    public void One_disc_reaches_from_its_near_to_its_far_rim()
    {
        Assert.Equal(new Interval(20, 80), DiscOverlap.Distances([(new LocalVector(50, 0), 30)]));
        Assert.Equal(new Interval(0, 80), DiscOverlap.Distances([(new LocalVector(0, -30), 50)]));
        Assert.Equal(new Interval(0, 7), DiscOverlap.Distances([(default, 7)]));
    }

    [Fact]
    public void Discs_apart_have_nothing_in_common() =>
        Assert.Null(DiscOverlap.Distances([(new LocalVector(0, 0), 10), (new LocalVector(30, 0), 10)]));

    /// <summary>Two discs of radius 5 about (±3, 0) share a lens with corners (0, ±4).</summary>
    [Fact]
    public void A_lens_ends_at_its_corners()
    {
        var range = DiscOverlap.Distances([(new LocalVector(3, 0), 5), (new LocalVector(-3, 0), 5)])!.Value;
        Assert.Equal(0, range.Low);
        Assert.Equal(4, range.High, 12);
    }

    /// <summary>A dense grid of points inside all discs never lies outside the range, and comes near both ends of it.</summary>
    [Fact]
    public void The_range_is_that_of_the_points_in_common()
    {
        var gen = Gen.Select(Gen.Double[-40, 40], Gen.Double[-40, 40], Gen.Double[5, 60]).Array[1, 5];
        var shared = 0;
        Cases.Each(gen, 100, 7, made =>
        {
            (LocalVector, double)[] discs = [.. made.Select(d => (new LocalVector(d.Item1, d.Item2), d.Item3))];
            var range = DiscOverlap.Distances(discs);
            var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
            for (var x = -100.0; x <= 100; x += 1)
            {
                for (var y = -100.0; y <= 100; y += 1)
                {
                    var p = new LocalVector(x, y);
                    if (discs.Any(d => (p - d.Item1).Length > d.Item2)) continue;
                    (least, most) = (Math.Min(least, p.Length), Math.Max(most, p.Length));
                }
            }
            if (most < 0) return; // nothing, or a sliver between the points of the grid
            shared++;
            Assert.NotNull(range);
            Assert.InRange(least, range.Value.Low - 1e-9, range.Value.Low + 8);
            Assert.InRange(most, range.Value.High - 8, range.Value.High + 1e-9);
        });
        Assert.True(shared > 40);
    }
}
