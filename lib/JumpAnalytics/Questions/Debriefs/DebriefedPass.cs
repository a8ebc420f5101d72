namespace JumpAnalytics;

/// <summary>One pass of a mission that is debriefed, with its stick.</summary>
[TypeFormatterSource]
public sealed record DebriefedPass
{
    /// <summary>The pass with its forecast.</summary>
    public required Drop Drop { get; init; }

    /// <summary>Which pass of the mission it was, 1 = the first in time.</summary>
    public required int Number { get; init; }

    /// <summary>The jumpers, in order of exit; those without an order last.</summary>
    public required IReadOnlyList<DebriefedJumper> Jumpers { get; init; }

    /// <summary>What its streamers tell, or what is missing.</summary>
    public required Fit<PassStreamers> Streamers { get; init; }

    /// <summary>The pass in words: <c>pass 2</c>.</summary>
    public string Name => $"pass {Number}";

    /// <summary>Landings that can be told a hit or a miss.</summary>
    public IReadOnlyList<Landing> Decided => [.. Jumpers.Select(j => j.Landing).Where(l => l.Outcome != LandingOutcome.Undecided)];

    /// <summary>Hits among them.</summary>
    public int Hits => Jumpers.Count(j => j.Landing.Outcome == LandingOutcome.Hit);

    /// <summary>
    /// Mean exit placement of the stick, metres: where its middle left less where the plan had it. Null when no exit of it is known.
    /// </summary>
    public LocalVector? ExitPlacement => Mean(Jumpers.Select(j => j.Budget.Value?.ExitPlacement.Vector));

    /// <summary>Mean forecast error over the jumpers whose track parted it, metres; null when there is none.</summary>
    public LocalVector? ForecastError => Mean(Jumpers.Select(j => j.Budget.Value?.ForecastError.Vector));

    /// <summary>Covariance of the error of <see cref="ForecastError"/> by the tracks, m²; null when there is none.</summary>
    public PlaneCovariance? TrackError
    {
        get
        {
            var errors = Jumpers.Where(j => j.IsParted).Select(j => j.Flight.Value!.SteeringError).ToList();
            return errors.Count == 0 ? null : 1.0 / (errors.Count * errors.Count) * errors.Aggregate((a, b) => a + b);
        }
    }

    /// <summary>Number of jumpers behind <see cref="ForecastError"/>.</summary>
    public int Parted => Jumpers.Count(j => j.IsParted);

    internal static IReadOnlyList<DebriefedPass> Of(IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings, LogDescents descents)
    {
        var byDrop = landings.ToLookup(l => l.Drop.Id);
        return [.. drops.InTime().ThenBy(d => d.Id, StringComparer.Ordinal).Select((d, i) => new DebriefedPass
        {
            Drop = d, Number = i + 1, Streamers = PassStreamers.Of(d),
            Jumpers = [.. byDrop[d.Id].OrderBy(l => l.ExitOrder ?? int.MaxValue).Select(l => DebriefedJumper.Of(l, descents))],
        })];
    }

    private static LocalVector? Mean(IEnumerable<LocalVector?> vectors)
    {
        var known = vectors.OfType<LocalVector>().ToList();
        return known.Count == 0 ? null : 1.0 / known.Count * known.Aggregate((a, b) => a + b);
    }
}
