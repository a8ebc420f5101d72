namespace JumpAnalytics;

/// <summary>
/// The wind by height above the landing ground: linear between known levels, east and north apart, and by a stated law below the
/// lowest and above the highest.
/// </summary>
[TypeFormatterSource]
public sealed class WindProfile
{
    private readonly IReadOnlyList<WindLevel> _levels;

    private WindProfile(IReadOnlyList<WindLevel> levels, WindFill below, WindFill above, string account) =>
        (_levels, Below, Above, Account) = (levels, below, above, account);

    /// <summary>The known levels, from the ground up.</summary>
    public IReadOnlyList<WindLevel> Levels => _levels;

    /// <summary>How the wind goes on below the lowest level.</summary>
    public WindFill Below { get; }

    /// <summary>How the wind goes on above the highest level.</summary>
    public WindFill Above { get; }

    /// <summary>What was known and what was filled in, in words.</summary>
    public string Account { get; }

    /// <summary>A profile through known winds.</summary>
    /// <param name="levels">At least one, at different heights above zero.</param>
    /// <param name="below">How the wind goes on below the lowest; constant when left out.</param>
    /// <param name="above">How it goes on above the highest; constant when left out.</param>
    /// <exception cref="ArgumentException">
    /// No level, two at one height, a height that is not above the ground, a number that is none, or a law that can't hold there.
    /// </exception>
    public static WindProfile Through(IReadOnlyList<WindLevel> levels, WindFill? below = null, WindFill? above = null)
    {
        var sorted = levels.OrderBy(l => l.Height).ToList();
        if (sorted.Count == 0) throw new ArgumentException("A wind profile needs at least one level with a wind.", nameof(levels));
        if (sorted.Zip(sorted.Skip(1)).FirstOrDefault(p => p.First.Height == p.Second.Height) is { First: not null } twice)
            throw new ArgumentException(
                $"Two winds are given for one height, {Rounding.Fixed(twice.First.Height, 1)} m; give each height once.", nameof(levels));
        if (sorted.FirstOrDefault(l => !double.IsFinite(l.Height) || !double.IsFinite(l.Wind.Speed)) is { } odd)
            throw new ArgumentException($"Heights and winds are finite numbers; found {odd}.", nameof(levels));
        var (under, over) = (below ?? WindFill.Constant, above ?? WindFill.Constant);
        if (!(sorted[0].Height > 0)) throw new ArgumentException($"The lowest wind stands at {Rounding.Fixed(sorted[0].Height, 1)} m; "
            + "heights are metres above the landing ground and above zero.", nameof(levels));
        under.MustHoldAt(sorted[0].Height, nameof(below));
        over.MustHoldAt(sorted[^1].Height, nameof(above));
        var known = sorted.Count == 1
            ? $"one wind, at {Rounding.Fixed(sorted[0].Height, 0)} m above ground"
            : $"{Rounding.Count(sorted.Count)} winds, from {Rounding.Fixed(sorted[0].Height, 0)} to "
                + $"{Rounding.Fixed(sorted[^1].Height, 0)} m above ground, linear between";
        return new WindProfile(sorted, under, over, $"Known: {known}. Filled in: below {under.Words}, above {over.Words}.");
    }

    /// <summary>The same wind at every height.</summary>
    /// <param name="wind">The wind.</param>
    /// <param name="error">Covariance of its error, m²/s²; null when not known.</param>
    public static WindProfile Uniform(WindVector wind, PlaneCovariance? error = null) =>
        new([new WindLevel(1, wind, error)], WindFill.Constant, WindFill.Constant,
            "Known: one wind for all heights; nothing is known of how it changes with height.");

    /// <summary>
    /// A profile with a given mean over a stretch from the ground up: the shape of a law, scaled. What one set of streamers
    /// tells, which fell through it.
    /// </summary>
    /// <param name="mean">Mean wind over the stretch.</param>
    /// <param name="top">Metres; where the stretch ends.</param>
    /// <param name="shape">The law of its shape, below and above.</param>
    /// <param name="error">Covariance of the mean's error, m²/s²; null when not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stretch has no height.</exception>
    /// <exception cref="ArgumentException">The law can't hold over the stretch.</exception>
    public static WindProfile WithMean(WindVector mean, double top, WindFill shape, PlaneCovariance? error = null) =>
        WithMean(mean, top, shape, error, _ => 1);

