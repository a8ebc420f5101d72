namespace JumpAnalytics.Tests;

/// <summary>Misses drawn from a two-level model that is known.</summary>
internal sealed record MadeMisses(DownwindVector Bias, PlaneCovariance Between, PlaneCovariance Within)
{
    public static MadeMisses Typical { get; } = new(new(6, -3), new(300, 200, -90), new(220, 160, 60));

    /// <summary>One reading a landing; missions are named m0, m1 and so on.</summary>
    public static IReadOnlyList<MissReading> Draw(int seed, IEnumerable<int> landings, MadeMisses truth)
    {
        var random = SeedStream.For(seed, "misses");
        var readings = new List<MissReading>();
        var mission = 0;
        foreach (var n in landings)
        {
            var shared = Normal(truth.Between);
            for (var j = 0; j < n; j++)
            {
                var own = Normal(truth.Within);
                readings.Add(new($"m{mission}", new(truth.Bias.Downwind + shared.Downwind + own.Downwind, truth.Bias.Right + shared.Right + own.Right)));
            }
            mission++;
        }
        return readings;

        DownwindVector Normal(PlaneCovariance c)
        {
            var l11 = Math.Sqrt(c.VarianceDownwind);
            var l21 = l11 > 0 ? c.Covariance / l11 : 0;
            var (u, v) = (MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1), MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1));
            return new(l11 * u, l21 * u + Math.Sqrt(Math.Max(0, c.VarianceRight - l21 * l21)) * v);
        }
    }

    /// <summary>Bias and covariances lie within some standard errors of the truth.</summary>
    public void AssertNear(TwoLevelModel model, double errors)
    {
        Close.Absolute(Bias.Downwind, model.Bias.Downwind, errors * Math.Sqrt(model.BiasErrors.VarianceDownwind), "bias downwind");
        Close.Absolute(Bias.Right, model.Bias.Right, errors * Math.Sqrt(model.BiasErrors.VarianceRight), "bias right");
        foreach (var (truth, level) in new[] { (Between, model.Between), (Within, model.Within) })
        {
            Close.Absolute(truth.VarianceDownwind, level.Value.VarianceDownwind, errors * level.StandardErrors!.VarianceDownwind, "downwind");
            Close.Absolute(truth.VarianceRight, level.Value.VarianceRight, errors * level.StandardErrors.VarianceRight, "right");
            Close.Absolute(truth.Covariance, level.Value.Covariance, errors * level.StandardErrors.Covariance, "covariance");
        }
    }
}
