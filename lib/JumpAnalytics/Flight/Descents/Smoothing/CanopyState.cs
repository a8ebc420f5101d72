namespace JumpAnalytics;

/// <summary>
/// The state of a canopy in the air, and how it moves on: place, steering so far, heading, turn rate, wind and forward speed. Vectors of
/// <see cref="Size"/> numbers; covariances row by row.
/// </summary>
internal static class CanopyState
{
    /// <summary>Number of states.</summary>
    public const int Size = 9;

    /// <summary>
    /// Metres east and north; what was flown through the air so far, metres east and north; heading, radians clockwise from north; turn
    /// rate, rad/s; wind, m/s; natural logarithm of the forward speed in m/s, which keeps it positive.
    /// </summary>
    public const int East = 0, North = 1, SteeringEast = 2, SteeringNorth = 3, Heading = 4, Turn = 5,
        WindEast = 6, WindNorth = 7, Speed = 8;

    /// <summary>Moves a state on with a constant turn rate over a step: an arc through the air, carried by the wind.</summary>
    /// <param name="x">The state.</param>
    /// <param name="seconds">The step.</param>
    /// <param name="keep">What remains of the turn rate after the step.</param>
    /// <param name="next">The state after it.</param>
    public static void Move(ReadOnlySpan<double> x, double seconds, double keep, Span<double> next)
    {
        x.CopyTo(next);
        var (sin, cos, chord) = Arc(x, seconds);
        var flown = Math.Exp(x[Speed]) * chord;
        next[East] += x[WindEast] * seconds + flown * sin;
        next[North] += x[WindNorth] * seconds + flown * cos;
        next[SteeringEast] += flown * sin;
        next[SteeringNorth] += flown * cos;
        next[Heading] += x[Turn] * seconds;
        next[Turn] = keep * x[Turn];
    }

    /// <summary>Derivatives of the step: of the flown way by heading, turn rate and forward speed (east, north).</summary>
    public static StepSlopes Slopes(ReadOnlySpan<double> x, double seconds, double keep)
    {
        var (sin, cos, chord) = Arc(x, seconds);
        var half = x[Turn] * seconds / 2;
        // chord = seconds · sin(half)/half; its derivative by the turn rate
        var bend = Math.Abs(half) < 1e-3
            ? -half * seconds * seconds / 6 : seconds * seconds / 2 * (Math.Cos(half) / half - Math.Sin(half) / (half * half));
        var (v, mid) = (Math.Exp(x[Speed]), seconds / 2);
        return new StepSlopes(seconds, keep,
            ByHeading: (v * chord * cos, -v * chord * sin),
            ByTurn: (v * (bend * sin + chord * mid * cos), v * (bend * cos - chord * mid * sin)),
            BySpeed: (v * chord * sin, v * chord * cos));
    }

    /// <summary>Direction and length of the arc's chord for a forward speed of one.</summary>
    private static (double Sin, double Cos, double Chord) Arc(ReadOnlySpan<double> x, double seconds)
    {
        var half = x[Turn] * seconds / 2;
        var (sin, cos) = Math.SinCos(x[Heading] + half);
        return (sin, cos, seconds * (Math.Abs(half) < 1e-6 ? 1 : Math.Sin(half) / half));
    }
}

/// <summary>The derivatives of one step of <see cref="CanopyState"/> that are not one or zero.</summary>
internal readonly record struct StepSlopes(double Seconds, double Keep, (double East, double North) ByHeading,
    (double East, double North) ByTurn, (double East, double North) BySpeed)
{
    private const int N = CanopyState.Size;

    /// <summary>F·x for a column vector, in place.</summary>
    public void Forward(Span<double> x)
    {
        var (east, north) = Flown(x);
        x[CanopyState.East] += east + Seconds * x[CanopyState.WindEast];
        x[CanopyState.North] += north + Seconds * x[CanopyState.WindNorth];
        x[CanopyState.SteeringEast] += east;
        x[CanopyState.SteeringNorth] += north;
        x[CanopyState.Heading] += Seconds * x[CanopyState.Turn];
        x[CanopyState.Turn] *= Keep;
    }

    /// <summary>Fᵀ·x for a column vector, in place.</summary>
    public void Backward(Span<double> x)
    {
        var (east, north) = (x[CanopyState.East] + x[CanopyState.SteeringEast], x[CanopyState.North] + x[CanopyState.SteeringNorth]);
        x[CanopyState.Turn] = Keep * x[CanopyState.Turn] + ByTurn.East * east + ByTurn.North * north + Seconds * x[CanopyState.Heading];
        x[CanopyState.Heading] += ByHeading.East * east + ByHeading.North * north;
        x[CanopyState.Speed] += BySpeed.East * east + BySpeed.North * north;
        x[CanopyState.WindEast] += Seconds * x[CanopyState.East];
        x[CanopyState.WindNorth] += Seconds * x[CanopyState.North];
    }

    /// <summary>F·P·Fᵀ of a symmetric matrix, in place.</summary>
    public void Forward2(Span<double> p)
    {
        Transposed(p);
        Transposed(p);
    }

    /// <summary>Fᵀ·P·F of a symmetric matrix, in place.</summary>
    public void Backward2(Span<double> p)
    {
        for (var pass = 0; pass < 2; pass++)
        {
            for (var row = 0; row < N; row++) Backward(p.Slice(N * row, N));
            Transpose(p);
        }
    }

    private void Transposed(Span<double> p)
    {
        for (var row = 0; row < N; row++) Forward(p.Slice(N * row, N));
        Transpose(p);
    }

    private (double East, double North) Flown(ReadOnlySpan<double> x) => (
        ByHeading.East * x[CanopyState.Heading] + ByTurn.East * x[CanopyState.Turn] + BySpeed.East * x[CanopyState.Speed],
        ByHeading.North * x[CanopyState.Heading] + ByTurn.North * x[CanopyState.Turn] + BySpeed.North * x[CanopyState.Speed]);

    private static void Transpose(Span<double> p)
    {
        for (var i = 0; i < N; i++)
        {
            for (var j = i + 1; j < N; j++) (p[N * i + j], p[N * j + i]) = (p[N * j + i], p[N * i + j]);
        }
    }
}
