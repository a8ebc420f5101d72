namespace JumpAnalytics;

/// <summary>Landings that left an aircraft and are in no row: gaps in the exit order, and drops without any landing.</summary>
/// <param name="AtLeast">Landings missing at least: each gap, and one for each drop without a landing.</param>
/// <param name="About">
/// The same with those no gap can show: who left last of a stick is taken to be missing as often as the others, and a drop without a
/// landing to have had a stick of the usual size.
/// </param>
/// <param name="Numbered">Whether the landings have an exit order, so that gaps can be seen.</param>
internal sealed record MissingLandings(int AtLeast, int About, bool Numbered)
{
    /// <summary>What is missing from some seasons of a log.</summary>
    /// <param name="log">The records, not for sharing.</param>
    /// <param name="seasons">The seasons asked for.</param>
    public static MissingLandings Of(JumpLog log, IReadOnlyCollection<string> seasons)
    {
        // A stick whose landings were read and refused is counted by the refused rows.
        var refused = log.Intake.QuarantineOfPart.Where(q => q.StandsForLanding).SelectMany(q => q.Fields)
            .ToHashSet(StringComparer.Ordinal);
        var sticks = log.Whole.Landings.ToLookup(l => l.Drop, ReferenceEqualityComparer.Instance);
        var drops = log.Drops.Where(d => seasons.Contains(d.Season)).Select(d => (Drop: d, Stick: sticks[d].ToList())).ToList();
        var whole = drops.Where(d => !refused.Contains(d.Drop.Id)).ToList();
        var numbered = whole.Where(d => d.Stick.Exists(l => l.ExitOrder is not null)).ToList();
        var gaps = numbered.Sum(d => Gaps(d.Stick));
        var empty = whole.Count(d => d.Stick.Count == 0);
        // Before the last who is recorded a gap shows; behind that one a missing landing does not.
        var before = numbered.Sum(d => Math.Max(1, d.Stick.Count + Gaps(d.Stick)) - 1);
        var share = before > 0 ? Math.Min(0.5, (double)gaps / before) : 0;
        var stick = drops.Where(d => d.Stick.Count > 0).Select(d => (double)d.Stick.Count).DefaultIfEmpty(1).Average();
        return new MissingLandings(gaps + empty, gaps + (int)Math.Ceiling(numbered.Count * share / (1 - share) + empty * stick),
            numbered.Count > 0);
    }

    /// <summary>Places of the exit order up to the last recorded one that have no landing.</summary>
    public static int Gaps(IReadOnlyCollection<Landing> stick) =>
        stick.Count == 0 ? 0 : Math.Max(0, stick.Max(l => l.ExitOrder ?? 0) - stick.Count);
}
