namespace JumpAnalytics;

/// <summary>A fixed effect of a pooled model.</summary>
/// <param name="Name">What it is: the intercept (first band and first terrain), or the difference of another band or terrain.</param>
/// <param name="LogOdds">Its value, log-odds of a hit.</param>
/// <param name="StandardError">Its standard error, from the curvature of the log-likelihood in all that was fitted.</param>
[TypeFormatterSource]
public sealed record FixedEffect(string Name, double LogOdds, double StandardError);

/// <summary>A standard deviation of a pooled model.</summary>
/// <param name="Sd">The standard deviation, log-odds; exactly zero where the likelihood has its maximum there.</param>
/// <param name="StandardError">Its standard error; null where it is zero.</param>
[TypeFormatterSource]
public sealed record PooledSpread(double Sd, double? StandardError);

/// <summary>The effect of one mission, or of one cell: how far its log-odds lie from what is common.</summary>
/// <param name="LogOdds">The conditional mode: the likeliest value with the fixed effects and spreads as fitted.</param>
/// <param name="StandardError">Its standard error with these taken as known.</param>
[TypeFormatterSource]
public sealed record PooledEffect(double LogOdds, double StandardError);

/// <summary>One mission in a pooled model.</summary>
/// <param name="Mission">Which mission.</param>
/// <param name="Landings">Its landings.</param>
/// <param name="Hits">Hits among them.</param>
/// <param name="Effect">Its effect.</param>
[TypeFormatterSource]
public sealed record PooledMission(string Mission, int Landings, int Hits, PooledEffect Effect);

/// <summary>One cell of wind band and terrain in a pooled model.</summary>
[TypeFormatterSource]
public sealed record PooledCell
{
    /// <summary>Wind band and terrain.</summary>
    public required Cell Cell { get; init; }

    /// <summary>Label of the wind band.</summary>
    public string WindBand => Cell.WindBand;

    /// <summary>Terrain class.</summary>
    public string Terrain => Cell.Terrain;

    /// <summary>Missions with landings in the cell.</summary>
    public required int Missions { get; init; }

    /// <summary>Landings in the cell.</summary>
    public required int Landings { get; init; }

    /// <summary>Hits among them.</summary>
    public required int Hits { get; init; }

    /// <summary>Hits over landings, 0 to 1; null without landings.</summary>
    public double? Counted => Landings > 0 ? (double)Hits / Landings : null;

    /// <summary>The effect of the cell at the fitted spread; null in a model without, and zero without landings.</summary>
    public required PooledEffect? Effect { get; init; }

    /// <summary>The rate that band and terrain alone give the cell on a mission not yet flown, 0 to 1, or why there is none.</summary>
    public required Fit<Estimate> ModelRate { get; init; }

    /// <summary>
    /// The pooled rate: the chance of a hit on a mission not yet flown, with its interval, or why there is none. Its uncertainty is that of
    /// fixed effects, of the cell's effect and of both spreads.
    /// </summary>
    public required Fit<Estimate> Rate { get; init; }

    /// <summary>
    /// How strongly the cell was pulled from its own landings towards the model: 0, its landings alone count; 1, the model alone. It is the
    /// variance of the cell's effect over what it was before any landing was seen.
    /// </summary>
    public required double Pull { get; init; }
}
