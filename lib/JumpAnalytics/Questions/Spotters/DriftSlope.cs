namespace JumpAnalytics;

/// <summary>
/// How a miss grows with the length of the forecast drift: miss = at no drift + share · drift. An error in proportion (a wind read some
/// percent low, a compass some degrees off) shows as a share other than zero and nothing at no drift; an error of so many metres
/// whatever the drift as the contrary.
/// </summary>
/// <remarks>
/// Least squares over landings. Standard errors: each mission left out in turn (<see cref="ClusterJackknife"/>), which supposes nothing of
/// what landings of a mission share nor that errors are as large in a long drift as in a short one; t on M − 2 degrees. It errs to the
/// wide side with few missions.
/// </remarks>
/// <param name="Share">Metres of miss for each metre of forecast drift, with its interval.</param>
/// <param name="AtNoDrift">Miss that the line has at no drift, metres, with its interval.</param>
/// <param name="ShortestDrift">Shortest forecast drift, metres.</param>
/// <param name="LongestDrift">Longest forecast drift, metres.</param>
/// <param name="Missions">Missions with a landing whose place is known.</param>
/// <param name="Landings">Those landings.</param>
[TypeFormatterSource]
public sealed record DriftSlope(Estimate Share, Estimate AtNoDrift, double ShortestDrift, double LongestDrift, int Missions, int Landings)
{
    /// <summary>Fits the line.</summary>
    /// <param name="missions">Forecast drift and miss of the landings of each mission, metres.</param>
    /// <param name="confidence">Coverage.</param>
    internal static Fit<DriftSlope> Of(IReadOnlyList<IReadOnlyList<(double Drift, double Miss)>> missions, double confidence)
    {
        var sums = new MissionSums(missions);
        var (slope, start) = (ClusterJackknife.Of(missions.Count, sums.Slope), ClusterJackknife.Of(missions.Count, sums.AtZero));
        if (!slope.Success || !start.Success) return Fit<DriftSlope>.Refused(
            "the forecast drifts are too much alike, or the missions too few, to tell how the miss goes with them");
        var t = MeanMiss.Quantile(missions.Count - 2, confidence);
        var drifts = missions.SelectMany(m => m).Select(p => p.Drift).ToList();
        return Fit<DriftSlope>.Made(new DriftSlope(Range(slope.Value), Range(start.Value), drifts.Min(),
            drifts.Max(), missions.Count, drifts.Count));

        Estimate Range(ClusterJackknife figure) =>
            Estimate.Of(figure.Value, new Interval(figure.Value - t * figure.StandardError, figure.Value + t * figure.StandardError));
    }
}
