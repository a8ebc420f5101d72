using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests.Monitoring;

/// <summary>Scores of missions against a reference, by what the definition makes of the farthest and the nearest landing.</summary>
public sealed class MissReferenceTests
{
    private static readonly IReadOnlyList<Landing> _landings = new MadeMissions(SeedStream.For(12, "scores")).Missions(60);
    private static readonly MissReference _reference = MissReference.Of(_landings, new AccuracyOptions().Bands, 20).Value!;

    private static Landing At(double distance, double bearing = 0.3) =>
        Tests.Made.Landing(Tests.Made.Drop("x", "x", windSpeed: 3), distance * Math.Sin(bearing), distance * Math.Cos(bearing));

    private static Landing[] Of(int count, double distance) => [.. Enumerable.Repeat(At(distance), count)];

    private static double Score(params Landing[] mission) => _reference.Distance(mission)!.Value.Score;

    /// <summary>
    /// The farthest of N landings has the normal score of 1 − ½/N, the nearest that of ½/N, the middle of the two 0. A mission of n alike
    /// ones is divided by the root of between + within/n, so that its squared inverse is a straight line in 1/n.
    /// </summary>
    [Fact]
    public void Distances_have_normal_scores_over_the_spread_of_missions()
    {
        var (far, near) = (1e5, 0.0);
        double[] inverse = [.. new[] { 1, 2, 4 }.Select(n => Math.Pow(Score(Of(n, far)) - Score(Of(n, near)), -2))];
        Close.Relative(inverse[0] - inverse[1], 2 * (inverse[1] - inverse[2]), 1e-9);
        Assert.True(inverse[0] > inverse[1]);
        Close.Relative(Score(Of(1, far)[0], Of(1, near)[0]), (Score(Of(2, far)) + Score(Of(2, near))) / 2, 1e-9);

        // Beyond the farthest: the mean of all normal scores above.
        var edge = 0.5 / _landings.Count;
        var z = Normal.InvCDF(0, 1, 1 - edge);
        var beyond = Score(Tests.Made.Beyond(At(1).Drop, far));
        var scale = Score(Of(1, far)) - Score(Of(1, near));
        Close.Relative((Normal.PDF(0, 1, z) / edge - z) / (2 * z), (beyond - Score(Of(1, far))) / scale, 1e-7);
        Assert.Equal(3, _reference.Distance([At(1), At(2), Tests.Made.Beyond(At(1).Drop, 9)])!.Value.Landings);
        Assert.Null(_reference.Distance([]));
    }

    /// <summary>Logarithms of distances of one cell differ by the logarithm of their ratio; below a metre all are a metre.</summary>
    [Fact]
    public void Logarithms_of_distances_are_over_the_usual_one()
    {
        double Log(double distance) => _reference.LogDistance(At(distance))!.Value;
        Close.Relative(Math.Log(2), Log(20) - Log(10), 1e-12);
        Close.Absolute(Log(1), Log(0), 1e-12);
        Close.Absolute(Math.Log(1.5), Log(1.5) - Log(0.2), 1e-12);
        Close.Absolute(Log(1e6), _reference.LogDistance(Tests.Made.Beyond(At(1).Drop, 1e6))!.Value, 1e-12);
        Assert.True(_reference.LogDistance(Tests.Made.Beyond(At(1).Drop, 30))!.Value > Log(30));

        // The mean over the reference's own missions is nothing.
        Close.Absolute(0, _landings.GroupBy(l => l.Drop.Mission).Average(m => m.Average(l => _reference.LogDistance(l)!.Value)), 1e-12);
    }

    /// <summary>
    /// Vectors: opposite far landings score the same way off the centre, a mission of n alike ones grows towards the root of n without a
    /// shared part, and the scores of the reference's own missions have mean 0 and variance near 1 on both axes.
    /// </summary>
    [Fact]
    public void Mean_misses_have_two_independent_scores()
    {
        var scores = _landings.GroupBy(l => l.Drop.Mission).Select(m => _reference.Plane(m)!.Value.Score).ToList();
        Assert.Equal(60, scores.Count);
        foreach (var axis in new Func<PlaneVector, double>[] { s => s.Along, s => s.Across })
        {
            var mean = scores.Average(axis);
            Assert.InRange(mean, -0.3, 0.3);
            Assert.InRange(scores.Average(s => Math.Pow(axis(s) - mean, 2)), 0.6, 1.5);
        }
        var cross = scores.Average(s => s.Along * s.Across);
        Assert.InRange(cross, -0.35, 0.35);
        PlaneVector Plane(int n) => _reference.Plane(Of(n, 1e5))!.Value.Score;
        Assert.True(Plane(4).Length > Plane(1).Length && Plane(4).Along > 0 && Plane(4).Across > 0);
        Assert.Equal(2, _reference.Plane([At(1), At(2), Tests.Made.Beyond(At(1).Drop, 9)])!.Value.Landings);
        Assert.Null(_reference.Plane([Tests.Made.Beyond(At(1).Drop, 9)]));
        Assert.Equal((60, _landings.Count), (_reference.Missions, _reference.Landings));
    }

    /// <summary>A stronger band has misses half as large again: its typical distance is that much larger, drawn a little to none.</summary>
    [Fact]
    public void A_distance_is_over_the_typical_one_of_its_cell()
    {
        var many = MissReference.Of(new MadeMissions(SeedStream.For(13, "cells")).Missions(2000), new AccuracyOptions().Bands, 20).Value!;
        var strong = At(20) with { Drop = Tests.Made.Drop("y", "y", windSpeed: 6) };
        Assert.InRange(Math.Exp(many.LogDistance(At(20))!.Value - many.LogDistance(strong)!.Value), 1.4, 1.6);
        var elsewhere = At(20) with { Drop = Tests.Made.Drop("z", "z", windSpeed: 6, terrain: "never seen") };
        Assert.InRange(many.LogDistance(elsewhere)!.Value, many.LogDistance(strong)!.Value, many.LogDistance(At(20))!.Value);
    }
}
