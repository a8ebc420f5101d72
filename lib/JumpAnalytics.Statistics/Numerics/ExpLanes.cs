using System.Runtime.Intrinsics;

namespace JumpAnalytics.Statistics;

/// <summary>
/// The falling exponential of four numbers at once. Only correctly rounded operations in a fixed order are used, so the
/// digits are the same whatever vectors the processor has.
/// </summary>
internal static class ExpLanes
{
    /// <summary>The greatest argument whose exponential is still a normal double.</summary>
    public const double Deepest = 708;

    private const double Log2E = 1.4426950408889634;

    // The natural logarithm of 2 as a double and what that leaves off.
    private const double Ln2 = 0.69314718055994531;
    private const double Ln2Rest = 2.3190468138462996e-17;

    // Added to a number below 2^51 in size it leaves the nearest integer in the last bits.
    private const double ToInteger = 6755399441055744; // 1.5 * 2^52
    private const int MantissaBits = 52;

    /// <summary>exp(-x), and 1 - exp(-x) with its own relative accuracy.</summary>
    /// <param name="x">From 0 to <see cref="Deepest"/>; beyond it the answer is that of <see cref="Deepest"/>.</param>
    /// <param name="lost">1 - exp(-x).</param>
    public static Vector256<double> Fall(Vector256<double> x, out Vector256<double> lost)
    {
        // -x = n ln 2 + r with |r| up to half of ln 2.
        x = Vector256.Min(x, Vector256.Create(Deepest));
        var shifted = Vector256.FusedMultiplyAdd(x, Vector256.Create(-Log2E), Vector256.Create(ToInteger));
        var n = shifted - Vector256.Create(ToInteger);
        var r = Vector256.FusedMultiplyAdd(n, Vector256.Create(-Ln2), -x);
        r = Vector256.FusedMultiplyAdd(n, Vector256.Create(-Ln2Rest), r);
        var power = (Vector256.ShiftLeft(shifted.AsInt64(), MantissaBits) + Vector256<double>.One.AsInt64()).AsDouble();

        // exp(r) - 1 by its series to r^13, whose next term is 5e-18; odd and even powers apart, to be summed at once.
        var s = r * r;
        var odd = Vector256.Create(1.0 / 6227020800);
        odd = Vector256.FusedMultiplyAdd(odd, s, Vector256.Create(1.0 / 39916800));
        odd = Vector256.FusedMultiplyAdd(odd, s, Vector256.Create(1.0 / 362880));
        odd = Vector256.FusedMultiplyAdd(odd, s, Vector256.Create(1.0 / 5040));
        odd = Vector256.FusedMultiplyAdd(odd, s, Vector256.Create(1.0 / 120));
        odd = Vector256.FusedMultiplyAdd(odd, s, Vector256.Create(1.0 / 6));
        var even = Vector256.Create(1.0 / 479001600);
        even = Vector256.FusedMultiplyAdd(even, s, Vector256.Create(1.0 / 3628800));
        even = Vector256.FusedMultiplyAdd(even, s, Vector256.Create(1.0 / 40320));
        even = Vector256.FusedMultiplyAdd(even, s, Vector256.Create(1.0 / 720));
        even = Vector256.FusedMultiplyAdd(even, s, Vector256.Create(1.0 / 24));
        even = Vector256.FusedMultiplyAdd(even, s, Vector256.Create(1.0 / 2));
        var grown = Vector256.FusedMultiplyAdd(Vector256.FusedMultiplyAdd(odd, r, even), s, r);

        var part = power * grown;
        lost = (Vector256<double>.One - power) - part;
        return power + part;
    }
}
