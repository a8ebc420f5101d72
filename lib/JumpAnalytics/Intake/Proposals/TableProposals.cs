namespace JumpAnalytics;

/// <summary>Proposes a quantity for each header of one table: the best scores first, no quantity twice.</summary>
internal sealed class TableProposals(ILogTable table, IReadOnlyList<ColumnValues> values,
    IReadOnlyList<LogColumn> quantities, bool isLandings)
{
    private const double LeastScore = 40;

    public ILogTable Table => table;

    public IReadOnlyList<ColumnValues> Values => values;

    /// <param name="others">The tables of the other kind, whose ids this one may share.</param>
    public IReadOnlyList<ColumnProposal> Make(IReadOnlyList<TableProposals> others)
    {
        var own = HeaderMap.Of(table.Name, table.Header, quantities).Bound.ToLookup(b => b.Index);
        var words = table.Header.Select(HeaderWords.Of).ToList();
        var matches = table.Header.Select((_, i) => Matches(words[i], values[i], SharedWith(values[i], others))).ToList();
        var taken = own.SelectMany(b => b).Select(b => b.Column).ToHashSet();
        var chosen = new ColumnMatch?[table.Header.Count];
        foreach (var (i, match) in matches.SelectMany((m, i) => m.Select(match => (i, match))).Where(m => m.match.Score >= LeastScore)
            .OrderByDescending(m => m.match.Score).ThenBy(m => m.i))
        {
            if (!own.Contains(i) && chosen[i] is null && taken.Add(match.Column)) chosen[i] = match;
        }
        return [.. table.Header.Select((header, i) =>
            own[i].FirstOrDefault() is { } bound ? Own(bound, values[i]) : Proposal(header, words[i], values[i], chosen[i], matches[i]))];
    }

    private List<ColumnMatch> Matches(HeaderWords words, ColumnValues held, string? sharesIds) =>
        [.. quantities.Select(q => ColumnMatch.Of(q, words, held, isLandings, sharesIds))
            .Where(m => m.Score > 0).OrderByDescending(m => m.Score)];

    private ColumnProposal Own(BoundColumn bound, ColumnValues held) => new()
    {
        File = table.Name, Header = bound.Header, Target = bound.Header, Column = bound.Column, IsOwn = true,
        Sureness = Sureness.Sure, Score = 100,
        Evidence = "100 the log's own header", Values = held.Describe(), IsOrderOpen = IsOrderOpen(bound.Column, held),
        Note = string.Join("; ", UnitQuestion.OfTime(bound.Column, held)) is { Length: > 0 } note ? note : null,
    };

    private ColumnProposal Proposal(string header, HeaderWords words, ColumnValues held, ColumnMatch? match, IReadOnlyList<ColumnMatch> all)
    {
        var proposal = new ColumnProposal { File = table.Name, Header = header, Values = held.Describe(), RunnerUp =
            Told(all.FirstOrDefault(m => m != match)) };
        if (match is null) return proposal;
        var lead = match.Score - (all.FirstOrDefault(m => m != match)?.Score ?? 0);
        var target = UnitQuestion.Target(match.Column, words, held);
        return proposal with
        {
            Target = target, Column = match.Column, Score = (int)Math.Round(match.Score),
            Sureness = match.Unexplained.Count > 0 || (words.IsAboveSea && match.Column == LogColumns.ExitHeight) ? Sureness.Guess
                : match.Score >= 85 && lead >= 15 ? Sureness.Sure : match.Score >= 65 && lead >= 8 ? Sureness.Likely : Sureness.Guess,
            Evidence = string.Join("; ", match.Evidence.Where(e => e.Points != 0).Select(e => $"{Rounding.Fixed(e.Points, 0)} {e.Text}")),
            Values = held.Describe() + Codes(match.Column, held),
            UnderEachUnit = target.EndsWith(ColumnMapReader.Open, StringComparison.Ordinal)
                ? UnitQuestion.Choices(match.Column, held) : null,
            IsOrderOpen = IsOrderOpen(match.Column, held),
            Note = UnitQuestion.Note(match.Column, words, held, match.Unexplained),
            OpenCodes = match.Column.Kind == ColumnKind.YesNo
                ? [.. held.Commonest.Select(c => c.Key).Where(c => YesNo.Read(c) is null).Take(12)] : [],
        };
    }

    private static bool IsOrderOpen(LogColumn column, ColumnValues held) =>
        held.IsOrderOpen && (column == LogColumns.Time || column == LogColumns.Date);

    /// <summary>Rows that look like no records, in words; null when there are none.</summary>
    public string? NoRecords()
    {
        var kinds = table.Rows().Where(r => !r.IsBlank).Select(r => (r.Source.Line, Kind: ColumnValues.NoRecordKind(r, table.Header)))
            .Where(r => r.Kind is not null).Select(r => $"{r.Kind} (line {r.Line})").ToList();
        return kinds.Count == 0 ? null : $"{table.Name}: {Rounding.Count(kinds.Count, "row")} "
            + $"{(kinds.Count == 1 ? "looks" : "look")} like no record and would be passed over: {string.Join(", ", kinds.Take(8))}"
            + $"{(kinds.Count > 8 ? " …" : "")}.";
    }

    /// <summary>The commonest codes of a class of ground, canopy or measurement; those of people are not told.</summary>
    private static string Codes(LogColumn column, ColumnValues held) =>
        column != LogColumns.Terrain && column != LogColumns.Canopy && column != LogColumns.MeasuredBy || held.Distinct.Count > 12 ? ""
            : ": " + string.Join(", ", held.Commonest.Select(c => $"{c.Key} ({Rounding.Count(c.Value)})"));

    private static string? Told(ColumnMatch? match) =>
        match is { Score: >= 20 } ? $"{match.Column.Name} {Rounding.Fixed(match.Score, 0)}" : null;

    /// <summary>The table of the other kind most of whose texts of some column are those of this one, or the other way round.</summary>
    private static string? SharedWith(ColumnValues ids, IReadOnlyList<TableProposals> others) => ids.Distinct.Count < 2 ? null
        : others.FirstOrDefault(o => o.Values.Any(v => AreSame(ids, v)))?.Table.Name;

    /// <summary>Ids of both tables are the same, and are all different in one of them.</summary>
    private static bool AreSame(ColumnValues one, ColumnValues two)
    {
        if (Math.Max((double)one.Distinct.Count / one.Rows, (double)two.Distinct.Count / Math.Max(1, two.Rows)) < 0.95) return false;
        var (few, many) = one.Distinct.Count <= two.Distinct.Count ? (one, two) : (two, one);
        return few.Distinct.Count >= 2 && few.Distinct.Count(many.Holds) >= 0.8 * few.Distinct.Count;
    }
}
