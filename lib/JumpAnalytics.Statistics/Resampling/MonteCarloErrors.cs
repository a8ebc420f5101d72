namespace JumpAnalytics.Statistics;

/// <summary>
/// Standard errors of the limits of a bootstrap interval that come from the number of its random resamples: another seed moves a limit
/// by so much. Zero where every resample was looked at.
/// </summary>
/// <param name="Low">Of the lower limit, in the unit of the figure.</param>
/// <param name="High">Of the upper limit.</param>
/// <param name="Warning">Where that matters: fewer than ten resamples beyond a limit, or more than 5 % of its distance from the
/// estimate; null where it does not.</param>
[TypeFormatterSource]
public sealed record MonteCarloErrors(double Low, double High, string? Warning);
