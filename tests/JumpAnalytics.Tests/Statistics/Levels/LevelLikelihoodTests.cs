using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Tests;

/// <summary>The likelihood from sums against the one from the whole covariance matrix of all landings.</summary>
public sealed class LevelLikelihoodTests
{
    private static readonly Matrix<double> _within = Matrix<double>.Build.DenseOfArray(new[,] { { 2.1, 0.7 }, { 0.7, 1.3 } });
    private static readonly Matrix<double> _between = Matrix<double>.Build.DenseOfArray(new[,] { { 3.2, -0.9 }, { -0.9, 0.8 } });
    private static readonly Matrix<double> _spotter = Matrix<double>.Build.DenseOfArray(new[,] { { 1.1, 0 }, { -0.6, 0.4 } });
    private static readonly Matrix<double> _line = Matrix<double>.Build.DenseOfArray(new[,] { { 0.9, 0 }, { -0.5, 0 } });

    public static TheoryData<int, string, bool> Designs => new()
    {
        { 1, "none", true }, { 1, "none", false }, { 2, "none", true }, { 2, "none", false }, { 2, "along", true }, { 2, "along", false },
        { 1, "nested", true }, { 1, "crossed", false }, { 2, "nested", true }, { 2, "nested", false }, { 2,
            "crossed", true }, { 2, "crossed", false },
        { 2, "crossed line", true }, { 2, "crossed line", false },
    };

    [Theory]
    [MemberData(nameof(Designs))]
    public void It_is_that_of_the_dense_normal_distribution(int axes, string design, bool restricted)
    {
        var data = Made(axes, design);
        var factor = Factor(axes, design);
        var (within, between) = (Part(_within, axes), Part(_between, axes));
        var sums = LevelSums.Of(data);
        var point = new LevelLikelihood(sums, restricted).At(within, between, factor)!;
        var slope = restricted && data.Along is not null ? 2 * axes * Math.Log(sums.Along.Scale) : 0;
        var dense = Dense(data, within, between, factor, restricted);
        Close.Relative(dense.Deviance, point.Deviance + slope, 1e-12, "deviance");
        Assert.Equal(restricted && data.Along is not null, slope != 0);
    }

    // A central difference of the deviance, with an error of some 1e-9 of the derivative.
    [Theory]
    [MemberData(nameof(Designs))]
    public void Its_derivatives_are_those_of_the_deviance(int axes, string design, bool restricted)
    {
        var likelihood = new LevelLikelihood(LevelSums.Of(Made(axes, design)), restricted);
        var factor = Factor(axes, design);
        var (within, between) = (Part(_within, axes), Part(_between, axes));
        var point = likelihood.At(within, between, factor)!;
        for (var a = 0; a < axes; a++)
        {
            for (var b = 0; b <= a; b++)
            {
                var step = Matrix<double>.Build.Dense(axes, axes);
                step[a, b] = step[b, a] = 1e-5;
                Check(point.Within, likelihood.At(within + step, between, factor)!,
                    likelihood.At(within - step, between, factor)!, step, "within");
                Check(point.Between, likelihood.At(within, between + step, factor)!,
                    likelihood.At(within, between - step, factor)!, step, "between");
                if (factor is null) continue;
                var turn = Matrix<double>.Build.Dense(axes, axes);
                turn[a, b] = 1e-5;
                Check(point.Coefficients.ByRater!, likelihood.At(within, between, factor + turn)!,
                    likelihood.At(within, between, factor - turn)!, turn * factor.Transpose() + factor * turn.Transpose(), "spotter");
            }
        }

        static void Check(Matrix<double> derivative, LevelPoint above, LevelPoint below, Matrix<double> step, string what) =>
            Close.Absolute((above.Deviance - below.Deviance) / 2e-5, (derivative * step).Trace() / 1e-5, 2e-7, what);
    }

    [Theory]
    [MemberData(nameof(Designs))]
    public void Coefficients_and_their_errors_are_those_of_generalised_least_squares(int axes, string design, bool restricted)
    {
        var data = Made(axes, design);
        var factor = Factor(axes, design);
        var (within, between) = (Part(_within, axes), Part(_between, axes));
        var sums = LevelSums.Of(data);
        var coefficients = new LevelLikelihood(sums, restricted).At(within, between, factor)!.Coefficients;
        var dense = Dense(data, within, between, factor, restricted);
        var width = axes * sums.Coefficients;
        for (var a = 0; a < axes; a++)
        {
            for (var k = 0; k < sums.Coefficients; k++)
            {
                var i = a * sums.Coefficients + k;
                // The mean of the sums is centred, and its slope for a unit of its own; spotters come first.
                if (k >= sums.Raters && data.Along is null)
                {
                    Close.Relative(dense.Mean[a], sums.Centre[a] + coefficients.Values[k, a], 1e-11, "mean");
                    Close.Relative(dense.MeanErrors[a, a], coefficients.Errors[i * width + i], 1e-11, "error of the mean");
                }
                else if (k >= sums.Raters + 1)
                {
                    Close.Relative(dense.Mean[axes + a], coefficients.Values[k, a] / sums.Along.Scale, 1e-10, "slope");
                    Close.Relative(dense.MeanErrors[axes + a, axes + a],
                        coefficients.Errors[i * width + i] / (sums.Along.Scale * sums.Along.Scale), 1e-10, "error of the slope");
                }
                else if (k < sums.Raters)
                {
                    Close.Absolute(dense.Effects![k * axes + a], coefficients.Values[k, a], 1e-11, "spotter");
                    Close.Relative(dense.EffectErrors![k * axes + a, k * axes + a], coefficients.Errors[i * width + i], 1e-10,
                        "error of the spotter");
                }
            }
        }
    }

