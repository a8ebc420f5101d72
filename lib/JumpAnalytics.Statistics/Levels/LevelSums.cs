using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>Crossproducts of the columns that carry coefficients (raters, then the mean) and of the axes.</summary>
internal sealed record Crossproducts(Matrix<double> Design, Matrix<double> DesignAxes, Matrix<double> Axes)
{
    /// <summary>The axes turned and scaled: y becomes T y.</summary>
    public Crossproducts Turned(Matrix<double> t) => new(Design, DesignAxes * t.Transpose(), t * Axes * t.Transpose());
}

/// <summary>Clusters of one number of points.</summary>
/// <param name="Points">Points of each.</param>
/// <param name="Clusters">Number of such clusters.</param>
/// <param name="Between">Crossproducts of their means, times <paramref name="Points"/>.</param>
internal sealed record ClusterSize(int Points, int Clusters, Crossproducts Between);

/// <summary>
/// All that the likelihood of a two-level model needs of the points: crossproducts of the deviations from the cluster means, and for each
/// number of points that a cluster may have the crossproducts of such clusters' means. One pass over the points; the likelihood then
/// costs as much as there are different numbers, however many the points.
/// </summary>
internal sealed class LevelSums
{
    public required int Axes { get; init; }
    public required int Raters { get; init; }
    public required int Fixed { get; init; }
    public required int Points { get; init; }
    public required int Clusters { get; init; }
    public required Crossproducts Within { get; init; }
    public required IReadOnlyList<ClusterSize> Sizes { get; init; }

    /// <summary>The mean of each axis, taken off before the sums are made.</summary>
    public required double[] Centre { get; init; }

    /// <summary>What is taken off the numbers the mean runs along, and what they are divided by.</summary>
    public required (double Centre, double Scale) Along { get; init; }

    /// <summary>Mean of each cluster: slope column when there is one, then the axes, all centred.</summary>
    public required double[][] Means { get; init; }

    public int Coefficients => Raters + Fixed;

    /// <summary>Points per cluster that stand for an even design: (N − Σn²/N)/(M − 1).</summary>
    public double EvenPoints => (Points - Sizes.Sum(s => (double)s.Clusters * s.Points * s.Points) / Points) / (Clusters - 1);

    public LevelSums Turned(Matrix<double> t) => new()
    {
        Axes = Axes, Raters = Raters, Fixed = Fixed, Points = Points, Clusters = Clusters, Centre = Centre, Along = Along, Means = Means,
        Within = Within.Turned(t),
        Sizes = [.. Sizes.Select(s => s with { Between = s.Between.Turned(t) })],
    };

    public static LevelSums Of(LevelData data)
    {
        int raters = data.Raters, slopes = data.Fixed - 1, numbers = slopes + data.Axes.Length, size = raters + 1 + numbers;
        var (source, centre, scale) = Numbers(data);
        var within = new double[size * size];
        var between = new SortedDictionary<int, (int Clusters, double[] Sums)>();
        var means = new double[data.Start.Length - 1][];
        var counts = new double[raters];
        var (deviation, present) = (new double[numbers], new List<int>());
        for (var m = 0; m < means.Length; m++)
        {
            var mean = means[m] = new double[numbers];
            var points = data.PointsOf(m);
            if (points.Length == 0) continue;
            for (var c = 0; c < numbers; c++)
            {
                var total = 0.0;
                foreach (var i in points) total += (source[c][i] - centre[c]) / scale[c];
                mean[c] = total / points.Length;
            }
            present.Clear();
            foreach (var i in points)
            {
                for (var c = 0; c < numbers; c++) deviation[c] = (source[c][i] - centre[c]) / scale[c] - mean[c];
                for (var c = 0; c < numbers; c++)
                {
                    for (var d = 0; d <= c; d++) within[(raters + 1 + c) * size + raters + 1 + d] += deviation[c] * deviation[d];
                }
                if (data.Rater is not { } rater) continue;
                if (counts[rater[i]]++ == 0) present.Add(rater[i]);
                for (var c = 0; c < numbers; c++) within[(raters + 1 + c) * size + rater[i]] += deviation[c];
            }
            var (clusters, sums) = between.TryGetValue(points.Length, out var known) ? known : (0, new double[size * size]);
            between[points.Length] = (clusters + 1, sums);
            AddMeans(sums, mean, points.Length, raters, size);
            AddRaters(within, sums, mean, points.Length, counts, present, raters, size);
        }
        return new LevelSums
        {
            Axes = data.Axes.Length, Raters = raters, Fixed = data.Fixed, Points = data.Points, Clusters = data.Clusters,
            Within = Parted(within, raters + data.Fixed, data.Axes.Length),
            Sizes = [.. between.Select(b => new ClusterSize(b.Key, b.Value.Clusters,
                Parted(b.Value.Sums, raters + data.Fixed, data.Axes.Length)))],
            Centre = centre[slopes..], Along = slopes == 0 ? (0, 1) : (centre[0], scale[0]), Means = means,
        };
    }

    // Each column of numbers with its mean; the one that the mean runs along also with its spread, so that its
    // slope is of the axes' own size.
    private static (double[][] Source, double[] Centre, double[] Scale) Numbers(LevelData data)
    {
        double[][] source = data.Along is { } along ? [along, .. data.Axes] : data.Axes;
        var centre = source.Select(v => v.Average()).ToArray();
        centre = [.. source.Select((v, c) => centre[c] + v.Average(x => x - centre[c]))]; // a second pass for the digits of a far mean
        var scale = source.Select(_ => 1.0).ToArray();
        if (data.Along is not null) scale[0] = Math.Sqrt(source[0].Average(x => (x - centre[0]) * (x - centre[0])));
        return (source, centre, scale);
    }

    private static void AddMeans(double[] sums, double[] mean, int n, int raters, int size)
    {
        sums[raters * size + raters] += n;
        for (var c = 0; c < mean.Length; c++)
        {
            sums[(raters + 1 + c) * size + raters] += n * mean[c];
            for (var d = 0; d <= c; d++) sums[(raters + 1 + c) * size + raters + 1 + d] += n * mean[c] * mean[d];
        }
    }

    private static void AddRaters(double[] within, double[] sums, double[] mean, int n, double[] counts,
        List<int> present, int raters, int size)
    {
        foreach (var k in present)
        {
            within[k * size + k] += counts[k];
            foreach (var l in present)
            {
                if (l > k) continue;
                within[k * size + l] -= counts[k] * counts[l] / n;
                sums[k * size + l] += counts[k] * counts[l] / n;
            }
            sums[raters * size + k] += counts[k];
            for (var c = 0; c < mean.Length; c++) sums[(raters + 1 + c) * size + k] += counts[k] * mean[c];
        }
        foreach (var k in present) counts[k] = 0;
    }

    // The lower triangle as full blocks.
    private static Crossproducts Parted(double[] lower, int columns, int axes)
    {
        var size = columns + axes;
        var full = Matrix<double>.Build.Dense(size, size, (i, j) => i >= j ? lower[i * size + j] : lower[j * size + i]);
        return new(full.SubMatrix(0, columns, 0, columns), full.SubMatrix(0, columns, columns, axes),
            full.SubMatrix(columns, axes, columns, axes));
    }
}
