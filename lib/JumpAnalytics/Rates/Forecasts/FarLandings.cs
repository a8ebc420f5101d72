namespace JumpAnalytics;

/// <summary>Landings beyond a distance, in a resample of missions: their share, and their part in the variance.</summary>
/// <param name="Count">How many.</param>
/// <param name="Share">Share of all landings.</param>
/// <param name="MeanSquare">Mean squared distance, m².</param>
internal readonly record struct FarLandings(int Count, double Share, double MeanSquare)
{
    /// <summary>Standard deviation per axis that goes with the mean square, metres.</summary>
    public double Sd => Math.Sqrt(MeanSquare / 2);

    public static FarLandings Of(IReadOnlyList<IReadOnlyList<Landing>> missions, int[] draws, double cut)
    {
        var (all, far, squares) = (0, 0, 0.0);
        for (var m = 0; m < missions.Count; m++)
        {
            if (draws[m] == 0) continue;
            foreach (var landing in missions[m])
            {
                all += draws[m];
                if (landing.Miss!.Value.Length is var distance && distance <= cut) continue;
                far += draws[m];
                squares += draws[m] * distance * distance;
            }
        }
        return new FarLandings(far, all > 0 ? (double)far / all : 0, far > 0 ? squares / far : 0);
    }

    /// <summary>Shares of the mean square of a landing: of each source among the others, and last of the far ones.</summary>
    /// <param name="traces">Mean square that each source adds to a landing that is not far, m².</param>
    public double[] Shares(double[] traces)
    {
        var (near, far) = (1 - Share, Share * MeanSquare);
        var total = near * traces.Sum() + far;
        return [.. traces.Select(t => total > 0 ? near * t / total : 0), total > 0 ? far / total : 0];
    }

    /// <summary>
    /// Changes of the hit rate of all landings: of each source among the others, and last of the far ones, which do not hit.
    /// </summary>
    /// <param name="rate">Hit rate of the others.</param>
    /// <param name="near">Its changes.</param>
    public (double[] Halved, double[] Removed) Changes(double rate, (double[] Halved, double[] Removed) near)
    {
        var share = Share;
        return ([.. near.Halved.Select(c => (1 - share) * c), share / 2 * rate],
            [.. near.Removed.Select(c => (1 - share) * c), share * rate]);
    }
}
