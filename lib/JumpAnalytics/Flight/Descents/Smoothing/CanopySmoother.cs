namespace JumpAnalytics;

/// <summary>What the smoother takes for known of how canopies and winds move.</summary>
/// <param name="TurnJitter">How fast a jumper changes the turn rate: variance of it per second, rad²/s³.</param>
/// <param name="TurnMemory">Seconds after which a turn rate is forgotten.</param>
/// <param name="WindJitter">
/// How fast the wind met changes on the way down, by height and by gusts: variance per second and axis, m²/s³.
/// </param>
/// <param name="SpeedJitter">How fast the forward speed changes: variance of its logarithm per second.</param>
internal readonly record struct CanopyMotion(double TurnJitter, double TurnMemory, double WindJitter, double SpeedJitter);

/// <summary>
/// Wind, heading and forward speed along a descent from noisy places: the iterated extended Kalman smoother, which is Gauss and Newton's
/// method on the whole descent at once (Bell 1994, SIAM Journal on Optimization 4:626-636; from memory), with the backward pass of Bryson
/// and Frazier, which inverts no matrix.
/// </summary>
internal sealed class CanopySmoother
{
    private const int N = CanopyState.Size;

    private readonly double[] _seconds, _east, _north, _variance;
    private readonly double[] _nominal, _next, _mean, _covariance, _innovation, _gain;
    private readonly StepSlopes[] _slopes;
    private readonly int _steps;

    /// <summary>Prepares a descent.</summary>
    /// <param name="seconds">Times, rising.</param>
    /// <param name="east">Metres.</param>
    /// <param name="north">Metres.</param>
    /// <param name="variance">Variance of each place per axis, m²; infinite where no place is known.</param>
    public CanopySmoother(double[] seconds, double[] east, double[] north, double[] variance)
    {
        (_seconds, _east, _north, _variance, _steps) = (seconds, east, north, variance, seconds.Length);
        (_nominal, _next, _mean) = (new double[_steps * N], new double[_steps * N], new double[_steps * N]);
        (_covariance, _innovation, _gain, _slopes) =
            (new double[_steps * N * N], new double[_steps * 4], new double[_steps * 2 * N], new StepSlopes[_steps]);
    }

    /// <summary>The state at each time after the last round, <see cref="CanopyState.Size"/> numbers a time.</summary>
    public ReadOnlySpan<double> States => _nominal;

    /// <summary>Minus twice the log-likelihood of the places under the last linearisation, up to a constant of the data.</summary>
    public double Deviance { get; private set; }

    /// <summary>Mean squared innovation in units of its variance: 1 when the noise is as stated.</summary>
    public double InnovationScale { get; private set; }

    /// <summary>Sets the path that the first round is linearised about.</summary>
    public void StartFrom(ReadOnlySpan<double> states) => states.CopyTo(_nominal);

    /// <summary>One round: filter forward about the present path, smooth backward, and take the result for the next path.</summary>
    /// <param name="motion">How canopies and winds move.</param>
    /// <param name="start">Mean of the state before the first place.</param>
    /// <param name="startVariance">Its variances.</param>
    /// <returns>The largest change of a place, metres, and of a heading, radians times metres per second: how far the path moved.</returns>
    public double Round(CanopyMotion motion, ReadOnlySpan<double> start, ReadOnlySpan<double> startVariance)
    {
        Filter(motion, start, startVariance);
        Smooth();
        var moved = 0.0;
        for (var i = 0; i < _nominal.Length; i++)
        {
            moved = Math.Max(moved, Math.Abs(_next[i] - _nominal[i]));
            _nominal[i] = _next[i];
        }
        return moved;
    }

    /// <summary>
    /// A first path by following the places from one to the next, each step linearised about what the places so far
    /// have told, then smoothed.
    /// </summary>
    public void Follow(CanopyMotion motion, ReadOnlySpan<double> start, ReadOnlySpan<double> startVariance)
    {
        Filter(motion, start, startVariance, following: true);
        Smooth();
        _next.CopyTo(_nominal, 0);
    }