    /// <summary>The same with a mean that counts heights by a weight, as a fall counts each by the time it spends there.</summary>
    internal static WindProfile WithMean(WindVector mean, double top, WindFill shape, PlaneCovariance? error, Func<double, double> weight)
    {
        Guard.Positive(top, hint: "metres above the ground");
        shape.MustHoldAt(top, nameof(shape));
        var factor = Pieces.Over(0, top, weight) / shape.Integral(0, top, top, weight);
        return new WindProfile([new WindLevel(top, factor * mean, error is null ? null : factor * factor * error)], shape, shape,
            $"Known: the mean wind over the lowest {Rounding.Fixed(top, 0)} m. Filled in: its change with height by {shape.Words}, "
                + "scaled to that mean; the same above.");
    }

    /// <summary>The same profile with an account that knows more of where it comes from.</summary>
    internal WindProfile Saying(string account) => new(_levels, Below, Above, account);

    /// <summary>The wind at a height.</summary>
    /// <param name="height">Metres above the landing ground, zero or more.</param>
    public WindVector At(double height)
    {
        if (height <= _levels[0].Height) return Below.Ratio(height, _levels[0].Height) * _levels[0].Wind;
        if (height >= _levels[^1].Height) return Above.Ratio(height, _levels[^1].Height) * _levels[^1].Wind;
        var i = 1;
        while (_levels[i].Height < height) i++;
        var share = (height - _levels[i - 1].Height) / (_levels[i].Height - _levels[i - 1].Height);
        return (1 - share) * _levels[i - 1].Wind + share * _levels[i].Wind;
    }

    /// <summary>Mean wind over a stretch of heights.</summary>
    /// <param name="bottom">Metres, zero or more.</param>
    /// <param name="top">Metres, above it.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stretch has no height or begins below the ground.</exception>
    public WindVector Mean(double bottom, double top) =>
        bottom >= 0 && top > bottom && double.IsFinite(top) ? 1 / (top - bottom) * Integral(bottom, top, _ => 1)
            : throw new ArgumentOutOfRangeException(nameof(top), top,
                $"A stretch from the ground or higher that ends above where it begins, {bottom} m.");

    /// <summary>Integral of the wind times a weight over a stretch of heights; exact to rounding for smooth weights.</summary>
    internal WindVector Integral(double bottom, double top, Func<double, double> weight)
    {
        var sum = default(WindVector);
        foreach (var (level, share) in Shares(bottom, top, weight)) sum += share * level.Wind;
        return sum;
    }

    /// <summary>Covariance of that integral, the levels' errors being independent of one another; null where one is not known.</summary>
    internal PlaneCovariance? IntegralError(double bottom, double top, Func<double, double> weight)
    {
        var sum = PlaneCovariance.None;
        foreach (var (level, share) in Shares(bottom, top, weight))
        {
            if (share == 0) continue;
            if (level.Error is not { } error) return null;
            sum += share * share * error;
        }
        return sum;
    }

    /// <summary>How much each level counts in the integral: the profile is linear in its levels.</summary>
    private IEnumerable<(WindLevel Level, double Share)> Shares(double bottom, double top, Func<double, double> weight)
    {
        var shares = new double[_levels.Count];
        var (lowest, highest) = (_levels[0].Height, _levels[^1].Height);
        if (bottom < lowest) shares[0] += Below.Integral(bottom, Math.Min(top, lowest), lowest, weight);
        for (var i = 1; i < _levels.Count; i++)
        {
            var (a, b) = (_levels[i - 1].Height, _levels[i].Height);
            var (from, to) = (Math.Max(bottom, a), Math.Min(top, b));
            if (from >= to) continue;
            shares[i] += Pieces.Over(from, to, z => weight(z) * (z - a) / (b - a));
            shares[i - 1] += Pieces.Over(from, to, z => weight(z) * (b - z) / (b - a));
        }
        if (top > highest) shares[^1] += Above.Integral(Math.Max(bottom, highest), top, highest, weight);
        return _levels.Zip(shares);
    }
}
