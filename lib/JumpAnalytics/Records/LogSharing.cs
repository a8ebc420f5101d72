namespace JumpAnalytics;

/// <summary>
/// That a log is for sharing, and what follows: it hands out no drop and no landing, so that whatever rests on them is refused or withheld,
/// and rates show no cell of few people.
/// </summary>
[TypeFormatterSource]
public sealed record LogSharing
{
    /// <summary>People below whom a cell is withheld unless said otherwise.</summary>
    public const int FewPeople = 5;

    /// <summary>What is shown in place of a result that can't be shared.</summary>
    internal const string Withheld =
        "Withheld: the log is for sharing, and people or cells of few people could be recognised by this. Rates by cell can be shared.";

    internal LogSharing(int fewestPeople)
    {
        FewestPeople = Guard.AtLeast(fewestPeople, 2);
    }

    /// <summary>Fewest people that a cell must rest on to be shown.</summary>
    public int FewestPeople { get; }

    /// <summary>The error for who asks a log for what it does not hand out.</summary>
    internal static InvalidOperationException Refusal() => new(
        "This log is for sharing: it hands out no single drop, landing or refused row, and nothing that rests on them but rates by cell "
        + "(SeasonAccuracy), cautions and counts of what was read. Ask the log as it was before ForSharing().");

    /// <summary>Fewest people that landings can come from, by the codes of their jumpers as they stand.</summary>
    /// <param name="landings">Landings.</param>
    internal static int LeastPeople(IReadOnlyCollection<Landing> landings) => LeastPeople(landings, code => code);

    /// <summary>
    /// Fewest people that landings can come from: the different jumpers named, or the largest stick if that is more, since
    /// nobody leaves twice on one pass. Landings without a jumper's code, or with one whose letters can't be told, so count
    /// no more people than they must.
    /// </summary>
    /// <param name="landings">Landings.</param>
    /// <param name="person">The person of a code; null where it can't be told.</param>
    internal static int LeastPeople(IReadOnlyCollection<Landing> landings, Func<string, string?> person) =>
        landings.Count == 0 ? 0 : Math.Max(
            landings.Select(l => l.Jumper).OfType<string>().Select(person).OfType<string>().Distinct().Count(),
            landings.CountBy(l => l.Drop.Id).Max(d => d.Value));

    /// <summary>A count of landings or of rows for a text: a small one is not told.</summary>
    internal string Count(int count, string noun) =>
        IsSmall(count) ? $"fewer than {Rounding.Count(FewestPeople, noun)}" : Rounding.Count(count, noun);

    /// <summary>Whether a count of landings or of rows may be of too few people to be told.</summary>
    internal bool IsSmall(int count) => count > 0 && count < FewestPeople;
}
