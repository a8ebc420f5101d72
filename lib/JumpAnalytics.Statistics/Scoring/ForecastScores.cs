using MathNet.Numerics;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Scores of single forecasts in closed form, less is better. All are proper: the true distribution scores best in the mean.
/// </summary>
public static class ForecastScores
{
    /// <summary>
    /// Brier's score of a probability (1950, Monthly Weather Review 78:1-3): its squared distance from 1 for a success, from 0 for a
    /// failure.
    /// </summary>
    /// <param name="probability">The forecast probability of a success.</param>
    /// <param name="success">Whether it was one.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not from 0 to 1.</exception>
    public static double Brier(double probability, bool success)
    {
        var off = success ? 1 - Share(probability) : Share(probability);
        return off * off;
    }

    /// <summary>
    /// The logarithmic score of a probability (Good 1952, JRSS B 14:107-114): minus the natural logarithm of what was given to the
    /// outcome. Positive infinity when that was 0: the forecast was certain, and failed.
    /// </summary>
    /// <param name="probability">The forecast probability of a success.</param>
    /// <param name="success">Whether it was one.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not from 0 to 1.</exception>
    public static double Logarithmic(double probability, bool success)
    {
        var log = success ? Math.Log(Share(probability)) : Share(probability) < 0.5 ? Kernels.Log1p(-probability)
            : Math.Log(1 - probability);
        return log == 0 ? 0 : -log;
    }

    /// <summary>
    /// CRPS of a normal forecast, in the unit of the observation (Gneiting and others 2005, Monthly Weather Review
    /// 133:1098-1118, equation 5).
    /// </summary>
    /// <param name="mean">Mean of the forecast.</param>
    /// <param name="sd">Its standard deviation, zero or more.</param>
    /// <param name="observed">What came.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that is not finite, or a negative standard deviation.</exception>
    public static double NormalCrps(double mean, double sd, double observed)
    {
        Guard.NotNegative(sd);
        var off = Math.Abs(Guard.Finite(observed) - Guard.Finite(mean));
        if (sd == 0) return off;
        var z = off / sd;
        return off * SpecialFunctions.Erf(z / Constants.Sqrt2)
            + sd * (2 * Constants.InvSqrt2Pi * Math.Exp(-z * z / 2) - Constants.InvSqrtPi);
    }

    /// <summary>
    /// CRPS of an ensemble, in the unit of the observation: mean distance from the members, less half their mean distance from one another.
    /// </summary>
    /// <param name="members">The forecasts of the ensemble.</param>
    /// <param name="observed">What came.</param>
    /// <param name="fair">
    /// Whether members stand for a distribution that they are drawn from (fair score: Ferro 2014, Quarterly Journal of the Royal
    /// Meteorological Society 140:1917-1923; pairs of different members alone), and not for themselves.
    /// </param>
    /// <exception cref="ArgumentException">No member (one, if fair), or a number that is not finite.</exception>
    public static double EnsembleCrps(IReadOnlyList<double> members, double observed, bool fair = false)
    {
        var pairs = Pairs(members.Count, fair);
        var sorted = members.Select(x => Guard.Finite(x, nameof(members))).Order().ToArray();
        Guard.Finite(observed);
        var (distance, apart) = (0.0, 0.0);
        for (var i = 0; i < sorted.Length; i++)
        {
            distance += Math.Abs(sorted[i] - observed);
            apart += (2 * i - (sorted.Length - 1)) * (sorted[i] - observed); // each pair once: the sum over i > j of the differences
        }
        return distance / sorted.Length - apart / pairs;
    }

    /// <summary>The energy score of an ensemble of points, metres (Gneiting and Raftery 2007, JASA 102:359-378, equation 21).</summary>
    /// <param name="members">The points of the ensemble.</param>
    /// <param name="observed">The point that came.</param>
    /// <param name="fair">As in <see cref="EnsembleCrps"/>.</param>
    /// <exception cref="ArgumentException">No member (one, if fair), or a coordinate that is not finite.</exception>
    public static double EnsembleEnergy(IReadOnlyList<PlaneVector> members, PlaneVector observed, bool fair = false)
    {
        var pairs = Pairs(members.Count, fair);
        var (distance, apart) = (0.0, 0.0);
        for (var i = 0; i < members.Count; i++)
        {
            distance += Apart(members[i], observed);
            for (var j = 0; j < i; j++) apart += Apart(members[i], members[j]);
        }
        return double.IsFinite(distance) ? distance / members.Count - apart / pairs
            : throw new ArgumentException("A coordinate is not a finite number.", nameof(members));

        static double Apart(PlaneVector a, PlaneVector b) => double.Hypot(a.Along - b.Along, a.Across - b.Across);
    }

    private static double Pairs(int members, bool fair) => members >= (fair ? 2 : 1) ? members * (fair ? members - 1.0 : members)
        : throw new ArgumentException($"An ensemble of {members} has no {(fair ? "fair " : "")}score; it needs {(fair ? 2 : 1)}.",
            nameof(members));

    internal static double Share(double probability) => Guard.Probability(probability);
}
