namespace JumpAnalytics;

/// <summary>The smoothed descent: states and their covariances, and what was learnt about noise and motion on the way.</summary>
internal sealed record DescentFit
{
    private const int N = CanopyState.Size;

    /// <summary>
    /// Forward speed before a track is looked at, m/s, and the standard deviation of its logarithm: 95 % of canopies between 2 and 15 m/s.
    /// Published figures lie between 4 and 25 mph, 1.8 to 11 m/s (fire aviation trade article of 3 May 2017, handbooks of sport
    /// parachuting; 4 mph for a slotted round is common practice, no source).
    /// </summary>
    private const double UsualSpeed = 5.5, UsualSpeedSd = 0.5;

    /// <summary>Wind before a track is looked at: standard deviation per axis about the mean ground velocity, m/s.</summary>
    private const double UsualWindSd = 8;

    private static readonly CanopyMotion _usual = new(TurnJitter: 0.06, TurnMemory: 15, WindJitter: 0.015, SpeedJitter: 0.0002);

    /// <summary>Values of the jitters that are tried, by likelihood.</summary>
    private static readonly double[] _turns = [0.03, 0.12, 0.25], _winds = [0.03, 0.08], _gusts = [0.008, 0.05, 0.3, 1.5];

    public required double[] States { get; init; }

    public required double[] Covariances { get; init; }

    /// <summary>Standard deviation of a place per axis, metres.</summary>
    public required double PlaceSd { get; init; }

    public required CanopyMotion Motion { get; init; }

    /// <summary>Minus twice the log-likelihood, up to a constant of the track.</summary>
    public required double Deviance { get; init; }

    /// <summary>
    /// The same had the canopy no forward speed and all turning been the wind's: how much less the places are explained so.
    /// </summary>
    public required double DevianceWithoutTurns { get; init; }

    /// <summary>Evidence of turns, in units of deviance, from which one good path is taken for the best.</summary>
    public const double Strong = 150;

    /// <summary>
    /// How much better the places are explained by a canopy that turns than by one without forward speed in a changing wind.
    /// </summary>
    public double Evidence => DevianceWithoutTurns - Deviance;

    /// <summary>Fits a descent from the best of several starts; null where there is none.</summary>
    public static DescentFit? Of(DescentBlocks blocks, double placeSd, FlownDescentOptions options)
    {
        var search = new Search(blocks, Math.Pow(Math.Clamp(placeSd, 0.3, 15), 2), options);
        var settled = DescentStarts.Circles(blocks, options).SelectMany(search.Tried).ToList();
        if (settled.Count > 0 && search.WithoutTurns() - settled.Min(c => c.Deviance) >= Strong) return search.Refined(settled, 1);
        settled.AddRange(DescentStarts.Offsets(blocks, options).SelectMany(search.Tried));
        return settled.Count == 0 ? null : search.Refined(settled, 2);
    }

    private sealed class Search
    {
        private readonly DescentBlocks _blocks;
        private readonly double[] _first = new double[N], _firstVariance = new double[N];
        private double _scale;
        private CanopySmoother _smoother;

        public Search(DescentBlocks blocks, double scale, FlownDescentOptions options)
        {
            (_blocks, _scale) = (blocks, scale);
            var (a, b) = (blocks.Known.First(), blocks.Known.Last());
            var seconds = blocks.Seconds[b] - blocks.Seconds[a];
            (_first[CanopyState.East], _first[CanopyState.North]) = (blocks.East[a], blocks.North[a]);
            (_first[CanopyState.WindEast], _first[CanopyState.WindNorth]) =
                ((blocks.East[b] - blocks.East[a]) / seconds, (blocks.North[b] - blocks.North[a]) / seconds);
            _first[CanopyState.Speed] = Math.Log(options.ForwardSpeed ?? UsualSpeed);
            _firstVariance[CanopyState.East] = _firstVariance[CanopyState.North] = 1e3;
            (_firstVariance[CanopyState.Heading], _firstVariance[CanopyState.Turn]) = (10, 0.3);
            _firstVariance[CanopyState.WindEast] = _firstVariance[CanopyState.WindNorth] = UsualWindSd * UsualWindSd;
            _firstVariance[CanopyState.Speed] =
                Math.Pow(options.ForwardSpeed is { } known ? options.ForwardSpeedSd / known : UsualSpeedSd, 2);
            _smoother = Smoother();
        }

        /// <summary>A start as it is, and the path that follows the places from where it begins; each settled for some rounds.</summary>
        public IEnumerable<(double[] States, double Deviance)> Tried(double[] start) =>
            [Settled(start, _usual, 7), Settled(Followed(start, _usual), _usual, 7)];

