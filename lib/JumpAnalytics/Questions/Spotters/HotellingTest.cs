using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics;

/// <summary>
/// Hotelling's test that a mean vector is what it is supposed to be (Hotelling 1931, Annals of Mathematical Statistics 2:360-378).
/// T² = d'V⁻¹d with d the mean less the supposed one and V the covariance of the mean's error from n independent units;
/// (n − p)/((n − 1)p)·T² is F on p and n − p degrees.
/// </summary>
/// <param name="TSquared">T².</param>
/// <param name="F">T² brought to the scale of F.</param>
/// <param name="FreedomBetween">p, the number of coordinates.</param>
/// <param name="FreedomWithin">n − p, units less coordinates.</param>
/// <param name="PValue">Chance of as much or more if the mean were the supposed one.</param>
[TypeFormatterSource]
public sealed record HotellingTest(double TSquared, double F, int FreedomBetween, double FreedomWithin, double PValue)
{
    /// <summary>Tests a mean.</summary>
    /// <param name="difference">Mean less supposed mean.</param>
    /// <param name="errors">Covariance of the mean's error, not singular.</param>
    /// <param name="units">
    /// Independent units behind it: missions, or fewer where missions weigh unequally; more than there are coordinates.
    /// </param>
    internal static HotellingTest Of(Vector<double> difference, Matrix<double> errors, double units)
    {
        var p = difference.Count;
        var square = difference.DotProduct(errors.Cholesky().Solve(difference));
        var f = square * (units - p) / ((units - 1) * p);
        return new HotellingTest(square, f, p, units - p, UpperTail(f, p, units - p));
    }

    /// <summary>T² that is passed with the chance 1 − confidence if the mean is right.</summary>
    internal static double Critical(int coordinates, double units, double confidence) =>
        (units - 1) * coordinates / (units - coordinates) * QuantileOf.F(coordinates, units - coordinates, TailShare.Below(confidence));

    // Of two coordinates the tail is elementary and keeps its digits; else a beta.
    private static double UpperTail(double f, int p, double q) =>
        p == 2 ? Math.Pow(1 + 2 * f / q, -q / 2.0) : MathNet.Numerics.SpecialFunctions.BetaRegularized(q / 2.0, p / 2.0, q / (q + p * f));
}
