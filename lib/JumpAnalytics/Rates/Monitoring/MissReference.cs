using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>
/// The missions that charts of misses compare with, reduced to what makes the score of a mission standard normal when it is one of them.
/// </summary>
/// <remarks>
/// <para>Misses have heavy tails, differ by wind and terrain, and missions have few and unequal numbers of landings. So: (1) each distance
/// is divided by the typical distance of its cell of wind band and terrain, a random effect of the logarithm of the distance that is drawn
/// towards no difference where missions are few; (2) it is replaced by the normal score of its mid-rank among the reference's landings (van
/// der Waerden), which has no heavy tail whatever the distances have; (3) the mean score of a mission is divided by its standard deviation
/// under the two-level model, √(between + within/n).</para>
/// <para>For vectors step (2) keeps the direction and replaces the length, standardised by the reference's covariance, by the Rayleigh
/// score of its mid-rank; step (3) takes the covariance between + within/n.</para>
/// <para>A landing known only as beyond a distance scores the mean of all scores beyond it; it has no vector.</para>
/// </remarks>
internal sealed class MissReference
{
    private const double LeastDistance = 1;

    private readonly WindBands _bands;
    private readonly Dictionary<string, double> _cells;
    private readonly double[] _distances;
    private readonly double[] _lengths;
    private readonly double[] _centre;
    private readonly double[] _whiten;
    private readonly TwoLevelAxisModel _levels;
    private readonly double _usual;
    private readonly Fit<TwoLevelModel> _plane;

    private MissReference(WindBands bands, IReadOnlyList<Landing> landings)
    {
        _bands = bands;
        (Missions, Landings) = (landings.Select(l => l.Drop.Mission).Distinct().Count(), landings.Count);
        _cells = Cells(landings);
        _distances = [.. landings.Where(l => l.MissDistance is not null).Select(l => l.MissDistance!.Value / Typical(l)).Order()];
        var levels = TwoLevelAxisModel.FitTo([.. landings.Where(l => Score(l) is not null)
            .Select(l => new AxisReading(l.Drop.Mission, Score(l)!.Value))], nouns: TradeNouns.Value);
        _usual = landings.Where(l => LogDistance(l) is not null).GroupBy(l => l.Drop.Mission)
            .Average(m => m.Average(l => LogDistance(l)!.Value));
        WhyNot = levels.Reason;
        _levels = levels.Value!;

        var misses = landings.Select(Scaled).OfType<PlaneVector>().ToList();
        (_centre, _whiten, _lengths) = ([0, 0], [1, 0, 1], []);
        if (misses.Count < 3)
        {
            _plane = Fit<TwoLevelModel>.Refused("fewer than 3 landings with a place in the downwind frame");
            return;
        }
        _centre = [misses.Average(m => m.Along), misses.Average(m => m.Across)];
        _whiten = InverseRoot(new PlaneCovariance(
            misses.Average(m => Math.Pow(m.Along - _centre[0], 2)), misses.Average(m => Math.Pow(m.Across - _centre[1], 2)),
            misses.Average(m => (m.Along - _centre[0]) * (m.Across - _centre[1])))) ?? [];
        if (_whiten.Length == 0)
        {
            _plane = Fit<TwoLevelModel>.Refused("the misses of the reference lie in one line");
            return;
        }
        _lengths = [.. misses.Select(m => Standardised(m).Length).Order()];
        _plane = TwoLevelModel.FitTo(PlaneSample.Of(landings.Where(l => Scaled(l) is not null)
            .Select(l => new PlaneReading(l.Drop.Mission, Vector(l))), TradeNouns.Value));
    }

    /// <summary>Missions of the reference.</summary>
    public int Missions { get; }

    /// <summary>Its landings.</summary>
    public int Landings { get; }

    /// <summary>Why no mission can be scored; null when it can.</summary>
    private string? WhyNot { get; }

    /// <summary>Why no mission has a vector; null when it has.</summary>
    public string? WhyNoVector => _plane.Reason;

    public static Fit<MissReference> Of(IReadOnlyList<Landing> landings, WindBands bands, int fewest)
    {
        var known = landings.Where(l => l.MissDistance is not null || l.Beyond is not null).ToList();
        var missions = known.Select(l => l.Drop.Mission).Distinct().Count();
        if (missions < fewest) return Fit<MissReference>.Refused(
            $"the reference has {Rounding.Count(missions, "mission")} with a landing, and {fewest} are wanted");
        if (known.All(l => l.MissDistance is null))
            return Fit<MissReference>.Refused("every landing of the reference is known only as beyond a distance");
        var made = new MissReference(bands, known);
        return made.WhyNot is { } reason
            ? Fit<MissReference>.Refused("the parts of missions and landings in the reference can't be separated: " + reason)
            : Fit<MissReference>.Made(made);
    }

