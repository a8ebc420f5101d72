namespace JumpAnalytics.Statistics;

/// <summary>
/// Functions that lose their digits, or overflow, when they are written down plainly. Logarithm and exponential are by Kahan's quotients
/// (Higham 2002, Accuracy and Stability of Numerical Algorithms, section 1.14), whose errors cancel: a few roundings everywhere, and
/// several times as fast as the numerical library's, which matters in the slopes of likelihoods.
/// </summary>
internal static class Kernels
{
    /// <summary>log(1 + x).</summary>
    public static double Log1p(double x)
    {
        var sum = 1 + x;
        return sum == 1 || double.IsPositiveInfinity(sum) ? x : Math.Log(sum) * (x / (sum - 1));
    }

    /// <summary>exp(x) − 1.</summary>
    public static double Expm1(double x)
    {
        if (Math.Abs(x) > 1) return Math.Exp(x) - 1;
        var power = Math.Exp(x);
        return power == 1 ? x : (power - 1) * (x / Math.Log(power));
    }

    /// <summary>log(1 − exp(x)) for x below zero.</summary>
    public static double LogOfRestOfExp(double x) => x > -0.7 ? Math.Log(-Expm1(x)) : Log1p(-Math.Exp(x));

    /// <summary>The probability of some log-odds, 1 / (1 + exp(−x)).</summary>
    public static double Logistic(double x) => 1 / (1 + Math.Exp(-x));

    /// <summary>The log-odds of a probability above 0 and below 1.</summary>
    public static double Logit(double probability) => Math.Log(probability / (1 - probability));
}
