namespace JumpAnalytics;

/// <summary>One layer of a descent, as its track tells it.</summary>
[TypeFormatterSource]
public sealed record WindLayer
{
    /// <summary>Metres above the landing ground.</summary>
    public required double Bottom { get; init; }

    /// <summary>Metres above the landing ground.</summary>
    public required double Top { get; init; }

    /// <summary>The wind in the middle of the layer with its error, or why it is not told.</summary>
    public required Fit<WindLevel> Wind { get; init; }

    /// <summary>Forward speed there, m/s.</summary>
    public required double ForwardSpeed { get; init; }

    /// <summary>Standard deviation of that.</summary>
    public required double ForwardSpeedSd { get; init; }

    /// <summary>Metres per second downward.</summary>
    public required double DescentRate { get; init; }

    /// <summary>Mean size of the turn rate, degrees per second.</summary>
    public required double TurnRate { get; init; }

    /// <summary>Degrees turned in the layer, to either side.</summary>
    public required double Turned { get; init; }

    /// <summary>Points of the track in the layer.</summary>
    public required int Points { get; init; }
}
