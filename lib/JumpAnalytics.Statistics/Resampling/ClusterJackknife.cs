using System.Globalization;

namespace JumpAnalytics;

/// <summary>What a figure becomes when one mission is left out.</summary>
/// <param name="Mission">Its place among the missions, 0 for the first.</param>
/// <param name="Label">Its label.</param>
/// <param name="ValueWithout">The figure of the other missions, in the figure's unit.</param>
/// <param name="Change">That less the figure of all: negative for a mission that pulls the figure up.</param>
/// <param name="Standardised">
/// <paramref name="ValueWithout"/> less the mean over all missions left out in turn, in units of the root mean square of these differences.
/// Efron (1992, Journal of the Royal Statistical Society B 54:83-127) looks twice at what lies beyond ±2; with M missions it is
/// never beyond ±√(M−1).
/// </param>
[TypeFormatterSource]
public sealed record MissionInfluence(int Mission, string Label, double ValueWithout, double Change, double Standardised);

/// <summary>
/// A figure with each mission left out in turn: which missions drive it, its standard error, and its bias (Quenouille, Tukey; Efron and
/// Tibshirani 1993, chapter 11). Missions are the units, because jumpers of one mission share one forecast.
/// </summary>
/// <remarks>
/// The standard error of a figure that is not smooth, like a quantile, is not to be trusted (Efron and Tibshirani, section 11.6); the
/// influences still tell which missions matter.
/// </remarks>
[TypeFormatterSource]
public sealed record MissionJackknife
{
    /// <summary>Fewest missions: of two, each weighs as much as the other, whatever they are.</summary>
    public const int FewestMissions = 3;

    private MissionJackknife()
    {
    }

    /// <summary>The figure of all missions.</summary>
    public required double Value { get; init; }

    /// <summary>Number of missions.</summary>
    public required int Missions { get; init; }

    /// <summary>Estimated bias of the figure: (M−1)·(mean with one left out − value).</summary>
    public required double Bias { get; init; }

    /// <summary>Standard error: √((M−1)/M·Σ(value without − mean)²).</summary>
    public required double StandardError { get; init; }

    /// <summary>Acceleration of the figure: Σu³ / 6(Σu²)^1.5, u the mean less the value without a mission (Efron and Tibshirani, equation 14.15).</summary>
    public required double Acceleration { get; init; }

    /// <summary>The missions, the one with the greatest influence first; equal ones in their order.</summary>
    public required IReadOnlyList<MissionInfluence> Ranked { get; init; }

    /// <summary>Leaves out each mission in turn.</summary>
    /// <param name="missions">Number of missions, M.</param>
    /// <param name="figure">From how often each mission counts (here 0 or 1) to the figure; null when it can't be computed. The array is used again for the next call.</param>
    /// <param name="labels">What the missions are called; their numbers from 0 when left out.</param>
    /// <returns>The influences, or the reason why there are none.</returns>
    /// <exception cref="ArgumentException">Not as many labels as missions.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of missions.</exception>
    public static Fit<MissionJackknife> Of(int missions, Func<int[], double?> figure, IReadOnlyList<string>? labels = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(missions);
        if (labels is not null && labels.Count != missions)
            throw new ArgumentException($"There must be a label for each mission; found {labels.Count} for {missions} missions.", nameof(labels));
        if (missions < FewestMissions)
            return Fit<MissionJackknife>.Refused($"{missions} mission{(missions == 1 ? "" : "s")}; which of them drive a figure can be told from {FewestMissions} on");
        var counts = new int[missions];
        Array.Fill(counts, 1);
        if (figure(counts) is not { } value || !double.IsFinite(value))
            return Fit<MissionJackknife>.Refused("the figure can't be computed from all missions");
        var without = new double[missions];
        for (var m = 0; m < missions; m++)
        {
            counts[m] = 0;
            if (figure(counts) is not { } left || !double.IsFinite(left))
                return Fit<MissionJackknife>.Refused($"without mission {LabelOf(m)} the figure can't be computed");
            (without[m], counts[m]) = (left, 1);
        }
        var mean = without.Average();
        var squares = without.Sum(w => (w - mean) * (w - mean));
        var rounding = 1e-13 * without.Max(Math.Abs);
        if (squares <= missions * rounding * rounding)
            return Fit<MissionJackknife>.Refused("leaving out a mission changes nothing, whichever it is");
        var rms = Math.Sqrt(squares / missions);
        return Fit<MissionJackknife>.Made(new MissionJackknife
        {
            Value = value,
            Missions = missions,
            Bias = (missions - 1) * (mean - value),
            StandardError = Math.Sqrt((missions - 1.0) / missions * squares),
            Acceleration = without.Sum(w => Math.Pow((mean - w) / rms, 3)) / (6 * Math.Pow(missions, 1.5)),
            Ranked = [.. without.Select((w, m) => new MissionInfluence(m, LabelOf(m), w, w - value, (w - mean) / rms)).OrderByDescending(i => Math.Abs(i.Standardised))],
        });

        string LabelOf(int m) => labels?[m] ?? m.ToString(CultureInfo.InvariantCulture);
    }
}
