namespace JumpAnalytics;

/// <summary>How a descent track is reduced. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record FlownDescentOptions
{
    /// <summary>Metres of height for each level of the wind profile; 50 unless said otherwise.</summary>
    public double LayerDepth { get; init; } = 50;

    /// <summary>
    /// Standard deviation of the wind along its worst direction beyond which a layer is refused, m/s; 2 unless said otherwise.
    /// </summary>
    public double WidestWind { get; init; } = 2;

    /// <summary>
    /// Turning in all that is asked for before wind and steering are told apart, degrees; 200 unless said otherwise. Straight
    /// flight tells their sum alone.
    /// </summary>
    public double LeastTurning { get; init; } = 200;

    /// <summary>
    /// How much better the places must be explained by a canopy that turns than by one without forward speed in a wind that changes, in
    /// units of deviance (twice the log-likelihood); 15 unless said otherwise. Straight flight gave less than 0 in all descents simulated,
    /// two full turns more than 15 in most.
    /// </summary>
    public double LeastEvidence { get; init; } = 15;

    /// <summary>
    /// The longest time between two points, seconds; 3 unless said otherwise. A full turn of 6 to 8 s (common practice, no source)
    /// can't be followed with fewer.
    /// </summary>
    public double SparsestSampling { get; init; } = 3;

    /// <summary>
    /// Forward speed of the canopy where it is known beforehand, m/s. It lifts <see cref="LeastTurning"/> but not
    /// <see cref="LeastEvidence"/>: whether a straight flight went with the wind or against it no speed tells. Simulated ram-air canopies
    /// with half a turn were refused in 98 of 100 all the same.
    /// </summary>
    public double? ForwardSpeed { get; init; }

    /// <summary>Standard deviation of that, m/s; 0.5 unless said otherwise.</summary>
    public double ForwardSpeedSd { get; init; } = 0.5;

    /// <summary>
    /// Metres above the landing ground at exit, where known: tells how much of the descent a recorder switched on late has not seen.
    /// </summary>
    public double? ExitHeight { get; init; }

    /// <summary>Seed of the fresh noise by which the errors of weakly told descents are found.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Refuses what makes no sense.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A depth, speed, time or deviation is not above zero, the least turning is negative, or one of them is no number.
    /// </exception>
    internal void Check()
    {
        Guard.Above(LayerDepth, 0);
        Guard.Above(WidestWind, 0);
        Guard.Above(SparsestSampling, 0);
        Guard.Above(ForwardSpeedSd, 0);
        if (ForwardSpeed is { } speed) Guard.Above(speed, 0, nameof(ForwardSpeed));
        Guard.AtLeast(LeastTurning, 0);
        if (double.IsNaN(LeastEvidence)) throw Guard.Refused(nameof(LeastEvidence), LeastEvidence, "a number");
        if (ExitHeight is { } height) Guard.Finite(height, nameof(ExitHeight));
    }
}
