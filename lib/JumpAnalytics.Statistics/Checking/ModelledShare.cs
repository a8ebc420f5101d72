namespace JumpAnalytics;

/// <summary>A share of landings as a model has it and as it was observed.</summary>
/// <param name="Radius">Distance from the spot that parts the landings, metres.</param>
/// <param name="Modelled">Share on the side asked for under the model.</param>
/// <param name="Observed">Share of the landings that were there.</param>
/// <param name="StandardError">
/// Between-mission standard error of the observed share (linearised, as a ratio of two totals over missions: Cochran, Sampling Techniques, 1977,
/// section 6); null with a single mission.
/// </param>
/// <param name="Landings">Landings whose side is known: all but those known only as beyond a shorter distance.</param>
[TypeFormatterSource]
public sealed record ModelledShare(double Radius, double Modelled, double Observed, double? StandardError, int Landings)
{
    // Standard errors that a difference must reach to be called one.
    private const double Clear = 2;

    /// <summary>+1 when clearly more landings were there than the model has, −1 when clearly fewer, 0 when it can't be told (two standard errors).</summary>
    public int Direction => StandardError is { } error && Math.Abs(Observed - Modelled) > Clear * error ? Math.Sign(Observed - Modelled) : 0;

    /// <summary>The share of landings no farther than a radius; null when no landing's side is known.</summary>
    internal static ModelledShare? Within(MissSample sample, double radius, double modelled)
    {
        var (within, total) = (new int[sample.Missions], new int[sample.Missions]);
        for (var i = 0; i < sample.Misses.Length; i++)
        {
            total[sample.MissionOfPlaced[i]]++;
            if (sample.Misses[i].Length <= radius) within[sample.MissionOfPlaced[i]]++;
        }
        for (var i = 0; i < sample.Beyond.Count; i++)
        {
            if (sample.Beyond[i] >= radius) total[sample.MissionOfBeyond[i]]++;
        }
        var landings = total.Sum();
        if (landings == 0) return null;
        var (share, missions, sum) = ((double)within.Sum() / landings, total.Count(t => t > 0), 0.0);
        for (var m = 0; m < total.Length; m++) sum += Math.Pow(within[m] - share * total[m], 2);
        double? error = missions > 1 ? Math.Sqrt(sum * missions / (missions - 1.0)) / landings : null;
        return new ModelledShare(radius, modelled, share, error, landings);
    }

    /// <summary>The share farther than the radius.</summary>
    internal ModelledShare Others() => this with { Modelled = 1 - Modelled, Observed = 1 - Observed };
}