    [Fact]
    public void It_has_no_value_where_the_covariances_can_not_be()
    {
        var likelihood = new LevelLikelihood(LevelSums.Of(Made(2, "none")), true);
        Assert.Null(likelihood.At(Matrix<double>.Build.Dense(2, 2, 1), _between, null));
        Assert.Null(likelihood.At(-_within, _between, null));
        Assert.Null(likelihood.At(_within, -10 * _between, null));
        Assert.NotNull(likelihood.At(_within, 0 * _between, null));
    }

    private static Matrix<double> Part(Matrix<double> matrix, int axes) => matrix.SubMatrix(0, axes, 0, axes);

    private static Matrix<double>? Factor(int axes, string design) =>
        design is "none" or "along" ? null : Part(design.EndsWith("line", StringComparison.Ordinal) ? _line : _spotter, axes);

    // 9 missions of 1 to 5 landings (and one without any), 3 spotters.
    private static LevelData Made(int axes, string design)
    {
        var random = SeedStream.For(5, "dense");
        int[] sizes = [3, 1, 5, 2, 2, 0, 4, 1, 3, 5];
        var mission = sizes.SelectMany((n, m) => Enumerable.Repeat(m, n)).ToArray();
        var order = Enumerable.Range(0, mission.Length).OrderBy(_ => random.NextDouble()).ToArray();
        mission = [.. order.Select(i => mission[i])];
        double[][] numbers =
            [.. Enumerable.Range(0, axes).Select(a => mission.Select(m => 40 * (a + 1) + m + 5 * random.NextDouble()).ToArray())];
        var spotter = design.StartsWith("nested", StringComparison.Ordinal) ? mission.Select(m => m % 3).ToArray()
            : design.StartsWith("crossed", StringComparison.Ordinal) ? [.. mission.Select((_, i) => (i * 7 + i / 4) % 3)] : null;
        return new LevelData(numbers, mission, sizes.Length, spotter, spotter is null ? 0 : 3,
            design == "along" ? [.. mission.Select(_ => 20 + 9 * random.NextDouble())] : null);
    }

    private sealed record DenseFit(double Deviance, Vector<double> Mean, Matrix<double> MeanErrors,
        Vector<double>? Effects, Matrix<double>? EffectErrors);

    // All landings stacked, axis fastest.
    private static DenseFit Dense(LevelData data, Matrix<double> within, Matrix<double> between, Matrix<double>? factor, bool restricted)
    {
        var (n, axes) = (data.Points, data.Axes.Length);
        var mission = new int[n];
        for (var m = 0; m < data.Start.Length - 1; m++)
        {
            foreach (var i in data.PointsOf(m)) mission[i] = m;
        }
        var spotter = factor is null ? null : factor * factor.Transpose();
        var v = Matrix<double>.Build.Dense(n * axes, n * axes, (r, c) =>
        {
            var (i, a, j, b) = (r / axes, r % axes, c / axes, c % axes);
            return (i == j ? within[a, b] : 0) + (mission[i] == mission[j] ? between[a, b] : 0)
                + (spotter is not null && data.Rater![i] == data.Rater[j] ? spotter[a, b] : 0);
        });
        var y = Vector<double>.Build.Dense(n * axes, r => data.Axes[r % axes][r / axes]);
        var x = Matrix<double>.Build.Dense(n * axes, data.Fixed * axes,
            (r, c) => r % axes == c % axes ? (c < axes ? 1 : data.Along![r / axes]) : 0);
        var inverse = v.Inverse();
        var information = x.Transpose() * inverse * x;
        var errors = information.Inverse();
        var mean = errors * (x.Transpose() * inverse * y);
        var left = y - x * mean;
        var deviance = v.Cholesky().DeterminantLn + left * inverse * left
            + (n - (restricted ? data.Fixed : 0)) * axes * Math.Log(2 * Math.PI)
            + (restricted ? information.Cholesky().DeterminantLn : 0);
        if (spotter is null) return new DenseFit(deviance, mean, errors, null, null);
        var z = Matrix<double>.Build.Dense(n * axes, data.Raters * axes,
            (r, c) => r % axes == c % axes && data.Rater![r / axes] == c / axes ? 1 : 0);
        var prior = Matrix<double>.Build.DenseIdentity(data.Raters).KroneckerProduct(spotter);
        var gain = prior * z.Transpose();
        var p = inverse - inverse * x * errors * x.Transpose() * inverse;
        return new DenseFit(deviance, mean, errors, gain * inverse * left, prior - gain * p * gain.Transpose());
    }
}
