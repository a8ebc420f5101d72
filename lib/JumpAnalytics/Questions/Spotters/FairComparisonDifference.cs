using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>One spotter's hits against those expected: the difference with its interval.</summary>
/// <remarks>
/// The interval is the score interval of a shift of the log-odds: every shift at which the hits lie within t standard errors of what it
/// would give, the variance taken at that shift, dispersion and uncertainty of the expectation included. With one condition and a certain
/// expectation it is Wilson's on landings over dispersion; it stays within what is possible, and a spotter without a miss has one too.
/// </remarks>
/// <param name="levels">Log-odds of a hit by the others, one for each count.</param>
/// <param name="landings">Landings of each count.</param>
/// <param name="hits">Hits of all.</param>
/// <param name="dispersion">Variance of hits over that of independent landings.</param>
/// <param name="levelVariance">Variance of the mean of the levels.</param>
/// <param name="freedom">Degrees of freedom of the dispersion.</param>
internal sealed class FairComparisonDifference(double[] levels, int[] landings, int hits,
    double dispersion, double levelVariance, int freedom)
{
    private const double Step = 0.25, Farthest = 40;

    private readonly int _landings = landings.Sum();

    /// <summary>Hits expected.</summary>
    public double Expected => HitsAt(0);

    /// <summary>Variance of the hits less those expected, if the spotter does not differ.</summary>
    public double Variance => VarianceAt(0);

    /// <summary>Chance of hits as far from those expected, either way, if the spotter does not differ.</summary>
    public double P => 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(hits - Expected) / Math.Sqrt(Variance));

    /// <summary>The difference of rates that a shift of the log-odds makes.</summary>
    public double RateAt(double shift) => (HitsAt(shift) - Expected) / _landings;

    /// <summary>The shift that makes a difference of rates; infinite where none does.</summary>
    public double ShiftOf(double difference)
    {
        var wanted = Expected + difference * _landings;
        if (wanted <= 0) return double.NegativeInfinity;
        if (wanted >= _landings) return double.PositiveInfinity;
        return Roots.Middle(shift => HitsAt(shift) < wanted, -Farthest, Farthest);
    }

    /// <summary>The difference of rates with its interval.</summary>
    public Estimate Rate(double confidence)
    {
        var t = QuantileOf.T(freedom, TailShare.Middle(confidence));
        var (least, most) = (-Expected / _landings, (_landings - Expected) / _landings);
        var middle = Math.Clamp(ShiftOf((hits - Expected) / _landings), -12, 12);
        return Estimate.Of((hits - Expected) / _landings,
            new Interval(hits == 0 ? least : RateAt(Limit(-1)), hits == _landings ? most : RateAt(Limit(1))));

        double Limit(int side)
        {
            var inside = middle;
            var outside = middle + side * Step;
            while (Math.Abs(outside) < Farthest && !Beyond(outside)) (inside, outside) = (outside, outside + side * Step);
            for (var step = 0; step < 60; step++)
            {
                var between = (inside + outside) / 2;
                if (Beyond(between)) outside = between;
                else inside = between;
            }
            return (inside + outside) / 2;
        }

        bool Beyond(double shift) => Math.Abs(hits - HitsAt(shift)) > t * Math.Sqrt(VarianceAt(shift));
    }

    /// <summary>The rate expected with its interval.</summary>
    public Estimate ExpectedRate(double confidence)
    {
        var half = QuantileOf.Normal(TailShare.Middle(confidence)) * Math.Sqrt(levelVariance);
        return Estimate.Of(Expected / _landings, new Interval(HitsAt(-half) / _landings, HitsAt(half) / _landings));
    }

    /// <summary>Missions like these after which the interval would be about so wide to either side; null when more than 2,000.</summary>
    public int? MissionsFor(double half, int missions, double confidence)
    {
        var weight = WeightAt(0);
        for (var m = 2; m <= 2000; m++)
        {
            var grown = (double)m / missions;
            var variance =
                (dispersion * weight * grown + weight * weight * grown * grown * levelVariance) / (_landings * grown * _landings * grown);
            if (QuantileOf.T(m - 1 + FairComparisonFit.BaseMissions, TailShare.Middle(confidence)) * Math.Sqrt(variance) <= half) return m;
        }
        return null;
    }

    private double HitsAt(double shift) => levels.Select((level, i) => landings[i] * Kernels.Logistic(level + shift)).Sum();

    private double WeightAt(double shift) =>
        levels.Select((level, i) => Kernels.Logistic(level + shift) is var p ? landings[i] * p * (1 - p) : 0).Sum();

    private double VarianceAt(double shift) => WeightAt(shift) is var w ? dispersion * w + w * w * levelVariance : 0;
}
