using MathNet.Numerics;

namespace JumpAnalytics.Internals;

/// <summary>Functions that lose their digits near zero when they are written down plainly.</summary>
internal static class NearZero
{
    /// <summary>exp(x) − 1 to a few roundings (Kahan's correction: the error of the exponential cancels in the quotient).</summary>
    public static double ExpLess1(double x)
    {
        var e = Math.Exp(x);
        if (e == 1) return x;
        return Math.Abs(x) > 1 ? e - 1 : (e - 1) * x / Math.Log(e);
    }

    /// <summary>Logarithm of 1 − p.</summary>
    public static double LogOfRest(double p) => SpecialFunctions.Log1p(-p);

    /// <summary>Logarithm of 1 − exp(x) for x below zero.</summary>
    public static double LogOfRestOfExp(double x) => x > -0.7 ? Math.Log(-ExpLess1(x)) : LogOfRest(Math.Exp(x));
}
