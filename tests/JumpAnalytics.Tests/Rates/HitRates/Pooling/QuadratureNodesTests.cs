namespace JumpAnalytics.Tests;

/// <summary>
/// A wide spread between missions needs more nodes than the usual fifteen; they are doubled, or a warning says what is off.
/// </summary>
public sealed class QuadratureNodesTests
{
    // A spread of 4 with large sticks: fifteen nodes were 0.03 off in the log-likelihood.
    private static IReadOnlyList<PooledCount> Wide { get; } = PoolingData.Made(60, 0, 60, 4, 0, 5).Counts;

    private static readonly PoolingOptions _plain = new() { CellEffect = false };

    [Fact]
    public void Nodes_are_doubled_until_they_settle()
    {
        var (usual, many) = (PoolingData.Fitted(Wide, _plain), PoolingData.Fitted(Wide, _plain with { Nodes = 100 }));
        Assert.InRange(many.BetweenMissions.Sd, 3, 5);
        Close.Absolute(many.LogLikelihood, usual.LogLikelihood, 2e-3);
        Close.Relative(many.BetweenMissions.Sd, usual.BetweenMissions.Sd, 1e-3);
        Assert.DoesNotContain(usual.Warnings, w => w.Contains("quadrature", StringComparison.Ordinal));
    }

    [Fact]
    public void What_was_asked_for_and_does_not_do_is_warned_of()
    {
        var laplace = PoolingData.Fitted(Wide, _plain with { Nodes = 1 });
        Assert.Contains(laplace.Warnings, w => w.StartsWith("with 1 node of quadrature the log-likelihood is ",
            StringComparison.Ordinal));
        Assert.DoesNotContain(PoolingData.Fitted(PoolingData.Invented, _plain).Warnings, w => w.Contains("quadrature",
            StringComparison.Ordinal));
    }
}
