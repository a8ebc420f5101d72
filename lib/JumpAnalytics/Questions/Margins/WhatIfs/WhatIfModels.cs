namespace JumpAnalytics;

/// <summary>What a scenario that asks for landings nobody made is modelled with.</summary>
[TypeFormatterSource]
public sealed record WhatIfModels
{
    /// <summary>
    /// Standard deviation of the miss on streamers of the second age over that on streamers of the first, seconds, with its interval; null
    /// when the growth is not known or not shown.
    /// </summary>
    public Func<double, double, Estimate>? SpreadRatio { get; init; }

    /// <summary>
    /// Share of an exit's offset along the run that is left in the landing: 0 when jumpers steer it off, 1 when
    /// none of it; null when not known.
    /// </summary>
    public Estimate? PassThrough { get; init; }

    /// <summary>No model: scenarios that need one are refused.</summary>
    public static WhatIfModels None { get; } = new();
}