    /// <summary>
    /// The score of a mission's miss distances, standard normal for missions like the reference's, positive for wide ones, and the landings
    /// behind it; null when no distance is known.
    /// </summary>
    public (double Score, int Landings)? Distance(IEnumerable<Landing> mission)
    {
        var scores = mission.Select(Score).OfType<double>().ToList();
        return scores.Count == 0
            ? null
            : ((scores.Average() - _levels.Mean) / Math.Sqrt(_levels.Between.Value + _levels.Within.Value / scores.Count), scores.Count);
    }

    /// <summary>
    /// The score of a mission's mean miss, two independent standard normals for missions like the reference's, and the landings behind it;
    /// null when no place is known.
    /// </summary>
    public (PlaneVector Score, int Landings)? Plane(IEnumerable<Landing> mission)
    {
        var vectors = mission.Where(l => Scaled(l) is not null).Select(Vector).ToList();
        if (vectors.Count == 0 || _plane.Value is not { } model) return null;
        var (within, n) = (model.Within.Value, vectors.Count);
        var covariance = model.Between.Value + 1.0 / n * within;
        return InverseRoot(covariance) is { } root
            ? (Times(root, vectors.Average(v => v.Along) - model.Bias.Along, vectors.Average(v => v.Across) - model.Bias.Across), n)
            : null;
    }

    /// <summary>
    /// Logarithm of a landing's distance over the usual one of the reference in its cell, the mean over missions; one known only as beyond
    /// a distance has the mean of those of the reference beyond it.
    /// </summary>
    public double? LogDistance(Landing landing)
    {
        if (landing.MissDistance is { } distance) return Math.Log(Math.Max(distance, LeastDistance) / Typical(landing)) - _usual;
        if (landing.Beyond is not { } beyond) return null;
        var scaled = Math.Max(beyond, LeastDistance) / Typical(landing);
        var above = _distances.SkipWhile(d => d <= scaled).Where(d => d > 0).ToList();
        return (above.Count == 0 ? Math.Log(scaled) : above.Average(Math.Log)) - _usual;
    }

    private string Cell(Landing l) => $"{_bands.IndexOf(l.Drop.WindSpeed)}|{l.Drop.Terrain}";

    private double Typical(Landing landing) => Math.Exp(_cells.GetValueOrDefault(Cell(landing)));

    private Dictionary<string, double> Cells(IReadOnlyList<Landing> landings)
    {
        var placed = landings.Where(l => l.MissDistance is not null).ToList();
        if (placed.Select(Cell).Distinct().Count() < 2) return [];
        var fit = TwoLevelAxisModel.FitTo([.. placed.Select(l => new AxisReading(l.Drop.Mission,
            Math.Log(Math.Max(l.MissDistance!.Value, LeastDistance)), Cell(l)))], nouns: TradeNouns.Value);
        return fit.Value is { } model ? model.RaterEffects.ToDictionary(e => e.Name, e => e.Value) : [];
    }

    private double? Score(Landing landing)
    {
        if (landing.MissDistance is { } distance)
            return QuantileOf.Normal(TailShare.Below(MidRank(_distances, distance / Typical(landing))));
        if (landing.Beyond is not { } beyond) return null;
        var share = MidRank(_distances, beyond / Typical(landing));
        return Normal.PDF(0, 1, QuantileOf.Normal(TailShare.Below(share))) / (1 - share);
    }

    private PlaneVector? Scaled(Landing landing) =>
        landing.MissDownwind is { } miss ? new PlaneVector(miss.Along / Typical(landing), miss.Across / Typical(landing)) : null;

    private PlaneVector Standardised(PlaneVector scaled) => Times(_whiten, scaled.Along - _centre[0], scaled.Across - _centre[1]);

    private PlaneVector Vector(Landing landing)
    {
        var z = Standardised(Scaled(landing)!.Value);
        var length = z.Length;
        if (length == 0) return z;
        var factor = Math.Sqrt(-2 * Math.Log(1 - MidRank(_lengths, length))) / length;
        return new PlaneVector(factor * z.Along, factor * z.Across);
    }

    /// <summary>Share of sorted values below one, those equal to it counted half; never 0 or 1.</summary>
    private static double MidRank(double[] sorted, double value)
    {
        var (below, upTo) = (Count(strictly: true), Count(strictly: false));
        return Math.Clamp((below + upTo) / 2.0 / sorted.Length, 0.5 / sorted.Length, 1 - 0.5 / sorted.Length);

        int Count(bool strictly) => Roots.First(i => strictly ? sorted[i] < value : sorted[i] <= value, -1, sorted.Length);
    }

    /// <summary>The symmetric inverse root of a covariance: downwind, across, right; null when it is singular.</summary>
    private static double[]? InverseRoot(PlaneCovariance c)
    {
        if (c.Determinant is not { } determinant) return null;
        var root = Math.Sqrt(determinant);
        var scale = root * Math.Sqrt(c.Trace + 2 * root);
        return [(c.VarianceAcross + root) / scale, -c.Covariance / scale, (c.VarianceAlong + root) / scale];
    }

    private static PlaneVector Times(double[] root, double downwind, double right) =>
        new(root[0] * downwind + root[1] * right, root[1] * downwind + root[2] * right);
}
