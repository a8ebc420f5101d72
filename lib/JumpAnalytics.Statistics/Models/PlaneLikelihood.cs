using JumpAnalytics.Internals;
using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>The likelihood of a model of misses in the plane: densities of placed landings, probabilities beyond for the others.</summary>
internal static class MissLikelihood
{
    /// <summary>The likelihood over coordinates of a model.</summary>
    /// <param name="sample">The misses.</param>
    /// <param name="build">The model at some coordinates; null outside the parameter space.</param>
    /// <param name="slopes">Slope and curvature of the part of the placed landings, where they have a closed form.</param>
    public static Likelihood<TModel> Of<TModel>(
        MissSample sample, Func<double[], TModel?> build, Func<double[], (double[] Gradient, Matrix<double> Curvature)>? slopes = null) where TModel : class, IMissModel
    {
        var distances = sample.Beyond.Distinct().ToArray(); // few values are written again and again
        var place = distances.Select((d, i) => (d, i)).ToDictionary(p => p.d, p => p.i);
        var which = sample.Beyond.Select(b => place[b]).ToArray();
        return new Likelihood<TModel>(
            sample.Landings, sample.Missions, build, (model, byMission) => Placed(sample, model, byMission) + Beyond(sample, distances, which, model, byMission),
            slopes is null ? null : (x, _) => Both(x));

        (double[]?, Matrix<double>?) Both(double[] x)
        {
            var (gradient, curvature) = slopes(x);
            if (which.Length == 0) return (gradient, curvature);
            var (more, bend) = Climb.Slopes(Far, x, Far(x));
            return more is null || bend is null ? (null, null) : ([.. gradient.Zip(more, (g, m) => g + m)], curvature + bend);
        }

        double Far(double[] x) => build(x) is { } model ? Beyond(sample, distances, which, model, null) : double.NegativeInfinity;
    }

    private static double Placed<TModel>(MissSample sample, TModel model, double[]? byMission) where TModel : IMissModel
    {
        var sum = 0.0;
        var misses = sample.Misses;
        var missions = sample.MissionOfPlaced;
        for (var i = 0; i < misses.Length; i++)
        {
            var l = model.LogDensity(misses[i])!.Value;
            sum += l;
            if (byMission is not null) byMission[missions[i]] += l;
        }
        return sum;
    }

    private static double Beyond<TModel>(MissSample sample, double[] distances, int[] which, TModel model, double[]? byMission) where TModel : IMissModel
    {
        var sum = 0.0;
        var each = Array.ConvertAll(distances, d => Math.Log(model.ProbabilityBeyond(d)));
        for (var i = 0; i < which.Length; i++)
        {
            sum += each[which[i]];
            if (byMission is not null) byMission[sample.MissionOfBeyond[i]] += each[which[i]];
        }
        return sum;
    }
}
