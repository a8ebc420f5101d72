using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Tests;

public sealed class MeanMissTests
{
    // Johnson and Wichern, Applied Multivariate Statistical Analysis, table 5.1 (sweat data), example 5.2: T² 9.74, critical
    // at 90 % 8.18. Digits: R 4.2.2.
    [Fact]
    public void Sweat_data_of_Johnson_and_Wichern()
    {
        double[][] rows =
        [
            [3.7, 48.5, 9.3], [5.7, 65.1, 8.0], [3.8, 47.2, 10.9], [3.2, 53.2, 12.0], [3.1, 55.5, 9.7], [4.6, 36.1, 7.9], [2.4, 24.8, 14.0],
            [7.2, 33.1, 7.6], [6.7, 47.4, 8.5], [5.4, 54.1, 11.3],
            [3.9, 36.9, 12.7], [4.5, 58.8, 12.3], [3.5, 27.8, 9.8], [4.5, 40.2, 8.4], [1.5, 13.5, 10.1], [8.5, 56.4, 7.1], [4.5, 71.6, 8.2],
            [6.5, 52.8, 10.9], [4.1, 44.1, 11.2], [5.5, 40.9, 9.4],
        ];
        var x = Matrix<double>.Build.DenseOfRowArrays(rows);
        var mean = x.ColumnSums() / 20;
        var centred = x - Matrix<double>.Build.DenseOfRowVectors(Enumerable.Repeat(mean, 20));
        var test = HotellingTest.Of(mean - Vector<double>.Build.Dense([4, 50, 10]),
            centred.TransposeThisAndMultiply(centred) / 19 / 20, 20);
        Close.Relative(9.73877285544, test.TSquared, 1e-10);
        Close.Relative(2.90454629022, test.F, 1e-10);
        Close.Relative(0.0649283353805, test.PValue, 1e-9);
        Close.Relative(8.17257253712, HotellingTest.Critical(3, 20, 0.9), 1e-8);
    }

    // The same book, example 5.3 (microwaves), from its rounded covariance; the book's 1.30 and 6.62 are from the
    // unrounded one. Digits: R 4.2.2.
    [Fact]
    public void Microwaves_of_Johnson_and_Wichern()
    {
        var errors = Matrix<double>.Build.DenseOfRowArrays([0.0144, 0.0117], [0.0117, 0.0146]) / 42;
        var test = HotellingTest.Of(Vector<double>.Build.Dense([0.564 - 0.562, 0.603 - 0.589]), errors, 42);
        Close.Relative(1.27437218814, test.TSquared, 1e-10);
        Close.Relative(6.6250403353, HotellingTest.Critical(2, 42, 0.95), 1e-9);
    }

    // 72 arrows (R package MSQC, archery1), each a mission of its own; T² of mean 0, p and the half axes of the 95 %
    // ellipse of the mean: R 4.2.2.
    [Fact]
    public void Arrows_as_single_landings_give_the_classical_test_and_ellipse()
    {
        (double X, double Y)[] arrows =
        [
            (24.14, -9.55), (28.55, 6.57), (3.97, 0.46), (28.57, 26.84), (-3.43, 8.57), (9.68, 16.33), (-5.95, 20.73), (17.32, 4.59),
            (-0.48, -7.72), (-18.42, -5.64), (17.6, 22.41),
            (15.35, 27.67), (-7.8, 8.1), (9.16, 11.9), (23.03, 10.49), (26.28, 36.09), (-11.11, 0.32), (13.24, 13.65), (-1.28, -0.84),
            (-6.96, 22.47), (3.85, 11.74), (1.56, 14.17),
            (-3.81, 6.21), (7.54, 7.89), (21.61, 21.65), (15.99, 3.22), (-13.23, -0.7), (8.16, 12.92), (7.21, 4.75), (12.31, 8.36),
            (4.64, 0.5), (6.23, -2.55), (0.31, 4.25), (24.35,
            11.33), (7.7, -6.36), (4.66, 26.49), (6.57, -8.07), (12.42, 19.56), (-9.13, -2.2), (10.13, -2.86), (6.62, 19.51), (4.16, 7.53),
            (-2.25, -5.03), (10.25, -16.6), (-6.98,
            -8.48), (-1.62, -13.87), (-0.46, -8.14), (1.92, -8.63), (13.02, -0.93), (11.06, 20.99), (17.68, 4.02), (-10.19, -14.7),
            (0.48, -7.31), (3.92, 10.3), (5.63, 10.19),
            (11.07, 9.47), (17.75, 9.64), (0.42, 8.33), (15.66, 3.56), (10.6, 12.34), (11.01, 4.43), (-2.05, -9.49), (10.01, 9.01),
            (8.78, 11.68), (-1.71, -6.98), (7.43, -8.53),
            (6.19, 10.63), (6.05, 7.68), (7.06, 13.98), (-1.99, 12.16), (25.33, 8.37), (12.71, -13.22)
        ];
        Assert.Equal(72, arrows.Length);
        var mean = MeanMiss.Of(PlaneSample.Of(arrows.Select(a => new PlaneVector(a.X, a.Y)))).Value!;
        Close.Relative(37.3754151178, mean.NoBias.TSquared, 1e-10);
        Close.Relative(18.4245004102, mean.NoBias.F, 1e-10);
        Close.Relative(3.72790739346e-07, mean.NoBias.PValue, 1e-9);
        Close.Relative(3.77577422484, mean.Ellipse.HalfLength, 1e-9);
        Close.Relative(2.51027241093, mean.Ellipse.HalfWidth, 1e-9);
        Assert.Equal(72, mean.EffectiveMissions, 1e-9);
    }

