namespace JumpAnalytics.Internals;

/// <summary>Logarithm about one and exponential about zero that keep every digit (Kahan's quotients: Higham 2002, Accuracy and Stability, section 1.14).</summary>
internal static class NearOne
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
}
