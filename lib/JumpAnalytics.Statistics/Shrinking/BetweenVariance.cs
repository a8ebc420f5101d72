namespace JumpAnalytics.Statistics;

/// <summary>How the variance between true effects is estimated from estimates of them whose own variances are known.</summary>
public enum BetweenVariance
{
    /// <summary>None: one effect for all, estimates weighted by their precision.</summary>
    None,

    /// <summary>From the expectation of Q, weights 1/v (DerSimonian and Laird 1986, Controlled Clinical Trials 7:177-188).</summary>
    DerSimonianLaird,

    /// <summary>
    /// Variance of the estimates less their mean own variance (Hedges and Olkin 1985, Statistical Methods for Meta-Analysis).
    /// </summary>
    Hedges,

    /// <summary>(Q − k)/Σ(1/v) (Hunter and Schmidt 1990; as written by Viechtbauer 2005).</summary>
    HunterSchmidt,

    /// <summary>
    /// Rescaled residual variance, always positive where estimates differ (Sidik and Jonkman 2005, Applied Statistics 54:367-384).
    /// </summary>
    SidikJonkman,

    /// <summary>Maximum likelihood under normal effects.</summary>
    MaximumLikelihood,

    /// <summary>
    /// Restricted maximum likelihood: the likelihood of the contrasts between estimates. Little biased (Viechtbauer 2005, Journal of
    /// Educational and Behavioral Statistics 30:261-293).
    /// </summary>
    RestrictedLikelihood,

    /// <summary>
    /// The variance at which Q equals its expectation k − 1 (Paule and Mandel 1982, Journal of Research of the NBS 87:377-385); the
    /// empirical Bayes estimate of Morris (1983).
    /// </summary>
    PauleMandel,
}