    /// <summary>Two sticks of two and two of one by hand: mean (20, 5)/6; sums of the missions' misses about it; M/(M−1) = 4/3.</summary>
    [Fact]
    public void Landings_of_a_mission_count_together()
    {
        var mean = MeanMiss.Of(PlaneSample.Of((PlaneReading[])
        [
            new("a", new(6, 0)), new("a", new(8, 2)), new("b", new(-2, 4)), new("b", new(0, 0)),
            new("c", new(10, -3)), new("d", new(-2, 2)),
        ])).Value!;
        Close.Relative(20 / 6.0, mean.Mean.Along, 1e-12);
        Close.Relative(5 / 6.0, mean.Mean.Across, 1e-12);
        var (m, r) = (20 / 6.0, 5 / 6.0);
        double[] first = [14 - 2 * m, -2 - 2 * m, 10 - m, -2 - m], second = [2 - 2 * r, 4 - 2 * r, -3 - r, 2 - r];
        Close.Relative(4 / 3.0 / 36 * first.Sum(x => x * x), mean.Errors.VarianceAlong, 1e-12);
        Close.Relative(4 / 3.0 / 36 * first.Zip(second, (a, b) => a * b).Sum(), mean.Errors.Covariance, 1e-12);
        Close.Relative(36 / 10.0, mean.EffectiveMissions, 1e-12);
        Close.Relative(m + StudentTail * Math.Sqrt(mean.Errors.VarianceAlong), mean.First.Range!.Value.High, 1e-10);
    }

    // qt(0.975, 3), R 4.2.2.
    private const double StudentTail = 3.182446305284263;

    /// <summary>
    /// A point is in the ellipse when its distance from the mean is within the radius there: the ends of the axes lie on the rim.
    /// </summary>
    [Fact]
    public void The_ellipse_is_where_the_test_turns()
    {
        var mean = MeanMiss.Of(PlaneSample.Of(
            MadeMisses.Draw(3, Enumerable.Range(0, 14).Select(i => 1 + i % 5), MadeMisses.Typical))).Value!;
        var (length, width, angle) = mean.Ellipse;
        foreach (var (half, turn) in new[] { (length, angle), (width, angle + Math.PI / 2) })
        {
            Assert.True(mean.Holds(At(0.999 * half, turn)));
            Assert.False(mean.Holds(At(1.001 * half, turn)));
        }

        PlaneVector At(double distance, double direction) =>
            new(mean.Mean.Along + distance * Math.Cos(direction), mean.Mean.Across + distance * Math.Sin(direction));
    }

    [Fact]
    public void So_many_missions_give_the_distance_and_one_fewer_does_not()
    {
        var n = MeanMiss.MissionsFor(400, 8, 0.95);
        Assert.True(MeanMiss.Quantile(n - 1, 0.95) * 20 / Math.Sqrt(n) <= 8);
        Assert.True(MeanMiss.Quantile(n - 2, 0.95) * 20 / Math.Sqrt(n - 1) > 8);
        Assert.Equal(27, n); // t of 26 is 2.0555, 2.0555 · 20 / √27 = 7.91; of 25, 2.0595 · 20 / √26 = 8.08
    }

    [Fact]
    public void Too_few_missions_or_misses_in_a_line_have_a_reason()
    {
        PlaneReading[] heavy = [.. Enumerable.Range(0, 40).Select(i => new PlaneReading("a", new(i, i % 7))), new("b", new(1, 3)),
            new("c", new(2, 2)), new("d", new(3, 9))];
        Assert.Equal("no landing with a known place", MeanMiss.Of(PlaneSample.Of(Array.Empty<PlaneReading>())).Reason);
        Assert.Equal("3 missions with a known place; a mean miss is given from 4 on",
            MeanMiss.Of(PlaneSample.Of((PlaneVector[])[new(1, 2), new(3, 1), new(0, 5)])).Reason);
        Assert.Contains("in one line", MeanMiss.Of(PlaneSample.Of((PlaneVector[])[new(1, 2), new(3, 6), new(-1, -2), new(0, 0)])).Reason,
            StringComparison.Ordinal);
        Assert.Contains("one mission holds", MeanMiss.Of(PlaneSample.Of(heavy)).Reason, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => MeanMiss.Of(PlaneSample.Of((PlaneVector[])[new(1, 2)]), 0));
    }
}
