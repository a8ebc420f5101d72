namespace JumpAnalytics;

/// <summary>What an analysis of stick sizes is asked for. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record StickOptions
{
    /// <summary>No stick larger than that is reckoned with.</summary>
    public const int MostJumpers = 16;

    private readonly int _largest = 8;
    private readonly double? _radius, _gap, _passThrough, _wanted;

    /// <summary>The largest stick that is told; 8 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 1 to 16.</exception>
    public int Largest
    {
        get => _largest;
        init => _largest = Guard.Within(value, 1, MostJumpers, nameof(Largest), "jumpers");
    }

    /// <summary>Metres; target radius that is reckoned with. Null: the median of the landings.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double? TargetRadius
    {
        get => _radius;
        init => _radius = value is { } radius ? Guard.Positive(radius, nameof(TargetRadius), "metres, or null") : null;
    }

    /// <summary>
    /// Metres along the run between two exits: ground speed × spacing. Null: the median of the passes that have both on record.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public double? ExitGap
    {
        get => _gap;
        init => _gap = value is { } gap ? Guard.NotNegative(gap, nameof(ExitGap), "metres, or null") : null;
    }

    /// <summary>
    /// The reader's own share of an exit's offset that is left in the landing: 0 when jumpers steer it off, 1 when none of it.
    /// Null: estimated from the records.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 0 to 1.</exception>
    public double? PassThrough
    {
        get => _passThrough;
        init => _passThrough = value is { } share ? Guard.Within(share, 0, 1, nameof(PassThrough), "or null") : null;
    }

    /// <summary>
    /// The reader's own wanted probability that a whole stick is inside; null when none is asked for. There is no default, for it
    /// is no limit of the library's.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double? Wanted
    {
        get => _wanted;
        init => _wanted = value is { } wanted ? Guard.Share(wanted, nameof(Wanted), "or null") : null;
    }
}
