using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>
/// The states of a chart that has not signalled, and how it moves among them; with the nodes of a quadrature as states, an integral
/// equation of run lengths solved by Nyström's method.
/// </summary>
internal static class SignalChain
{
    /// <summary>The law of the run length.</summary>
    /// <param name="start">Weight of each state after the first point.</param>
    /// <param name="moves">Weight of each state (column) after another one (row).</param>
    public static RunLengthLaw Law(double[] start, double[,] moves)
    {
        return new RunLengthLaw(() =>
        {
            var n = start.Length;
            var left = Matrix<double>.Build.Dense(n, n, (i, j) => (i == j ? 1 : 0) - moves[i, j]);
            var runs = left.LU().Solve(Vector<double>.Build.Dense(n, 1.0));
            var average = 1.0;
            for (var i = 0; i < n; i++) average += start[i] * runs[i];
            return average;
        }, points => Signals(start, moves, points));
    }

    private static double[] Signals(double[] start, double[,] moves, int points)
    {
        var (n, signals, before) = (start.Length, new double[points], 1.0);
        var here = Enumerable.Repeat(1.0, n).ToArray(); // probability of no signal in the points that follow, by state
        for (var k = 0; k < points; k++)
        {
            var left = 0.0;
            for (var i = 0; i < n; i++) left += start[i] * here[i];
            signals[k] = Math.Max(0, before - left);
            before = left;
            var next = new double[n];
            for (var i = 0; i < n; i++)
            {
                var sum = 0.0;
                for (var j = 0; j < n; j++) sum += moves[i, j] * here[j];
                next[i] = sum;
            }
            here = next;
        }
        return signals;
    }

    private const double LeastLimit = 1e-6;

    /// <summary>The limit at which a run length that rises with it has a wanted mean.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Without any limit the chart runs longer.</exception>
    public static double LimitFor(double average, Func<double, double> averageAt, double guess)
    {
        var (low, high) = (guess, guess);
        while (At(low) > average && low > LeastLimit) low *= 0.7;
        if (At(low) > average)
            throw Guard.Refused(nameof(average), average,
                $"at least {Rounding.Fixed(At(low), 1)}: so long this chart runs without a limit");
        while (At(high) < average) high *= 1.4;
        return Roots.Of(x => Math.Log(At(x) / average), low, high, 1e-11)
            ?? throw Guard.Refused(nameof(average), average, "a run length that some limit of this chart has");

        double At(double limit) => averageAt(limit) is >= 1 and <= RunLengthLaw.Longest and var found ? found : RunLengthLaw.Longest;
    }

    /// <summary>Nodes that a Gauss-Legendre rule needs where the densities under the integral have a standard deviation.</summary>
    public static int Nodes(double length, double deviation) => Math.Clamp(24 + (int)Math.Ceiling(4.5 * length / deviation), 32, 400);

    /// <summary>The average run length asked for.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 2 and 1,000,000.</exception>
    public static double Checked(double average) => average is >= 2 and <= 1e6 ? average
        : throw Guard.Refused(nameof(average), average, "from 2 to 1,000,000 points, for instance 370");

    /// <summary>The weight of the newest point in a moving average.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 and at most 1.</exception>
    public static double Weight(double weight) => weight is > 0 and <= 1 ? weight
        : throw Guard.Refused(nameof(weight), weight, "above 0 and at most 1, for instance 0.1");
}
