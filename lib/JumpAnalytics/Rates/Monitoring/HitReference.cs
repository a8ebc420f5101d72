namespace JumpAnalytics;

/// <summary>
/// The hit chances that a chart of hits compares with: of each landing by its cell, and of the number of hits of a
/// mission, whose landings are alike.
/// </summary>
/// <remarks>
/// The logistic mixed model of the pooled rates: log-odds of a hit = level of the cell + mission's part, normal with the spread between
/// missions. A landing's level is the one at which its chance, averaged over missions, is the pooled rate of the cell. The number of hits
/// of a mission given its part is a sum of independent trials; the part is integrated out.
/// </remarks>
internal sealed class HitReference
{
    private const double Tail = 6, Step = 0.25;

    private readonly WindBands _bands;
    private readonly Dictionary<Cell, double> _levels;
    private readonly double _elsewhere;
    private readonly double _spread;

    private HitReference(PooledRates pooled, WindBands bands, double error)
    {
        _bands = bands;
        _spread = pooled.BetweenMissions.Sd;
        _levels = pooled.Cells.Where(c => c.Rate.Success).ToDictionary(c => c.Cell, c => Level(c.Rate.Value!.Value));
        _elsewhere = Level((double)pooled.Hits / pooled.Landings);
        (Missions, Landings, LogOddsError) = (pooled.Missions, pooled.Landings, error);
    }

    public int Missions { get; }

    public int Landings { get; }

    /// <summary>Standard error of the log-odds of the reference's rate.</summary>
    public double LogOddsError { get; }

    public static Fit<HitReference> Of(IReadOnlyList<Landing> landings, AccuracyOptions options, int fewest)
    {
        var counts = PooledCount.Of(landings, options.Bands);
        var missions = counts.Select(c => c.Mission).Distinct().Count();
        if (missions < fewest) return Fit<HitReference>.Refused(
            $"the reference has {Rounding.Count(missions, "mission")} with a hit or a miss, and {fewest} are wanted");
        var pooled = PooledRates.Of(counts, new PoolingOptions { Confidence = options.Confidence });
        if (!pooled.Success) return Fit<HitReference>.Refused("no hit chances of the reference: " + pooled.Reason);
        var counted = MissionSample.Of(landings).CountedRate(options.Confidence).Value!;
        var (rate, error) = (counted.Rate.Value, counted.StandardError ?? 0);
        return Fit<HitReference>.Made(new HitReference(pooled.Value, options.Bands, error / (rate * (1 - rate))));
    }

    /// <summary>Levels of a mission's decided landings: log-odds given the middle mission.</summary>
    public double[] Levels(IEnumerable<Landing> mission) =>
    [
        .. mission.Where(l => l.Outcome != LandingOutcome.Undecided)
            .Select(l => _levels.GetValueOrDefault(Cell.Of(l.Drop, _bands), _elsewhere)).Order(),
    ];

    /// <summary>Expected hits of landings with these levels.</summary>
    public double Expected(double[] levels) => levels.Sum(l => LogisticNormal.Mean(l, _spread).Success);

    /// <summary>Probability of 0, 1, … hits of a mission.</summary>
    /// <param name="levels">Levels of its landings.</param>
    /// <param name="shift">Added to all of them, log-odds.</param>
    public double[] Hits(double[] levels, double shift)
    {
        var hits = new double[levels.Length + 1];
        var points = _spread == 0 ? 0 : (int)(Tail / Step);
        var all = 0.0;
        for (var i = -points; i <= points; i++)
        {
            var z = i * Step;
            var weight = Math.Exp(-z * z / 2);
            all += weight;
            var given = new double[levels.Length + 1];
            given[0] = 1;
            for (var j = 0; j < levels.Length; j++)
            {
                var hit = Kernels.Logistic(levels[j] + shift + _spread * z);
                for (var k = j + 1; k >= 0; k--) given[k] = given[k] * (1 - hit) + (k > 0 ? given[k - 1] * hit : 0);
            }
            for (var k = 0; k < hits.Length; k++) hits[k] += weight * given[k];
        }
        for (var k = 0; k < hits.Length; k++) hits[k] /= all;
        return hits;
    }

    private double Level(double rate)
    {
        var wanted = Kernels.Logit(rate);
        var level = wanted;
        for (var step = 0; step < 60; step++)
        {
            var (odds, slope) = LogisticNormal.Marginal(level, _spread);
            var change = (wanted - odds) / slope;
            level += Math.Clamp(change, -2, 2);
            if (Math.Abs(change) < 1e-12) break;
        }
        return level;
    }
}
