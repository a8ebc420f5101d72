namespace JumpAnalytics;

/// <summary>
/// Ways to put an interval round a share of hits. The first five take every landing for a trial of its own and are right only where
/// landings do not share missions; the others let the missions tell how much landings have in common.
/// </summary>
public enum RateInterval
{
    /// <summary>Independent landings: the score interval of Wilson (1927, JASA 22:209-212).</summary>
    Wilson,

    /// <summary>
    /// Independent landings: the score interval with continuity correction (Newcombe 1998, Statistics in Medicine 17:857-872, method 4);
    /// wider than the confidence asks for, as <see cref="ClopperPearson"/> is.
    /// </summary>
    WilsonCorrected,

    /// <summary>
    /// Independent landings: the exact interval of Clopper and Pearson (1934, Biometrika 26:404-413); never covers less than
    /// its confidence, mostly more.
    /// </summary>
    ClopperPearson,

    /// <summary>
    /// Independent landings: equal tails of the posterior under Jeffreys' prior, with the lower limit 0 at no hit and the upper limit 1 at
    /// no miss (Brown, Cai and DasGupta 2001, Statistical Science 16:101-133).
    /// </summary>
    Jeffreys,

    /// <summary>
    /// Independent landings: exact tails that count half of the observed outcome (mid-P; Lancaster 1961, JASA
    /// 56:223-234; Newcombe 1998, method 6).
    /// </summary>
    MidP,

    /// <summary>
    /// Missions: Wilson's interval on the effective number of landings, with t on Satterthwaite's degrees of freedom; what
    /// <see cref="ClusteredProportion"/> gives.
    /// </summary>
    EffectiveWilson,

    /// <summary>
    /// Missions: Clopper-Pearson on the effective number of landings, made smaller by the squared ratio of the t quantiles on landings − 1
    /// and missions − 1 degrees of freedom (Korn and Graubard 1998, Survey Methodology 24:193-201).
    /// </summary>
    KornGraubard,

    /// <summary>
    /// Missions: between-mission standard error on the scale of log odds, with t on missions − 1 degrees of freedom (Korn and Graubard
    /// 1999, Analysis of Health Surveys, section 3.2). None at a share of 0 or 1.
    /// </summary>
    EffectiveLogit,

    /// <summary>Missions: profile likelihood of the mean of a beta-binomial distribution; see <see cref="BetaBinomialRate"/>.</summary>
    BetaBinomial,

    /// <summary>
    /// Missions: resampling whole missions, percentiles widened for few missions (Hesterberg 2015, The American Statistician
    /// 69:371-386). None at a share of 0 or 1.
    /// </summary>
    MissionResampling,
}
