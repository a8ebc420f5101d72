using MathNet.Numerics.Integration;

namespace JumpAnalytics.Statistics;

/// <summary>
/// A Gauss-Legendre rule of any number of nodes, nodes to the last digit: from the numerical library's table where it has one, which is
/// exact; for most other numbers of nodes the library's own are good to 1e-10 only.
/// </summary>
internal sealed class Quadrature
{
    private const int Tabulated = 20;

    private readonly double[] _at;
    private readonly double[] _weights;

    /// <summary>The rule.</summary>
    /// <param name="low">Lower end.</param>
    /// <param name="high">Upper end.</param>
    /// <param name="count">Number of nodes.</param>
    public Quadrature(double low, double high, int count)
    {
        if (count <= Tabulated)
        {
            var table = new GaussLegendreRule(low, high, count);
            (_at, _weights) = (table.Abscissas, table.Weights);
            return;
        }
        (_at, _weights) = (new double[count], new double[count]);
        var (middle, half) = ((low + high) / 2, (high - low) / 2);
        for (var k = 0; k < (count + 1) / 2; k++)
        {
            // Newton's method on the Legendre polynomial, from the classic first guess.
            var x = 2 * k + 1 == count ? 0 : Math.Cos(Math.PI * (k + 0.75) / (count + 0.5));
            var slope = 0.0;
            for (var step = 0; step < 5; step++)
            {
                var (last, before) = (1.0, 0.0);
                for (var j = 1; j <= count; j++) (last, before) = (((2 * j - 1) * x * last - (j - 1) * before) / j, last);
                slope = count * (before - x * last) / (1 - x * x);
                if (2 * k + 1 != count) x -= last / slope;
            }
            (_at[count - 1 - k], _at[k]) = (middle + half * x, middle - half * x);
            _weights[k] = _weights[count - 1 - k] = 2 * half / ((1 - x * x) * slope * slope);
        }
    }

    public int Order => _at.Length;

    public double[] Nodes => _at;

    public double At(int node) => _at[node];

    public double Weight(int node) => _weights[node];

    /// <summary>The integral of a function.</summary>
    public double Of(Func<double, double> function)
    {
        var sum = 0.0;
        for (var k = 0; k < _at.Length; k++) sum += _weights[k] * function(_at[k]);
        return sum;
    }
}
