namespace JumpAnalytics.Statistics;

/// <summary>A test of whether a distribution fits: what was measured, and how often chance alone would measure as much or more.</summary>
/// <param name="Name">What the test is called, for instance <c>Anderson-Darling</c>.</param>
/// <param name="Statistic">Its statistic; the larger, the worse the fit, unless the test says otherwise.</param>
/// <param name="PValue">
/// Probability, 0 to 1, of a statistic at least as bad when the distribution does fit. A small one speaks against the fit; a
/// large one is no proof of it.
/// </param>
/// <param name="Points">Number of points tested, taken as independent of each other.</param>
/// <param name="Method">How the p-value was got, in words: formula or resampling, what was drawn and with which seed.</param>
/// <param name="Bootstrap">The parametric bootstrap behind the p-value; null for a formula.</param>
[TypeFormatterSource]
public sealed record FitTest(string Name, double Statistic, double PValue, int Points, string Method, BootstrapRun? Bootstrap = null);

/// <summary>A parametric bootstrap: samples drawn from the fitted distribution, each fitted and measured anew.</summary>
/// <param name="Replicates">Samples drawn.</param>
/// <param name="Refused">Those of them that could not be fitted; they are left out.</param>
/// <param name="Seed">Seed of the draws. The same seed gives the same numbers with any number of threads.</param>
/// <param name="StandardError">Monte Carlo standard error of the p-value: another seed would move it by about as much.</param>
[TypeFormatterSource]
public sealed record BootstrapRun(int Replicates, int Refused, int Seed, double StandardError);
