using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>
/// Parts of a log: some of its drops and landings, which keep their tracks, their origins and the account of how they were read.
/// </summary>
public sealed partial class JumpLog
{
    /// <summary>Letters of a filter that a report shows.</summary>
    private const int LongestPart = 120;

    private JumpLog? _whole;

    /// <summary>What part of the records this is, in words or as its filter was written; null for all that was read.</summary>
    public string? Part { get; private init; }

    /// <summary>All that was read: the log that this is a part of, or the log itself.</summary>
    internal JumpLog Whole => _whole ?? this;

    /// <summary>
    /// The part of the log that holds some landings, for instance <c>log.Where(l => l.MeasuredBy != "estimate")</c>, and the drops of these
    /// landings. A drop without a landing can't meet a condition on landings and is left out; <see cref="WhereDrops"/> keeps it.
    /// </summary>
    /// <param name="holds">Whether a landing belongs to the part.</param>
    /// <param name="filter">How reports name the part; the condition as it is written when left out.</param>
    /// <exception cref="InvalidOperationException">
    /// The log is for sharing, which hands no landing to a condition: cut it before.
    /// </exception>
    public JumpLog Where(Func<Landing, bool> holds, [CallerArgumentExpression(nameof(holds))] string filter = "")
    {
        var landings = Landings.Where(holds).ToList();
        var kept = landings.Select(l => l.Drop).ToHashSet(ReferenceEqualityComparer.Instance);
        return Cut([.. Drops.Where(kept.Contains)], landings, Words(filter));
    }

    /// <summary>The part of the log that holds some drops and all their landings; a drop without a landing stays one.</summary>
    /// <param name="holds">Whether a drop belongs to the part.</param>
    /// <param name="filter">How reports name the part; the condition as it is written when left out.</param>
    /// <exception cref="InvalidOperationException">The log is for sharing, which hands no drop to a condition: cut it before.</exception>
    public JumpLog WhereDrops(Func<Drop, bool> holds, [CallerArgumentExpression(nameof(holds))] string filter = "")
    {
        var kept = Drops.Where(holds).ToHashSet(ReferenceEqualityComparer.Instance);
        return Cut([.. Drops.Where(kept.Contains)], [.. Landings.Where(l => kept.Contains(l.Drop))], Words(filter));
    }

    /// <summary>Makes the part of some drops and landings of this log.</summary>
    private JumpLog Cut(IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings, string filter)
    {
        var part = Part is null ? filter : $"{Part}; {filter}";
        return new JumpLog($"{Whole.Name} where {part}", Notice, drops, landings,
            Intake.OfPart(part, Whole._drops, drops, landings, Whole._landings.Count), _origins)
        {
            Part = part, Folder = Folder, _whole = Whole, Sharing = Sharing,
        };
    }

    /// <summary>The same part of the same records in which something was changed.</summary>
    /// <param name="changed">All records of <see cref="Whole"/>, changed, in the same order.</param>
    /// <param name="words">How reports name the part.</param>
    internal JumpLog PartOf(JumpLog changed, string words)
    {
        var drops = Drops.ToHashSet<Drop>(ReferenceEqualityComparer.Instance);
        var landings = Landings.ToHashSet<Landing>(ReferenceEqualityComparer.Instance);
        return changed.Cut([.. changed._drops.Where((_, i) => drops.Contains(Whole.Drops[i]))],
            [.. changed._landings.Where((_, i) => landings.Contains(Whole.Landings[i]))], words);
    }

    /// <summary>A condition as a report shows it: on one line, without the name of its argument.</summary>
    private static string Words(string filter)
    {
        var words = Argument().Replace(Blanks().Replace(filter, " ").Trim(), "");
        return words.Length == 0 ? "some" : words.Length <= LongestPart ? words : words[..LongestPart] + "…";
    }

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();

    [GeneratedRegex(@"^\(?\w+\)? => ")]
    private static partial Regex Argument();
}
