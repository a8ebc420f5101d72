namespace JumpAnalytics.Statistics;

/// <summary>Which likelihood the parts of the variance are estimated by.</summary>
public enum LikelihoodKind
{
    /// <summary>
    /// Restricted likelihood (REML): that of the points' differences. It allows for the bias being estimated too; the one to use.
    /// </summary>
    Restricted,

    /// <summary>
    /// Full likelihood (ML): parts of the variance come out somewhat small, but models of different bias can be compared by it.
    /// </summary>
    Full,
}
