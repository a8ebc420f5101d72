namespace JumpAnalytics;

/// <summary>
/// What a base's own headers may mean, as a map to check and fill in. Each match has a score made of named evidence; a unit is taken from
/// the header's words or left open, never guessed.
/// </summary>
public sealed class MapProposal : ShownResult
{
    private readonly string _name;

    private readonly IReadOnlyList<string> _remarks;

    private MapProposal(string name, IReadOnlyList<ColumnProposal> columns, IReadOnlyList<string> missing, IReadOnlyList<string> remarks) =>
        (_name, Proposals, Missing, _remarks) = (name, columns, missing, remarks);

    /// <summary>One for each header, in the order of the files.</summary>
    public IReadOnlyList<ColumnProposal> Proposals { get; }

    /// <summary>What the log can't do without and no sure or likely proposal holds, by file.</summary>
    public IReadOnlyList<string> Missing { get; }

    /// <summary>
    /// The proposed map as the text of a <c>columns.json</c>. Guesses stand in it as comments; it is refused until every
    /// open unit and code is filled in.
    /// </summary>
    public string Json => MapProposalJson.Of(Proposals);

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var made = Proposals.Where(p => !p.IsOwn).ToList();
            return $"{Rounding.Count(Proposals.Count, "header")} of '{_name}': {Proposals.Count - made.Count} the log's own, "
                + $"{Of(Sureness.Sure)} sure, {Of(Sureness.Likely)} likely, {Of(Sureness.Guess)} a guess, {Of(Sureness.None)} without a "
                + "match. Check each before it is used: a wrong column or unit makes every number wrong.";

            int Of(Sureness sureness) => made.Count(p => p.Sureness == sureness);
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Proposals.Where(p => p.IsUnitOpen)
            .Select(p => $"unit? {p.File}, '{p.Header}' as {p.Target}{(p.UnderEachUnit is { } each ? $": {each}" : "")}."),
        .. Proposals.Where(p => p.OpenCodes.Count > 0 && p.Sureness >= Sureness.Likely)
            .Select(p => $"yes or no? {p.File}, '{p.Header}' holds {string.Join(", ", p.OpenCodes.Select(c => $"'{c}'"))}."),
        .. Proposals.Where(p => p.IsOrderOpen && p.Sureness >= Sureness.Likely)
            .Select(p => $"month or day first? {p.File}, '{p.Header}': no day above 12 shows it, or days above 12 stand in both places."),
        .. Missing, .. _remarks,
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables =>
    [
        new TableOf<ColumnProposal>("column-map", "Proposed column map", Proposals,
            "The score is the sum of its evidence: name to 70, values −50 to 25, unit −30 to 5. Sure is 85 with a lead of 15 over the "
            + "runner-up, likely 65 with 8; a guess is 40, and any header with a word that the quantity does not account for.")
        {
            { Columns.File, p => p.File }, { Columns.ColumnName, p => p.Header }, { Columns.MapTarget, p => p.Target },
            { Columns.MapSureness, p => p.Words }, { Columns.MapScore, p => p.Target is null ? null : p.Score },
            { Columns.MapEvidence, p => p.Evidence }, { Columns.MapRunnerUp, p => p.RunnerUp }, { Columns.MapValues, p => p.Values },
            { Columns.MapUnits, p => p.UnderEachUnit }, { Columns.Note, p => p.Note },
        },
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<ShownFile> Attachments => [new("column-map.json", Json)];

    /// <exception cref="LogFormatException">There is no log at the path.</exception>
    internal static MapProposal Of(string path)
    {
        var files = LogFiles.Find(path);
        var drops = files.Drops.Select(t => Look(t, LogColumns.Drops, false)).ToList();
        var landings = files.Landings.Select(t => Look(t, LogColumns.Landings, true)).ToList();
        LogColumn[] all = [.. LogColumns.Drops.Union(LogColumns.Landings)];
        var flat = files.Flat.Select(t => Look(t, all, false)).ToList();
        var (columns, missing) = (new List<ColumnProposal>(), new List<string>());
        Add(drops, landings, LogColumns.RequiredOfDrops);
        Add(landings, drops, LogColumns.RequiredOfLandings);
        Add(flat, [], [.. LogColumns.RequiredOfDrops, .. LogColumns.RequiredOfLandings]);
        var looked = drops.Concat(landings).Concat(flat).ToList();
        return new MapProposal(files.Name, columns, missing,
            [.. looked.SelectMany(t => t.Table.Remarks.Select(r => $"{t.Table.Name}: {r}.")),
                .. looked.Select(t => t.NoRecords()).OfType<string>()]);

        void Add(List<TableProposals> tables, List<TableProposals> others, IReadOnlyList<LogColumn[][]> required)
        {
            foreach (var table in tables)
            {
                var made = table.Make(others);
                columns.AddRange(made);
                missing.AddRange(Lacking(table.Table.Name, made, required));
            }
        }
    }

    private static TableProposals Look(ILogTable table, IReadOnlyList<LogColumn> quantities, bool isLandings) =>
        new(table, ColumnValues.Of(table), quantities, isLandings);

    private static IEnumerable<string> Lacking(string file, IReadOnlyList<ColumnProposal> proposals, IEnumerable<LogColumn[][]> required)
    {
        var held = proposals.Where(p => p.Sureness >= Sureness.Likely).Select(p => p.Column!).ToHashSet();
        foreach (var sets in required.Where(sets => !sets.Any(set => set.All(held.Contains))))
        {
            var guesses = proposals.Where(p => p.Sureness == Sureness.Guess && sets.Any(set => set.Contains(p.Column)))
                .Select(p => $"'{p.Header}' may be {p.Target}").ToList();
            yield return $"{file} lacks {string.Join(", or ", sets.Select(set => string.Join(" + ", set.Select(c => c.Accepted()))))}"
                + (guesses.Count > 0 ? $" ({string.Join(", ", guesses)}: a guess)." : ".");
        }
    }
}
