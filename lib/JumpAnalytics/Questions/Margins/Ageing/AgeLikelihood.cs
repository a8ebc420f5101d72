namespace JumpAnalytics;

/// <summary>A maximum at a held exponent.</summary>
/// <param name="Law">The parameters.</param>
/// <param name="LogLikelihood">Its logarithm.</param>
internal sealed record AgeMaximum(AgeLaw Law, double LogLikelihood);

/// <summary>
/// Likelihood of misses whose spread grows with age and wind, each a bivariate t about the common centre. Landings are multiplied as
/// if independent, which leaves the estimate consistent (Varin, Reid and Firth 2011, Statistica Sinica 21:5-42); what a mission's
/// landings share is in the intervals.
/// </summary>
internal sealed class AgeLikelihood
{
    /// <summary>The base is not let down to zero: a forecast without age on no wind would not miss at all.</summary>
    private static readonly double[] _floor = [1e-3, 0, 0];

    private readonly AgedLandings _data;
    private readonly double _k, _information;

    public AgeLikelihood(AgedLandings data)
    {
        _data = data;
        _k = 1 / data.Misses.DegreesOfFreedom;
        _information = 1 / (1 + 4 * _k); // of the logarithm of the squared spread, one landing
    }

    /// <summary>Powers of the ages.</summary>
    public double[] Powers(double exponent) => [.. _data.Age.Select(t => Math.Pow(t, exponent))];

    /// <summary>Maximises at a held exponent; at exponent zero there is no growth.</summary>
    public AgeMaximum At(double exponent, AgeLaw? start = null) => At(exponent, Powers(exponent), start);

    private AgeMaximum At(double exponent, double[] power, AgeLaw? start)
    {
        Span<double> at = [start?.Base ?? 0.5, exponent == 0 ? 0 : start?.Growth ?? 0.25, start?.Wind ?? 0.25];
        Span<double> to = stackalloc double[3];
        Span<double> g = stackalloc double[3];
        Span<double> a = stackalloc double[6];
        at[0] = Math.Max(at[0], _floor[0]);
        var value = LogLikelihood(power, at);
        for (var step = 0; step < 200; step++)
        {
            g.Clear();
            a.Clear();
            for (var i = 0; i < power.Length; i++) Add(i, power[i], at, g, a, expected: true);
            var rise = ThreeBounded.Step(at, _floor, g, a, exponent == 0 ? 0b101 : 0b111, to);
            if (rise < 1e-10) break;
            var (share, higher) = (1.0, LogLikelihood(power, to));
            while (higher < value && share > 1e-6)
            {
                share /= 2;
                for (var j = 0; j < 3; j++) to[j] = at[j] + 0.5 * (to[j] - at[j]);
                higher = LogLikelihood(power, to);
            }
            if (higher <= value) break;
            to.CopyTo(at);
            value = higher;
        }
        return new AgeMaximum(new AgeLaw(at[0], at[1], exponent, at[2]), value);
    }

    /// <summary>For each mission the logarithm of its likelihood (1), the slopes (3) and the observed curvature (6) at a law.</summary>
    public double[] ByMission(AgeLaw law)
    {
        var sums = new double[10 * _data.Missions];
        var power = Powers(law.Exponent);
        Span<double> at = [law.Base, law.Growth, law.Wind];
        for (var i = 0; i < power.Length; i++)
        {
            var of = sums.AsSpan(10 * _data.Mission[i], 10);
            of[0] += One(i, Spread(i, power[i], at));
            Add(i, power[i], at, of[1..4], of[4..], expected: false);
        }
        return sums;
    }

    /// <summary>Goes to the top of the quadratic that stands for a resample.</summary>
    public static double Step(ReadOnlySpan<double> at, ReadOnlySpan<double> g, ReadOnlySpan<double> a, bool growth, Span<double> to) =>
        ThreeBounded.Step(at, _floor, g, a, growth ? 0b111 : 0b101, to);

    private double LogLikelihood(double[] power, ReadOnlySpan<double> at)
    {
        var sum = 0.0;
        for (var i = 0; i < power.Length; i++) sum += One(i, Spread(i, power[i], at));
        return sum;
    }

    private double Spread(int i, double power, ReadOnlySpan<double> at) => at[0] + at[1] * power + at[2] * _data.WindSquared[i];

    private double One(int i, double squared)
    {
        var q = _data.Squared[i] / squared;
        return -Math.Log(squared) - (_k < 1e-12 ? q / 2 : (1 + 2 * _k) / (2 * _k) * Kernels.Log1p(_k * q));
    }

    private void Add(int i, double power, ReadOnlySpan<double> at, Span<double> g, Span<double> a, bool expected)
    {
        var squared = Spread(i, power, at);
        var q = _data.Squared[i] / squared;
        var weight = (1 + 2 * _k) / (1 + _k * q);
        var slope = (0.5 * weight * q - 1) / squared;
        var curvature = (expected ? _information : 0.5 * weight * q * (1 + 1 / (1 + _k * q)) - 1) / (squared * squared);
        var wind = _data.WindSquared[i];
        g[0] += slope;
        g[1] += slope * power;
        g[2] += slope * wind;
        a[0] += curvature;
        a[1] += curvature * power;
        a[2] += curvature * wind;
        a[3] += curvature * power * power;
        a[4] += curvature * power * wind;
        a[5] += curvature * wind * wind;
    }
}
