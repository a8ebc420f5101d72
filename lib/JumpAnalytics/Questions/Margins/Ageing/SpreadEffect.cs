using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>What another quantity of the drop seems to do to the spread of the misses, age and wind allowed for.</summary>
/// <param name="Of">The quantity: <c>exit height</c>, or <c>difference of surface wind and drift wind</c>, a stand-in for shear.</param>
/// <param name="Per">The difference of the quantity told of, metres or metres per second.</param>
/// <param name="Missions">Missions that have it on record.</param>
/// <param name="Landings">Their landings.</param>
/// <param name="Effect">
/// Change of the standard deviation of the miss for that difference, 0.1 for ten per cent more; or why it can't be told.
/// </param>
/// <remarks>
/// One Newton step of the likelihood from no effect, base, growth and wind of the law adjusted along with it; standard error between
/// missions, t on missions − 1.
/// </remarks>
[TypeFormatterSource]
public sealed record SpreadEffect(string Of, double Per, int Missions, int Landings, Fit<Estimate> Effect)
{
    internal const string Height = "exit height", Shear = "difference of surface wind and drift wind";

    /// <summary>Metres of exit height, and metres per second of wind, that effects are told for.</summary>
    private const double HeightStep = 300, WindStep = 2;

    internal static IReadOnlyList<SpreadEffect> All(AgedLandings data, AgeLaw law, double confidence) =>
    [
        Told(Height, HeightStep, data, law, d => d.ExitHeight, confidence),
        Told(Shear, WindStep, data, law, d => d.SurfaceWindSpeed is { } surface ? Math.Abs(surface - d.WindSpeed) : null, confidence),
    ];

    private static SpreadEffect Told(string of, double per, AgedLandings data, AgeLaw law, Func<Drop, double?> quantity, double confidence)
    {
        var known = data.Landings.Index().Select(l => (At: l.Index, Value: quantity(l.Item.Drop)))
            .Where(l => l.Value is { } v && double.IsFinite(v)).Select(l => (l.At, Value: l.Value!.Value / per)).ToList();
        var missions = known.Select(l => data.Mission[l.At]).Distinct().Count();
        return new SpreadEffect(of, per, missions, known.Count, Fitted(known, missions, data, law, confidence));
    }

    private static Fit<Estimate> Fitted(List<(int At, double Value)> known, int missions, AgedLandings data, AgeLaw law, double confidence)
    {
        if (missions < ForecastAgeing.FewestMissions) return Fit<Estimate>.Refused(
            $"{Rounding.Count(missions, "mission")} have it on record; it needs {ForecastAgeing.FewestMissions}");
        var mean = known.Average(l => l.Value);
        if (known.All(l => Math.Abs(l.Value - mean) < 1e-9)) return Fit<Estimate>.Refused("it is the same in all landings");
        var k = 1 / data.Misses.DegreesOfFreedom;
        var free = new[] { true, law.Growth > 0, law.Wind > 0, true };
        var n = free.Count(f => f);
        var (information, scores) = (Matrix<double>.Build.Dense(n, n), new Dictionary<int, Vector<double>>());
        foreach (var (at, value) in known)
        {
            var power = Math.Pow(data.Age[at], law.Exponent);
            var squared = law.Base + law.Growth * power + law.Wind * data.WindSquared[at];
            var q = data.Squared[at] / squared;
            // Slopes of the logarithm of the squared spread.
            double[] all = [1 / squared, power / squared, data.WindSquared[at] / squared, value - mean];
            var x = Vector<double>.Build.Dense([.. all.Where((_, i) => free[i])]);
            if (!scores.TryGetValue(data.Mission[at], out var score)) scores.Add(data.Mission[at], score = Vector<double>.Build.Dense(n));
            score.Add(x * (0.5 * (1 + 2 * k) / (1 + k * q) * q - 1), score);
            information += x.OuterProduct(x) / (1 + 4 * k);
        }
        if (!(information.Evd(Symmetricity.Symmetric).EigenValues.Min(v => v.Real) > 1e-10 * information.Trace()))
            return Fit<Estimate>.Refused("it goes with age and wind so closely that they can't be told apart");
        var row = information.Inverse().Row(n - 1);
        var effect = scores.Values.Sum(row.DotProduct);
        var error = Math.Sqrt(scores.Values.Sum(s => row.DotProduct(s) * row.DotProduct(s)) * missions / (missions - 1.0));
        var half = QuantileOf.T(missions - 1, TailShare.Middle(confidence)) * error;
        return Fit<Estimate>.Made(Estimate.Of(effect, new Interval(effect - half, effect + half)).Select(b => Kernels.Expm1(b / 2)));
    }
}
