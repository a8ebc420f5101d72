namespace JumpAnalytics.Tests;

/// <summary>Misses drawn from a two-level model that is known.</summary>
internal sealed record MadeMisses(PlaneVector Bias, PlaneCovariance Between, PlaneCovariance Within)
{
    public static MadeMisses Typical { get; } = new(new(6, -3), new(300, 200, -90), new(220, 160, 60));

    /// <summary>One reading a landing; missions are named m0, m1 and so on.</summary>
    public static IReadOnlyList<PlaneReading> Draw(int seed, IEnumerable<int> landings, MadeMisses truth)
    {
        var random = SeedStream.For(seed, "misses");
        var readings = new List<PlaneReading>();
        var mission = 0;
        foreach (var n in landings)
        {
            var shared = Normal(truth.Between);
            for (var j = 0; j < n; j++)
            {
                var own = Normal(truth.Within);
                readings.Add(new($"m{mission}",
                    new(truth.Bias.Along + shared.Along + own.Along, truth.Bias.Across + shared.Across + own.Across)));
            }
            mission++;
        }
        return readings;

        PlaneVector Normal(PlaneCovariance c)
        {
            var l11 = Math.Sqrt(c.VarianceAlong);
            var l21 = l11 > 0 ? c.Covariance / l11 : 0;
            var (u, v) =
                (MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1), MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1));
            return new(l11 * u, l21 * u + Math.Sqrt(Math.Max(0, c.VarianceAcross - l21 * l21)) * v);
        }
    }

    /// <summary>Bias and covariances lie within some standard errors of the truth.</summary>
    public void AssertNear(TwoLevelModel model, double errors)
    {
        Close.Absolute(Bias.Along, model.Bias.Along, errors * Math.Sqrt(model.BiasErrors.VarianceAlong), "bias downwind");
        Close.Absolute(Bias.Across, model.Bias.Across, errors * Math.Sqrt(model.BiasErrors.VarianceAcross), "bias right");
        foreach (var (truth, level) in new[] { (Between, model.Between), (Within, model.Within) })
        {
            Close.Absolute(truth.VarianceAlong, level.Value.VarianceAlong, errors * level.StandardErrors!.VarianceAlong, "downwind");
            Close.Absolute(truth.VarianceAcross, level.Value.VarianceAcross, errors * level.StandardErrors.VarianceAcross, "right");
            Close.Absolute(truth.Covariance, level.Value.Covariance, errors * level.StandardErrors.Covariance, "covariance");
        }
    }
}
