namespace JumpAnalytics.Tests;

/// <summary>
/// How often the interval of a pooled rate holds the true one, over the cells of seasons whose missions and cells differ by normal effects:
/// four bands by three terrains, sticks of 1 to 7, three missions in ten with two passes, a spread of 0.8 between missions.
/// </summary>
public sealed class PooledCoverageTests
{
    /// <summary>
    /// 40 seasons of 12 cells; the share covered in one season has a standard deviation of about 0.07 (measured), their mean one of 0.011:
    /// for a true coverage of 0.94 or more, less than 0.89 is counted with a chance below 1e-5. The seed is fixed.
    /// </summary>
    [Fact]
    public void A_95_percent_interval_covers_at_least_89_in_a_few_seasons() =>
        Assert.InRange(Coverage(110, 0.3, 40, 9), 0.89, 1);

    /// <summary>
    /// By the same measure 200 seasons have a standard deviation of 0.005 and 400 one of 0.0035: for a true coverage of 0.94 or more, less
    /// than 0.92 is counted with a chance below 4e-5 at each of twelve settings. Laplace's approximation for both effects at once is tried
    /// with few missions, where it serves.
    /// </summary>
    [Theory]
    [Trait("Category", "Long")]
    [InlineData(40, 400, 15)]
    [InlineData(110, 400, 15)]
    [InlineData(330, 200, 15)]
    [InlineData(110, 400, 1)]
    public void A_95_percent_interval_covers_over_missions_and_spreads_between_cells(int missions, int seasons, int nodes)
    {
        foreach (var cellSd in new[] { 0, 0.3, 0.6 })
        {
            var coverage = Coverage(missions, cellSd, seasons, nodes);
            if (coverage is < 0.92 or > 0.985)
                Assert.Fail($"{missions} missions, {nodes} nodes, a spread of {cellSd} between cells: {coverage}");
        }
    }

    private static double Coverage(int missions, double cellSd, int seasons, int nodes)
    {
        var (covered, cells) = (0, 0);
        for (var s = 0; s < seasons; s++)
        {
            var (counts, levels) = PoolingData.Made(missions, 0.3, 7, 0.8, cellSd, 5000 + s);
            foreach (var cell in PoolingData.Fitted(counts, new() { Nodes = nodes }).Cells.Where(c => c.Landings > 0))
            {
                var truth = LogisticNormal.Mean(levels[(cell.WindBand, cell.Terrain)], 0.8).Success;
                if (cell.Rate.Value!.Range!.Value.Contains(truth)) covered++;
                cells++;
            }
        }
        return (double)covered / cells;
    }
}
