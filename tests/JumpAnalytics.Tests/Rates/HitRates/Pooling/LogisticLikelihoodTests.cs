using System.Globalization;
namespace JumpAnalytics.Tests;

/// <summary>
/// The kernels that integrate mission and cell effects out of the likelihood; tests/reference/pooling/integrals.csv
/// is mpmath 1.2.1 at 40 digits.
/// </summary>
public sealed class LogisticLikelihoodTests
{
    private static readonly ClusterPatterns _patterns = ClusterPatterns.Of(
    [
        [new(0, 3, 4), new(2, 1, 5)], [new(0, 1, 1)], [new(1, 6, 6)], [new(1, 0, 3), new(0, 2, 2), new(2, 2, 7)], [new(2, 4, 8)],
        [new(1, 2, 5)], [new(0, 3, 4), new(2, 1, 5)],
    ], 3);

    private static readonly double[] _levels = [0.4, 1.1, -0.7];

    private static ILogisticLikelihood Kernel(int nodes) => nodes == 1 ? new JointLaplace(_patterns) : new NestedLaplace(_patterns, nodes);

    private static IEnumerable<(string What, string[] Arguments, double Value)> Values(string what) =>
        ReferenceFiles.Rows("pooling/integrals.csv").Where(r => r["what"].StartsWith(what, StringComparison.Ordinal))
            .Select(r => (r["what"], new[] { r["a"], r["b"] }, Number(r["value"])));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>Central differences of the value, spacing 1e-4: truncation of order 1e-8 times the third derivative.</summary>
    [Theory]
    [InlineData(1, 0)]
    [InlineData(1, 0.6)]
    [InlineData(3, 0)]
    [InlineData(9, 0)]
    [InlineData(25, 0.6)]
    [InlineData(40, 1.4)]
    public void The_slopes_are_those_of_the_value(int nodes, double cellSd)
    {
        const double Step = 1e-4, Tolerance = 1e-7;
        var kernel = Kernel(nodes);
        double Value(double[] levels, double missionSd, double sd) => kernel.At(levels, missionSd, sd).Value;
        var here = kernel.At(_levels, 0.8, cellSd);
        for (var c = 0; c < 3; c++)
        {
            double At(double step) => Value([.. _levels.Select((l, i) => i == c ? l + step : l)], 0.8, cellSd);
            Close.Absolute((At(Step) - At(-Step)) / (2 * Step), here.ByLevel[c], Tolerance, $"level {c}");
        }
        Close.Absolute((Value(_levels, 0.8 + Step, cellSd) - Value(_levels, 0.8 - Step, cellSd)) / (2 * Step),
            here.ByClusterSd, Tolerance, "sd between missions");
        if (cellSd > 0) Close.Absolute((Value(_levels, 0.8, cellSd + Step) - Value(_levels, 0.8, cellSd - Step)) / (2 * Step),
            here.ByCellSd, Tolerance, "sd between cells");
    }

    [Fact]
    public void One_node_is_Laplace()
    {
        var (one, laplace) = (new NestedLaplace(_patterns, 1).At(_levels, 0.8, 0), new JointLaplace(_patterns).At(_levels, 0.8, 0));
        Close.Relative(laplace.Value, one.Value, 1e-13);
        for (var c = 0; c < 3; c++) Close.Absolute(laplace.ByLevel[c], one.ByLevel[c], 1e-12);
        Close.Absolute(laplace.ByClusterSd, one.ByClusterSd, 1e-12);
    }

    [Fact]
    public void The_likelihood_with_mission_effects_integrated_out_agrees_with_mpmath()
    {
        var (_, _, expected) = Assert.Single(Values("missions"));
        Close.Relative(expected, new NestedLaplace(_patterns, 60).At(_levels, 0.8, 0).Value, 1e-14);
        Close.Relative(expected, new NestedLaplace(_patterns, 15).At(_levels, 0.8, 0).Value, 1e-9);
    }

    [Theory]
    [InlineData("0.8", "0.6")]
    [InlineData("1.5", "1.2")]
    public void Cell_effects_after_mission_effects_agree_with_mpmath(string missionSd, string cellSd)
    {
        var found = new NestedLaplace(_patterns, 60).At(_levels, Number(missionSd), Number(cellSd));
        var expected = Values("nested").Single(v => v.Arguments.SequenceEqual([missionSd, cellSd])).Value;
        Close.Relative(expected, found.Value, 1e-12);
        for (var c = 0; c < 3; c++)
            Close.Absolute(Values($"effect {c}").Single(v => v.Arguments.SequenceEqual([missionSd, cellSd])).Value,
                found.CellMode[c], 1e-11, $"effect {c}");
    }

    [Fact]
    public void Mean_chances_of_normal_log_odds_agree_with_mpmath()
    {
        var values = Values("mean").ToList();
        Assert.Equal(8, values.Count);
        foreach (var (_, arguments, expected) in values)
        {
            var (level, sd) = (Number(arguments[0]), Number(arguments[1]));
            Close.Relative(expected, LogisticNormal.Mean(level, sd).Success, 2e-14, $"level {level}, sd {sd}");
            Close.Relative(expected, LogisticNormal.Mean(-level, sd).Place, 2e-14, $"level {-level}, sd {sd}");
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(15)]
    [InlineData(25)]
    public void Nodes_and_weights_agree_with_mpmath(int count)
    {
        var rule = GaussHermite.Of(count);
        var rows = ReferenceFiles.Rows("pooling/integrals.csv").Where(r => r["what"] == $"node {count}").ToList();
        Assert.Equal(count, rows.Count);
        for (var k = 0; k < count; k++)
        {
            Close.Absolute(Number(rows[k]["b"]), rule.Nodes[k], 5e-15 * count, $"node {k}");
            Close.Absolute(Number(rows[k]["value"]), rule.LogWeights[k], 1e-13 * count, $"weight {k}");
        }
    }

    /// <summary>The mean of z^(2j) is 1·3·…·(2j − 1); a rule of n nodes is exact below degree 2n.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(100)]
    public void Moments_of_the_normal_are_exact(int count)
    {
        var rule = GaussHermite.Of(count);
        var moment = 1.0;
        for (var j = 0; j < Math.Min(count, 40); j++)
        {
            var sum = 0.0;
            for (var k = 0; k < count; k++) sum += Math.Exp(rule.LogWeights[k]) * Math.Pow(rule.Nodes[k], 2 * j);
            Close.Relative(moment, sum, 1e-12, $"degree {2 * j}");
            moment *= 2 * j + 1;
        }
    }
}
