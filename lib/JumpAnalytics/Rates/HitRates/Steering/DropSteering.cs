namespace JumpAnalytics;

/// <summary>
/// What a drop's landings tell of its forecast error. Where descent tracks tell what jumpers flew, it is the mean of their landings less
/// exit placement and steering, give or take the tracks' error. Else it is bounded: all canopies of a stick are taken to have drifted
/// alike; a jumper can't have steered farther than the reach, so the forecast error lies within the reach of every landing less its exit
/// placement, and these discs are cut with one another.
/// </summary>
/// <param name="Drop">The drop.</param>
/// <param name="ForecastError">Least and greatest length that its forecast error can have, metres; null when nothing bounds it.</param>
/// <param name="Reach">The least reach of its canopies, metres; null when not known.</param>
/// <param name="ExitKnown">Whether exits were recorded. Where they were not the exit placement is counted to the forecast.</param>
/// <param name="Why">What is missing or contradictory; null when bounded with all there is.</param>
internal sealed record DropSteering(Drop Drop, Interval? ForecastError, double? Reach, bool ExitKnown, string? Why)
{
    /// <summary>Whether its landings lie too far apart for one unsteered drift and the reach.</summary>
    public bool IsContradictory => ForecastError is null && Reach is not null;

    /// <param name="drop">The drop.</param>
    /// <param name="landings">Its landings.</param>
    /// <param name="options">Canopies, and the confidence with which a track's error is bounded.</param>
    /// <param name="shareOfReach">Share of the reach beyond which nobody whose track is missing steered.</param>
    /// <param name="steering">What a jumper flew; null where no track tells it.</param>
    public static DropSteering Of(Drop drop, IEnumerable<Landing> landings, AccuracyOptions options, double shareOfReach,
        Func<Landing, KnownSteering?> steering)
    {
        var canopies = options.Canopies;
        var placed = landings.Where(l => l.Miss is not null).ToList();
        if (placed.Count == 0) return Unbounded("no landing with a known place");
        if (placed.Any(l => steering(l) is not null)) return Tracked(drop, placed, options, steering);
        if (drop.ExitHeight is not { } height) return Unbounded("the exit height was not recorded");
        var discs = new List<(LocalVector, double)>();
        var (reach, exitKnown) = (double.PositiveInfinity, true);
        foreach (var landing in placed)
        {
            if (FlightOf(landing.Canopy, canopies, height) is not { } own)
                return Unbounded($"no flight figures for the canopy '{landing.Canopy}'");
            var budget = MissBudget.Of(landing);
            exitKnown &= budget.ForecastErrorAndSteering.Vector is not null;
            discs.Add((budget.ForecastErrorAndSteering.Vector ?? budget.Miss, own * shareOfReach));
            reach = Math.Min(reach, own);
        }
        return DiscOverlap.Distances(discs) is { } range
            ? new DropSteering(drop, range, reach, exitKnown, exitKnown ? null : "the exit was not recorded")
            : new DropSteering(drop, null, reach, exitKnown, "landings too far apart for one unsteered drift and this reach");

        DropSteering Unbounded(string why) => new(drop, null, null, true, why);
    }

    /// <summary>
    /// The forecast error by the tracks there are, with the disc that holds it at the wanted confidence if their
    /// errors are normal and independent.
    /// </summary>
    private static DropSteering Tracked(Drop drop, IReadOnlyList<Landing> placed, AccuracyOptions options,
        Func<Landing, KnownSteering?> steering)
    {
        var tracked = placed.Where(l => steering(l) is not null)
            .Select(l => (Budget: MissBudget.Of(l, trackedExit: steering(l)!.Value.Exit), Flown: steering(l)!.Value)).ToList();
        var exitKnown = tracked.All(t => t.Budget.ForecastErrorAndSteering.Vector is not null);
        var mean = 1.0 / tracked.Count * tracked.Select(t => (t.Budget.ForecastErrorAndSteering.Vector ?? t.Budget.Miss) - t.Flown.Vector)
            .Aggregate((a, b) => a + b);
        var error = 1.0 / (tracked.Count * tracked.Count) * tracked.Select(t => t.Flown.Error).Aggregate((a, b) => a + b);
        var radius = Math.Sqrt(-2 * Math.Log(1 - options.Confidence)) * error.AxisSds.Longest;
        var reach = drop.ExitHeight is { } height ? placed.Min(l => FlightOf(l.Canopy, options.Canopies, height)) : null;
        return new DropSteering(drop, new Interval(Math.Max(0, mean.Length - radius), mean.Length + radius), reach, exitKnown,
            exitKnown ? null : "the exit was not recorded");
    }

    /// <summary>The reach of a class, or the longest of all where the class was not recorded.</summary>
    private static double? FlightOf(string? canopy, IReadOnlyList<CanopyFlight> canopies, double height) => canopy is null
        ? canopies.Max(c => (double?)c.Reach(height))
        : CanopyFlight.Of(canopy, canopies)?.Reach(height);
}
