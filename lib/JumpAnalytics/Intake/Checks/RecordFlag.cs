namespace JumpAnalytics;

/// <summary>The rows a flag concerns.</summary>
/// <param name="Kind">What gathers them: whole log, base, spotter, season, file, how measured, or single rows.</param>
/// <param name="Name">Which one: the base, the season, the way of measuring; null for the whole log and for single rows.</param>
[TypeFormatterSource]
public sealed record RecordGroup(string Kind, string? Name)
{
    internal const string OfSpotter = "spotter";

    internal static RecordGroup Whole { get; } = new("whole log", null);

    internal static RecordGroup SingleRows { get; } = new("single rows", null);

    /// <summary>
    /// The group as a report names it. A person's code stays out of reports, so a spotter's rows are named by the first of them.
    /// </summary>
    /// <param name="rows">The rows of the group.</param>
    internal string Shown(IReadOnlyList<RowSource> rows) => Name is null ? Kind
        : Kind.StartsWith(OfSpotter, StringComparison.Ordinal) ? $"the {Kind} of {rows[0]}"
        : $"{Kind} {Name}";
}

/// <summary>What a fault would do to the numbers.</summary>
/// <param name="Value">Size in <paramref name="Unit"/>.</param>
/// <param name="Unit">
/// Suffix of the report's unit of distance, <c>points</c> of the landing rate, <c>km</c>, <c>min</c> or <c>percent</c>.
/// </param>
/// <param name="N">The drops, landings or positions the size rests on.</param>
/// <param name="Sentence">The same in words, with what it is the size of.</param>
[TypeFormatterSource]
public sealed record FlagHarm(double Value, string Unit, int N, string Sentence);

/// <summary>Something in the records that looks wrong. A flag changes, repairs and deletes nothing: the base decides.</summary>
[TypeFormatterSource]
public sealed record RecordFlag
{
    /// <summary>The check that raised it.</summary>
    public required string Check { get; init; }

    /// <summary>The rows it concerns, as a group.</summary>
    public required RecordGroup Group { get; init; }

    /// <summary>What was found, in one sentence.</summary>
    public required string Found { get; init; }

    /// <summary>What it would do to the numbers.</summary>
    public required FlagHarm Harm { get; init; }

    /// <summary>Where the rows stand.</summary>
    public required IReadOnlyList<RowSource> Rows { get; init; }

    /// <summary>
    /// Probability of a finding as strong in sound records, multiplied by the groups and checks looked at (Bonferroni); null
    /// when a rule was broken instead.
    /// </summary>
    public double? PValue { get; init; }

    /// <summary>The rule that was broken, or the test that gave <see cref="PValue"/>.</summary>
    public required string Rule { get; init; }

    /// <summary>What to do about it.</summary>
    public required string Try { get; init; }

    internal string GroupShown => Group.Shown(Rows);

    internal string Strength => PValue is { } p ? $"{(p < 0.001 ? "p < 0.001" : $"p = {Rounding.Fixed(p, 3)}")}; {Rule}" : $"rule: {Rule}";
}
