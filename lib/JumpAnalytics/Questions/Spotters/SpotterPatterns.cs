namespace JumpAnalytics;

/// <summary>The pattern of misses of the whole base and of each spotter: which way, by how much, and how consistently.</summary>
/// <remarks>
/// Spotters are ordered by code, never by result. Missions are the unit of information. The chances of what is said without a cause are
/// held together over all spotters and all that is looked at (Holm), because among many looks some will seem to find something by luck.
/// </remarks>
public sealed partial class SpotterPatterns : ShownResult
{
    private SpotterPatterns(SpotterPattern whole, IReadOnlyList<SpotterPattern> spotters, int withoutSpotter,
        AccuracyOptions options, SpotterPatternOptions settings, Looks? looks = null)
    {
        (MissionsWithoutSpotter, Options, Settings) = (withoutSpotter, options, settings);
        Looks = looks ?? new Looks([.. spotters.Prepend(whole).SelectMany(s => s.LooksTaken)]);
        (Base, Spotters) = (Adjusted(whole), [.. spotters.Select(Adjusted)]);

        SpotterPattern Adjusted(SpotterPattern s) => s with { AdjustedP = Looks.Of(s.Spotter, SpotterPattern.MeanLook) };
    }

    /// <summary>The looks that the patterns are held together with: their own unless they are part of a review.</summary>
    internal Looks Looks { get; }

    /// <summary>The looks taken at these patterns.</summary>
    internal IEnumerable<Look> LooksTaken => Spotters.Prepend(Base).SelectMany(s => s.LooksTaken);

    /// <summary>The same patterns held together with other looks.</summary>
    internal SpotterPatterns HeldTogether(Looks looks) => new(Base, Spotters, MissionsWithoutSpotter, Options, Settings, looks);

    /// <summary>The whole base.</summary>
    public SpotterPattern Base { get; }

    /// <summary>Each spotter, by code.</summary>
    public IReadOnlyList<SpotterPattern> Spotters { get; }

    /// <summary>Missions whose spotter is not recorded: they count for the base alone.</summary>
    public int MissionsWithoutSpotter { get; }

    /// <summary>Units, confidence, resamples and seed.</summary>
    public AccuracyOptions Options { get; }

    /// <summary>What was asked for beside them.</summary>
    public SpotterPatternOptions Settings { get; }

    /// <summary>The pattern of one spotter.</summary>
    /// <param name="spotter">A code of the log.</param>
    /// <exception cref="ArgumentException">No landing has this spotter; the message names those there are.</exception>
    public SpotterPattern Of(string spotter) => Spotters.FirstOrDefault(s => s.Spotter == spotter)
        ?? throw new ArgumentException(
            $"No landing of spotter '{spotter}'; there are {string.Join(", ", Spotters.Select(s => s.Spotter))}.", nameof(spotter));

    /// <summary>Makes the patterns.</summary>
    /// <param name="landings">Landings of any seasons.</param>
    /// <param name="options">Units, confidence, resamples and seed.</param>
    /// <param name="settings">Fewest missions and the named distance; the defaults when left out.</param>
    public static SpotterPatterns Of(IReadOnlyList<Landing> landings, AccuracyOptions options, SpotterPatternOptions? settings = null)
    {
        settings ??= new SpotterPatternOptions();
        var making = new SpotterPatternMaking(options, settings);
        var whole = making.Of(JumpLog.All, landings, null);
        return new SpotterPatterns(whole, [.. BySpotter(landings).Select(g => making.Of(g.Spotter, g.Landings, whole))],
            landings.Where(l => l.Drop.Spotter is null).Select(l => l.Drop.Mission).Distinct().Count(), options, settings);
    }

    /// <summary>The landings of each spotter, by code.</summary>
    internal static IEnumerable<(string Spotter, IReadOnlyList<Landing> Landings)> BySpotter(IEnumerable<Landing> landings) =>
        landings.Where(l => l.Drop.Spotter is not null).GroupBy(l => l.Drop.Spotter!).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => (g.Key, (IReadOnlyList<Landing>)[.. g]));
}
