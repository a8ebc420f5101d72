using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>The likelihood of a model of points in the plane: densities of placed points, probabilities beyond for the others.</summary>
internal static class PlaneLikelihood
{
    /// <summary>The likelihood over coordinates of a model.</summary>
    /// <param name="sample">The points.</param>
    /// <param name="build">The model at some coordinates; null outside the parameter space.</param>
    /// <param name="slopes">Slope and curvature of the part of the placed points, where they have a closed form.</param>
    public static Likelihood<TModel> Of<TModel>(
        PlaneSample sample, Func<double[], TModel?> build, Func<double[], (double[] Gradient, Matrix<double> Curvature)>? slopes = null)
        where TModel : class, IPlaneModel
    {
        var distances = sample.Beyond.Distinct().ToArray(); // few values are written again and again
        var place = distances.Select((d, i) => (d, i)).ToDictionary(p => p.d, p => p.i);
        var which = sample.Beyond.Select(b => place[b]).ToArray();
        return new Likelihood<TModel>(
            sample.Points, sample.Clusters, build,
            (model, byCluster) => Placed(sample, model, byCluster) + Beyond(sample, distances, which, model, byCluster),
            slopes is null ? null : (x, _) => Both(x)) 
        {
            Nouns = sample.Nouns,
            Warnings = sample.Warnings,
        };

        (double[]?, Matrix<double>?) Both(double[] x)
        {
            var (gradient, curvature) = slopes(x);
            if (which.Length == 0) return (gradient, curvature);
            var (more, bend) = Climb.Slopes(Far, x, Far(x));
            return more is null || bend is null ? (null, null) : ([.. gradient.Zip(more, (g, m) => g + m)], curvature + bend);
        }

        double Far(double[] x) => build(x) is { } model ? Beyond(sample, distances, which, model, null) : double.NegativeInfinity;
    }

    private static double Placed<TModel>(PlaneSample sample, TModel model, double[]? byCluster) where TModel : IPlaneModel
    {
        var sum = 0.0;
        var points = sample.Places;
        var clusters = sample.ClusterOfPlaced;
        for (var i = 0; i < points.Length; i++)
        {
            var l = model.LogDensity(points[i])!.Value;
            sum += l;
            if (byCluster is not null) byCluster[clusters[i]] += l;
        }
        return sum;
    }

    private static double Beyond<TModel>(PlaneSample sample, double[] distances, int[] which, TModel model, double[]? byCluster)
        where TModel : IPlaneModel
    {
        var sum = 0.0;
        var each = Array.ConvertAll(distances, d => Math.Log(model.ProbabilityBeyond(d)));
        for (var i = 0; i < which.Length; i++)
        {
            sum += each[which[i]];
            if (byCluster is not null) byCluster[sample.ClusterOfBeyond[i]] += each[which[i]];
        }
        return sum;
    }
}