    private void Filter(CanopyMotion motion, ReadOnlySpan<double> start, ReadOnlySpan<double> startVariance, bool following = false)
    {
        Span<double> m = stackalloc double[N], moved = stackalloc double[N], p = stackalloc double[N * N];
        start.CopyTo(m);
        p.Clear();
        for (var i = 0; i < N; i++) p[(N + 1) * i] = startVariance[i];
        var (deviance, squares, seen) = (0.0, 0.0, 0);
        for (var k = 0; k < _steps; k++)
        {
            if (k > 0)
            {
                var step = _seconds[k] - _seconds[k - 1];
                var keep = Math.Exp(-step / motion.TurnMemory);
                var from = _nominal.AsSpan((k - 1) * N, N);
                if (following) m.CopyTo(from);
                CanopyState.Move(from, step, keep, moved);
                _slopes[k] = CanopyState.Slopes(from, step, keep);
                for (var i = 0; i < N; i++) m[i] -= from[i];
                _slopes[k].Forward(m);
                for (var i = 0; i < N; i++) m[i] += moved[i];
                _slopes[k].Forward2(p);
                AddNoise(p, motion, step);
            }
            for (var axis = 0; axis < 2; axis++)
            {
                var at = k * 4 + 2 * axis;
                var gain = _gain.AsSpan((k * 2 + axis) * N, N);
                var variance = p[(N + 1) * axis] + _variance[k];
                if (double.IsInfinity(variance))
                {
                    (_innovation[at], _innovation[at + 1]) = (0, double.PositiveInfinity);
                    gain.Clear();
                    continue;
                }
                var innovation = (axis == 0 ? _east[k] : _north[k]) - m[axis];
                (_innovation[at], _innovation[at + 1]) = (innovation, variance);
                var row = p.Slice(N * axis, N);
                for (var i = 0; i < N; i++) gain[i] = row[i] / variance;
                for (var i = 0; i < N; i++) m[i] += gain[i] * innovation;
                for (var i = 0; i < N; i++)
                {
                    for (var j = 0; j < N; j++) p[N * i + j] -= gain[i] * gain[j] * variance;
                }
                deviance += innovation * innovation / variance + Math.Log(variance);
                squares += innovation * innovation / variance;
                seen++;
            }
            m.CopyTo(_mean.AsSpan(k * N, N));
            p.CopyTo(_covariance.AsSpan(k * N * N, N * N));
        }
        (Deviance, InnovationScale) = (deviance, seen > 0 ? squares / seen : 1);
    }

    /// <summary>
    /// Turn rate, wind and forward speed wander; heading and way take up what the turn rate and the wind do within the step.
    /// </summary>
    private static void AddNoise(Span<double> p, CanopyMotion motion, double step)
    {
        var (turn, wind) = (motion.TurnJitter, motion.WindJitter);
        Pair(p, CanopyState.Heading, CanopyState.Turn, turn, step);
        Pair(p, CanopyState.East, CanopyState.WindEast, wind, step);
        Pair(p, CanopyState.North, CanopyState.WindNorth, wind, step);
        p[(N + 1) * CanopyState.Speed] += motion.SpeedJitter * step;

        static void Pair(Span<double> p, int sum, int rate, double jitter, double step)
        {
            p[(N + 1) * rate] += jitter * step;
            p[(N + 1) * sum] += jitter * step * step * step / 3;
            p[N * sum + rate] += jitter * step * step / 2;
            p[N * rate + sum] += jitter * step * step / 2;
        }
    }

    /// <summary>The backward pass for the means; with a buffer, the covariances too.</summary>
    private void Smooth(double[]? covariances = null)
    {
        Span<double> lambda = stackalloc double[N], big = stackalloc double[covariances is null ? 0 : N * N],
            work = stackalloc double[N * N];
        lambda.Clear();
        big.Clear();
        for (var k = _steps - 1; k >= 0; k--)
        {
            var mean = _mean.AsSpan(k * N, N);
            var p = _covariance.AsSpan(k * N * N, N * N);
            for (var i = 0; i < N; i++)
            {
                var sum = mean[i];
                for (var j = 0; j < N; j++) sum -= p[N * i + j] * lambda[j];
                _next[k * N + i] = sum;
            }
            if (covariances is not null) Sandwich(p, big, work, covariances.AsSpan(k * N * N, N * N));
            for (var axis = 1; axis >= 0; axis--)
            {
                var (innovation, variance) = (_innovation[k * 4 + 2 * axis], _innovation[k * 4 + 2 * axis + 1]);
                if (double.IsInfinity(variance)) continue;
                var gain = _gain.AsSpan((k * 2 + axis) * N, N);
                // λ ← (I − K H)ᵀ λ − Hᵀ innovation / variance
                var along = 0.0;
                for (var i = 0; i < N; i++) along += gain[i] * lambda[i];
                lambda[axis] -= along + innovation / variance;
                if (covariances is null) continue;
                for (var i = 0; i < N; i++)
                {
                    var sum = 0.0;
                    for (var j = 0; j < N; j++) sum += big[N * i + j] * gain[j];
                    work[i] = sum; // Λ K
                }
                var both = 1 / variance;
                for (var i = 0; i < N; i++) both += gain[i] * work[i];
                for (var i = 0; i < N; i++)
                {
                    big[N * i + axis] -= work[i];
                    big[N * axis + i] -= work[i];
                }
                big[(N + 1) * axis] += both;
            }
            if (k == 0) continue;
            _slopes[k].Backward(lambda);
            if (covariances is not null) _slopes[k].Backward2(big);
        }
    }

    /// <summary>P − P Λ P.</summary>
    private static void Sandwich(ReadOnlySpan<double> p, ReadOnlySpan<double> lambda, Span<double> work, Span<double> result)
    {
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                var sum = 0.0;
                for (var l = 0; l < N; l++) sum += lambda[N * i + l] * p[N * l + j];
                work[N * i + j] = sum;
            }
        }
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
            {
                var sum = p[N * i + j];
                for (var l = 0; l < N; l++) sum -= p[N * i + l] * work[N * l + j];
                result[N * i + j] = sum;
            }
        }
    }

    /// <summary>Covariances of the smoothed states about the present path, row by row for each time.</summary>
    public double[] Covariances(CanopyMotion motion, ReadOnlySpan<double> start, ReadOnlySpan<double> startVariance)
    {
        Filter(motion, start, startVariance);
        var covariances = new double[_steps * N * N];
        Smooth(covariances);
        return covariances;
    }
}
