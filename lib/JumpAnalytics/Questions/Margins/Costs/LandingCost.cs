namespace JumpAnalytics;

/// <summary>A side of the spot as seen along the forecast drift.</summary>
public enum DriftSide
{
    /// <summary>Beyond the spot, downwind.</summary>
    Long,

    /// <summary>Before the spot, upwind.</summary>
    Short,

    /// <summary>Left of the forecast drift.</summary>
    Left,

    /// <summary>Right of the forecast drift.</summary>
    Right,
}

/// <summary>What a landing off the spot costs its jumper, in metres of walk: all numbers are the reader's.</summary>
/// <remarks>
/// Cost = metres short + ratio × metres long + metres across, and a fixed cost for landing farther out on the side to
/// keep out of than some distance.
/// </remarks>
[TypeFormatterSource]
public sealed record LandingCost
{
    private readonly double _ratio = 1, _beyond, _cost;

    /// <summary>What a metre long costs in metres short: 2 when the way back is twice as hard. 1 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero, or not finite.</exception>
    public double LongOverShort
    {
        get => _ratio;
        init => _ratio = Guard.Positive(value, nameof(LongOverShort), "for instance 2");
    }

    /// <summary>A side to keep out of; null when there is none.</summary>
    public DriftSide? KeepOut { get; init; }

    /// <summary>Metres from the spot at which that side begins.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double KeepOutFrom
    {
        get => _beyond;
        init => _beyond = Guard.NotNegative(value, nameof(KeepOutFrom), "metres");
    }

    /// <summary>What landing there costs beside the walk, in metres of walk.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double KeepOutCost
    {
        get => _cost;
        init => _cost = Guard.NotNegative(value, nameof(KeepOutCost), "metres of walk");
    }

    /// <summary>A cost from settings in a report's units.</summary>
    /// <param name="units">Units of the distances.</param>
    /// <param name="longOverShort">What a metre long costs in metres short.</param>
    /// <param name="keepOut"><c>none</c>, <c>long</c>, <c>short</c>, <c>left</c> or <c>right</c>.</param>
    /// <param name="from">Distance from the spot at which that side begins.</param>
    /// <param name="cost">What landing there costs beside the walk, as a length of walk.</param>
    /// <exception cref="ArgumentException">Another side.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number that can't be.</exception>
    public static LandingCost Of(ReportUnits units, double longOverShort, string keepOut, double from, double cost)
    {
        DriftSide? side = keepOut.Trim().ToLowerInvariant() switch
        {
            "none" or "" => null,
            "long" => DriftSide.Long,
            "short" => DriftSide.Short,
            "left" => DriftSide.Left,
            "right" => DriftSide.Right,
            _ => throw new ArgumentException($"'{keepOut}' is no side to keep out of; there are none, long, short, left and right.",
                nameof(keepOut)),
        };
        return new LandingCost { LongOverShort = longOverShort, KeepOut = side, KeepOutFrom = side is null ? 0 : units.Distance.ToSi(from),
            KeepOutCost = side is null ? 0 : units.Distance.ToSi(cost) };
    }

    /// <summary>Cost of the part of a miss along the drift, smoothed by a normal of some width.</summary>
    internal double Along(double downwind, double width)
    {
        var (beyond, before) = Smoothing.Above(downwind, width);
        return LongOverShort * beyond + before + KeepOut switch
        {
            DriftSide.Long => KeepOutCost * Smoothing.Share(downwind - KeepOutFrom, width),
            DriftSide.Short => KeepOutCost * Smoothing.Share(-downwind - KeepOutFrom, width),
            _ => 0,
        };
    }

    /// <summary>Cost of the part of a miss across the drift, smoothed likewise.</summary>
    internal double Across(double right, double width)
    {
        var (beyond, before) = Smoothing.Above(right, width);
        return beyond + before + KeepOut switch
        {
            DriftSide.Right => KeepOutCost * Smoothing.Share(right - KeepOutFrom, width),
            DriftSide.Left => KeepOutCost * Smoothing.Share(-right - KeepOutFrom, width),
            _ => 0,
        };
    }
}
