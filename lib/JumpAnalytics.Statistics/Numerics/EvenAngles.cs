using System.Runtime.Intrinsics;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Equally spaced angles of a full turn, as many as are needed for the mean of exp(-a cos 2x - b cos (x - c)) over the
/// turn; their cosines and sines, four to a vector.
/// </summary>
/// <remarks>
/// The mean over N such angles of a function that is analytic and at most M in the strip |Im x| &lt; h is off by at
/// most 2 M / (exp(N h) - 1) (Trefethen and Weideman 2014, SIAM Review 56, 385-458). At the height h the exponent has
/// grown by at most a (cosh 2h - 1) + b (cosh h - 1), so N angles serve all a and b for which this is up to N h - L,
/// with an error of about exp(-L). One angle is kept back for a factor that goes round once.
/// </remarks>
internal sealed class EvenAngles
{
    private const double Digits = 34; // exp(-34) = 2e-15

    private static readonly EvenAngles[] _all =
        [.. new[] { 16, 24, 32, 40, 48, 64, 80, 96, 128, 160, 192, 256 }.Select(n => new EvenAngles(n))];

    private readonly (Vector256<double> Cos, Vector256<double> Sin)[] _lanes;
    private readonly double _perTwice;
    private readonly double _perOnce;

    private EvenAngles(int count)
    {
        var turns = Enumerable.Range(0, count).Select(k => double.SinCosPi(2.0 * k / count)).ToArray();
        _lanes = [.. turns.Chunk(Vector256<double>.Count).Select(four => (
            Vector256.Create([.. four.Select(t => t.CosPi)]), Vector256.Create([.. four.Select(t => t.SinPi)])))];

        // The height that admits the greatest a solves tanh h = 2 (h - L / N); each step halves the error at least.
        var (n, height) = (count - 1, 1.0);
        for (var i = 0; i < 60; i++)
            height = Digits / n + 0.5 * Math.Tanh(height);
        var room = n * height - Digits;
        (_perTwice, _perOnce) = ((Math.Cosh(2 * height) - 1) / room, (Math.Cosh(height) - 1) / room);
    }

    /// <summary>The angles for an exponent, or null if that takes more than a few hundred.</summary>
    /// <param name="twice">Size of the part that goes round twice, a.</param>
    /// <param name="once">Size of the part that goes round once, b.</param>
    public static EvenAngles? For(double twice, double once)
    {
        foreach (var angles in _all)
        {
            if (twice * angles._perTwice + once * angles._perOnce <= 1)
                return angles;
        }

        return null;
    }

    /// <summary>Number of angles.</summary>
    public int Count => _lanes.Length * Vector256<double>.Count;

    /// <summary>Cosines and sines, four angles in each element.</summary>
    public ReadOnlySpan<(Vector256<double> Cos, Vector256<double> Sin)> Lanes => _lanes;
}
