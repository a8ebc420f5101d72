using System.Numerics;
using System.Runtime.InteropServices;

namespace JumpAnalytics.Statistics;

/// <summary>Draws from the standard normal distribution.</summary>
internal static class StandardNormal
{
    /// <summary>Two independent draws from two uniform ones (Box and Muller 1958, Annals of Mathematical Statistics 29:610-611).</summary>
    public static (double First, double Second) Pair(Random random)
    {
        var length = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
        var (sin, cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
        return (length * cos, length * sin);
    }

    /// <summary>
    /// Fills with independent draws, by the same rule as <see cref="Pair"/> but as many lanes at a time as the machine has.
    /// </summary>
    /// <param name="random">Where the uniform draws come from.</param>
    /// <param name="values">An even number of values; a multiple of twice the lanes is filled fastest.</param>
    public static void Fill(Random random, Span<double> values)
    {
        for (var i = 0; i < values.Length; i++) values[i] = random.NextDouble();
        var first = values[..(values.Length / 2)];
        var second = values[(values.Length / 2)..];
        var lengths = MemoryMarshal.Cast<double, Vector<double>>(first);
        var turns = MemoryMarshal.Cast<double, Vector<double>>(second);
        for (var i = 0; i < lengths.Length; i++)
        {
            var length = Vector.SquareRoot(-2 * Vector.Log(Vector<double>.One - lengths[i]));
            var (sin, cos) = Vector.SinCos(2 * Math.PI * turns[i]);
            (lengths[i], turns[i]) = (length * cos, length * sin);
        }
        for (var i = lengths.Length * Vector<double>.Count; i < first.Length; i++)
        {
            var length = Math.Sqrt(-2 * Math.Log(1 - first[i]));
            var (sin, cos) = Math.SinCos(2 * Math.PI * second[i]);
            (first[i], second[i]) = (length * cos, length * sin);
        }
    }
}
