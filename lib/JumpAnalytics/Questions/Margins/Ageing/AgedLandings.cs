using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>The placed landings whose forecast has an age, as the likelihood of ageing sees them.</summary>
internal sealed class AgedLandings
{
    /// <summary>Seconds; the age in whose terms ages are reckoned.</summary>
    public const double Unit = 600;

    private AgedLandings(IReadOnlyList<Landing> landings, BivariateT misses)
    {
        Landings = landings;
        Misses = misses;
        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        Mission = [.. landings.Select(l => numbers.TryGetValue(l.Drop.Mission, out var m) ? m : numbers[l.Drop.Mission] = numbers.Count)];
        Missions = numbers.Count;
        Passes = landings.Select(l => l.Drop).Distinct(ReferenceEqualityComparer.Instance).Count();
        Squared = [.. landings.Select(l => misses.Core.SquaredDistance(l.MissDownwind!.Value))];
        Age = [.. landings.Select(l => l.Drop.StreamerAge!.Value / Unit)];
        MedianWind = landings.Select(l => l.Drop.WindSpeed).Median();
        WindSquared = [.. landings.Select(l => WindTerm(l.Drop.WindSpeed))];
    }

    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>
    /// Distribution of all their misses, whatever their age: its centre, shape and tail are kept, its spread is what ages.
    /// </summary>
    public BivariateT Misses { get; }

    public int[] Mission { get; }
    public int Missions { get; }
    public int Passes { get; }

    /// <summary>Squared distance from the centre in units of the common scatter.</summary>
    public double[] Squared { get; }

    /// <summary>Age in units of <see cref="Unit"/>.</summary>
    public double[] Age { get; }

    /// <summary>Metres per second.</summary>
    public double MedianWind { get; }

    /// <summary>Squared drift wind over that of the median wind.</summary>
    public double[] WindSquared { get; }

    public double WindTerm(double wind) => MedianWind > 0 ? wind * wind / (MedianWind * MedianWind) : 0;

    /// <summary>Whether the age on record can be one: finite and not negative.</summary>
    public static bool HasAge(Drop drop) => drop.StreamerAge is { } age and >= 0 && double.IsFinite(age);

    /// <summary>Other landings seen against the distribution of these.</summary>
    internal AgedLandings With(IReadOnlyList<Landing> landings) => new(landings, Misses);

    public static Fit<AgedLandings> Of(IEnumerable<Landing> landings)
    {
        var usable = landings.Where(l => HasAge(l.Drop) && double.IsFinite(l.Drop.WindSpeed) && l.MissDownwind is not null).ToList();
        if (usable.Count == 0) return Fit<AgedLandings>.Refused("no placed landing has an age of its streamers on record");
        var t = BivariateT.FitTo(usable);
        return t.Success ? Fit<AgedLandings>.Made(new AgedLandings(usable, t.Value.Model)) : Fit<AgedLandings>.Refused(t.Reason);
    }
}
