namespace JumpAnalytics;

/// <summary>What a normal about a number gives of the parts above and below zero.</summary>
internal static class Smoothing
{
    /// <summary>Means of the part above zero and of that below, both zero or more.</summary>
    public static (double Above, double Below) Above(double x, double width)
    {
        if (!(width > 0)) return (Math.Max(0, x), Math.Max(0, -x));
        var z = x / width;
        var above = x * NormalInterval.Below(z) + width * NormalInterval.InverseSqrt2Pi * Math.Exp(-z * z / 2);
        return (above, above - x);
    }

    /// <summary>Share above zero.</summary>
    public static double Share(double x, double width) => width > 0 ? NormalInterval.Below(x / width) : x > 0 ? 1 : 0;
}