        /// <summary>The best path with the noise and the motion that make the places likeliest; null when it does not settle.</summary>
        public DescentFit? Refined(IEnumerable<(double[] States, double Deviance)> candidates, int passes)
        {
            var best = candidates.OrderBy(c => c.Deviance).Take(1 + passes).Select(c => Settled(c.States, _usual, 20))
                .MinBy(c => c.Deviance);
            if (!best.States.All(double.IsFinite) || !double.IsFinite(best.Deviance)) return null;
            var (states, motion) = (best.States, _usual);
            for (var pass = 0; pass < passes; pass++)
            {
                for (var rescale = 0; rescale < 2; rescale++) (states, _) = Rescaled(states, motion);
                motion = Likeliest(ref states, motion, _turns.Append(motion.TurnJitter), (m, v) => m with { TurnJitter = v });
                motion = Likeliest(ref states, motion, _winds.Append(motion.WindJitter), (m, v) => m with { WindJitter = v });
            }
            return Final(states, motion);
        }

        private (double[] States, double Deviance) Settled(double[] start, CanopyMotion motion, int rounds)
        {
            _smoother.StartFrom(start);
            _first[CanopyState.Heading] = start[CanopyState.Heading]; // whole turns of the first heading are free
            for (var round = 0; round < rounds && _smoother.Round(motion, _first, _firstVariance) > 1e-3; round++)
            {
            }
            return (_smoother.States.ToArray(), double.IsFinite(_smoother.Deviance) ? _smoother.Deviance : double.PositiveInfinity);
        }

        /// <summary>The path that follows the places from the wind, forward speed and heading that a start begins with.</summary>
        private double[] Followed(double[] start, CanopyMotion motion)
        {
            double[] first = [.. _first], variance = [.. _firstVariance];
            foreach (var i in new[] { CanopyState.Heading, CanopyState.Turn, CanopyState.WindEast, CanopyState.WindNorth,
                CanopyState.Speed }) first[i] = start[i];
            (variance[CanopyState.Heading], variance[CanopyState.WindEast], variance[CanopyState.WindNorth], variance[CanopyState.Speed]) =
                (0.5, 4, 4, 0.1);
            _smoother.Follow(motion, first, variance);
            return _smoother.States.ToArray();
        }

        private (double[] States, double Deviance) Rescaled(double[] states, CanopyMotion motion)
        {
            Settled(states, motion, 1);
            _scale = Math.Clamp(_scale * _smoother.InnovationScale, 0.05, 400);
            _smoother = Smoother();
            return Settled(states, motion, 6);
        }

        private CanopyMotion Likeliest(ref double[] states, CanopyMotion motion, IEnumerable<double> values,
            Func<CanopyMotion, double, CanopyMotion> with)
        {
            var from = states;
            var best = values.Select(v => with(motion, v)).Select(m => (Motion: m, Fit: Settled(from, m, 5))).MinBy(c => c.Fit.Deviance);
            states = best.Fit.States;
            return best.Motion;
        }

        private DescentFit Final(double[] states, CanopyMotion motion)
        {
            Settled(states, motion, 10);
            var covariances = _smoother.Covariances(motion, _first, _firstVariance);
            var (found, deviance) = (_smoother.States.ToArray(), _smoother.Deviance);
            return new DescentFit { States = found, Covariances = covariances, PlaceSd = Math.Sqrt(_scale), Motion = motion,
                Deviance = deviance, DevianceWithoutTurns = WithoutTurns() };
        }

        /// <summary>The least deviance of a canopy without forward speed, over winds that may change ever faster.</summary>
        public double WithoutTurns()
        {
            var still = new double[_blocks.Seconds.Length * N];
            for (var i = 0; i < _blocks.Seconds.Length; i++) still[i * N + CanopyState.Speed] = Math.Log(1e-6);
            var kept = (_first[CanopyState.Speed], _firstVariance[CanopyState.Speed]);
            (_first[CanopyState.Speed], _firstVariance[CanopyState.Speed]) = (Math.Log(1e-6), 1e-9);
            var least = _gusts.Min(w => Settled(still, _usual with { WindJitter = w }, 2).Deviance);
            (_first[CanopyState.Speed], _firstVariance[CanopyState.Speed]) = kept;
            return least;
        }

        private CanopySmoother Smoother() => new(_blocks.Seconds, _blocks.East, _blocks.North,
            [.. _blocks.Weights.Select(w => w > 0 ? _scale / w : double.PositiveInfinity)]);
    }
}
