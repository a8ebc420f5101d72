namespace JumpAnalytics.Statistics;

/// <summary>A test on directions.</summary>
/// <param name="Name">Rayleigh, V, Moore, or Watson-Williams.</param>
/// <param name="Statistic">The statistic; which one stands at the method.</param>
/// <param name="PValue">Chance of a statistic as large or larger if the hypothesis were true.</param>
/// <param name="Directions">Number of directions.</param>
[TypeFormatterSource]
public sealed record DirectionTestResult(string Name, double Statistic, double PValue, int Directions);
