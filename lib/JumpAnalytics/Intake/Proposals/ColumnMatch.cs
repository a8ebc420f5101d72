namespace JumpAnalytics;

/// <summary>A quantity that a column may hold, with the score and what it is made of.</summary>
/// <param name="Column">The quantity.</param>
/// <param name="Score">0 to 100.</param>
/// <param name="Evidence">What the score is the sum of.</param>
/// <param name="Unexplained">
/// Words of the header that the quantity does not account for: the time of a streamer is not the time of the drop.
/// </param>
internal sealed record ColumnMatch(LogColumn Column, double Score, IReadOnlyList<Evidence> Evidence, IReadOnlyList<string> Unexplained)
{
    /// <summary>Points for a header that says just this quantity.</summary>
    private const double FullName = 70;

    /// <summary>
    /// The match of one column with one quantity. At most 70 points come from the name, 25 from the values, 5 from the unit.
    /// </summary>
    /// <param name="column">The quantity.</param>
    /// <param name="words">The header taken apart.</param>
    /// <param name="values">The column's values.</param>
    /// <param name="isLandings">Whether the table holds landings alone, so that a bare distance is that of a landing.</param>
    /// <param name="sharesIds">The other table whose ids these are; null when they are none's.</param>
    public static ColumnMatch Of(LogColumn column, HeaderWords words, ColumnValues values, bool isLandings, string? sharesIds)
    {
        var (name, unexplained) = Likeness(column, words.Notions);
        if (isLandings && Likeness(column, [.. words.Notions, "landing"]) is var implied && implied.Share > name)
            (name, unexplained) = implied;
        if (name == 0) return new(column, 0, [], unexplained);
        var accepted = UnitsOf(column);
        var stated = accepted.Where(u => words.Units.Contains(u.Suffix)).ToList();
        var behind = words.Units.Count == 0 ? accepted.Where(u => u.Suffix == values.UnitBehind).ToList() : [];
        stated.AddRange(behind);
        var evidence = new List<Evidence> { new(FullName * name, $"name {Rounding.Percent(name)} alike") };
        if (column == LogColumns.DropId && sharesIds is not null) evidence.Add(new(25, $"ids shared with {sharesIds}"));
        else evidence.Add(ValueEvidence.Of(column, values, words.IsMultiple ? [] : stated.Count > 0 ? stated : accepted));
        var foreign = words.Units.Where(u => column.Kind != ColumnKind.Bearing || u != "m").ToList(); // the m of a bearing may be magnetic
        if (stated.Count > 0) evidence.Add(new(5, $"unit {string.Join(" or ", stated)}{(behind.Count > 0 ? " behind the numbers" : "")}"));
        else if (foreign.Count > 0) evidence.Add(new(-30, $"unit {string.Join(" or ", foreign)} does not fit"));
        else if (accepted.Count == 0) evidence.Add(new(5, "no unit needed"));
        return new(column, Math.Clamp(evidence.Sum(e => e.Points), 0, 100), evidence, unexplained);
    }

    /// <summary>Units that a quantity's headers may state; none for texts and angles.</summary>
    public static IReadOnlyList<MeasureUnit> UnitsOf(LogColumn column) => [.. column.Headers().Select(h => h.Unit).OfType<MeasureUnit>()];

    /// <summary>Twice the common weight over the sum of both (Dice's coefficient), for the most alike phrase.</summary>
    private static (double Share, IReadOnlyList<string> Unexplained) Likeness(LogColumn column, IReadOnlyList<string> notions)
    {
        (double Share, IReadOnlyList<string> Unexplained) best = (0, notions);
        foreach (var phrase in TradeWords.PhrasesFor(column))
        {
            var common = phrase.Notions.Where(notions.Contains).ToList();
            if (!common.Exists(n => TradeWords.Weight(n) == 1)) continue;
            var rest = notions.Except(phrase.Notions).ToList();
            var share = phrase.Worth * 2 * common.Count / (common.Count + rest.Sum(TradeWords.Weight) + phrase.Notions.Count);
            if (share > best.Share) best = (share, [.. rest.Where(n => TradeWords.Weight(n) == 1)]);
        }
        return best;
    }
}
