namespace JumpAnalytics.Statistics;

/// <summary>
/// How long a control chart runs until it signals, counted in points (clusters), the one that signals included: its mean, the average run
/// length, and its distribution.
/// </summary>
[TypeFormatterSource]
public sealed class RunLengthLaw
{
    /// <summary>Average run lengths above it are refused: rounding leaves few of their digits, and later none.</summary>
    internal const double Longest = 1e9;

    private readonly Lazy<double> _average;
    private readonly Func<int, double[]> _signals;

    /// <summary>A law by its mean, worked out when asked for, and the probabilities of the first signal at point 1, 2, … n.</summary>
    internal RunLengthLaw(Func<double> average, Func<int, double[]> signals) => (_average, _signals) = (new(average), signals);

    /// <summary>Mean number of points until the first signal, 1 to 1,000,000,000: charts that run longer are refused.</summary>
    public double Average => _average.Value;

    /// <summary>Probability that the chart signals at one of its first points.</summary>
    /// <param name="points">How many, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of points.</exception>
    public double ProbabilityWithin(int points)
    {
        Guard.AtLeast(points, 0);
        return points == 0 ? 0 : Math.Min(1, _signals(points).Sum());
    }

    /// <summary>The law, if its average can be computed.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The chart runs longer than a billion points on average.</exception>
    internal RunLengthLaw Checked(double limit) => Average is >= 1 and <= Longest ? this
        : throw Guard.Refused(nameof(limit), limit, "a limit with an average run length of at most 1,000,000,000 points");

    /// <summary>Probability of the first signal at each of the first points.</summary>
    internal double[] Signals(int points) => _signals(points);

    /// <summary>Every point signals with the same probability, whatever came before.</summary>
    internal static RunLengthLaw Geometric(double probability) => new(() => 1 / probability, n =>
    {
        var signals = new double[n];
        for (var (i, left) = (0, 1.0); i < n; i++, left *= 1 - probability) signals[i] = left * probability;
        return signals;
    });

    /// <summary>
    /// The first signal of two one-sided charts of the same points that can't both stand above zero when one of them signals, unless by
    /// their head starts: then the other one starts anew at zero.
    /// </summary>
    /// <remarks>
    /// Generating functions: with A and B those of a first signal above and below, G those of the charts from zero and H from their head
    /// starts, H⁺ = A + B·G⁺ and H⁻ = B + A·G⁻, two linear equations. For means this is the formula of Lucas and Crosier (1982,
    /// Technometrics 24:199-205), for charts without head start the one of Kemp (1961, Journal of the Royal Statistical Society B
    /// 23:149-153), 1/ARL = 1/ARL⁺ + 1/ARL⁻.
    /// </remarks>
    internal static RunLengthLaw Either(RunLengthLaw above, RunLengthLaw below, RunLengthLaw? aboveStarted = null,
        RunLengthLaw? belowStarted = null)
    {
        var (a, b) = (aboveStarted ?? above, belowStarted ?? below);
        return new RunLengthLaw(Average, n =>
        {
            var (up, down, upStarted, downStarted) = (above.Signals(n), below.Signals(n), a.Signals(n), b.Signals(n));
            var both = Product(up, down);
            var (first, second) =
                (Divided(Less(upStarted, Product(downStarted, up)), both), Divided(Less(downStarted, Product(upStarted, down)), both));
            return [.. first.Zip(second, (x, y) => Math.Max(0, x + y))];
        });

        double Average()
        {
            // A side that runs beyond all digits hardly ever signals first: what counts is the share of time between the two.
            var (up, down) = (Real(above.Average), Real(below.Average));
            return up * (down / (up + down)) * (Real(a.Average) / up + Real(b.Average) / down - 1);
        }

        static double Real(double average) => average is >= 1 and <= Unreached ? average : Unreached;
    }

    /// <summary>What a side counts as whose run length is lost in rounding.</summary>
    private const double Unreached = 1e14;

    // Place i of an array stands for the power i + 1; of the product of two for the same, so that its first place is empty.
    private static double[] Product(double[] x, double[] y)
    {
        var product = new double[x.Length];
        for (var i = 0; i < x.Length; i++)
        {
            for (var j = 0; i + j + 1 < x.Length; j++) product[i + j + 1] += x[i] * y[j];
        }
        return product;
    }

    private static double[] Less(double[] x, double[] y) => [.. x.Zip(y, (a, b) => a - b)];

    /// <summary>The series whose product with 1 − both is x.</summary>
    private static double[] Divided(double[] x, double[] both)
    {
        var quotient = (double[])x.Clone();
        for (var i = 0; i < x.Length; i++)
        {
            for (var j = 1; j <= i; j++) quotient[i] += both[j] * (j == i ? 0 : quotient[i - j - 1]);
        }
        return quotient;
    }
}
