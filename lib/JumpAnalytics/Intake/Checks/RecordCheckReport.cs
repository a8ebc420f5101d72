namespace JumpAnalytics;

/// <summary>What the checks of the records found.</summary>
public sealed class RecordCheckReport : ShownResult
{
    private readonly RecordCheckOptions _options;

    internal RecordCheckReport(IReadOnlyList<CheckOutcome> checks, RecordCheckOptions options) => (Checks, _options) = (checks, options);

    /// <summary>Each check with the rows it could look at and its flags.</summary>
    public IReadOnlyList<CheckOutcome> Checks { get; }

    /// <summary>The flags of all checks.</summary>
    public IReadOnlyList<RecordFlag> Flags => [.. Checks.SelectMany(c => c.Flags)];

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            var flags = Flags.Count;
            return $"{Rounding.Count(Checks.Count, "check")} of the records raised "
                + $"{(flags == 0 ? "no flag" : Rounding.Count(flags, "flag"))}"
                + (flags == 0 ? ". " : $" in {string.Join(", ", Checks.Where(c => c.Flags.Count > 0).Select(c => c.Check))}. ")
                + "A flag says that rows look wrong, not that they are; nothing was changed, repaired or left out.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Flags.Select(f => $"{f.Check}{(f.Group == RecordGroup.SingleRows ? "" : $", {f.GroupShown}")}: {f.Found}"),
        .. Checks.Where(c => c.Rows == 0).Select(c => c.Check).ToList() is { Count: > 0 } blind
            ? [$"Not looked at, because the log does not record what is needed: {string.Join("; ", blind)}."] : Array.Empty<string>(),
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [FlagTable, RowTable];

    /// <summary>The flags.</summary>
    public TableView FlagTable => new TableOf<RecordFlag>("record-flags", "Flags of the record checks", Flags,
        "p: chance of as much in sound records, multiplied by the groups and the checks looked at; a test flags below "
        + $"{Rounding.Fixed(_options.FalseAlarms, 2)}. "
        + "Numbers that no public source gives (limits of rules) are common practice, no source.")
    {
        { Columns.Check, f => f.Check }, { Columns.FlagGroup, f => f.GroupShown }, { Columns.Found, f => f.Found },
        { Columns.Harm, f => f.Harm.Sentence }, { Columns.FlagRows, f => f.Rows.Count }, { Columns.Strength, f => f.Strength },
        { Columns.WhatToDo, f => f.Try },
    };

    /// <summary>Every row of every flag.</summary>
    public TableView RowTable => new TableOf<(RecordFlag Flag, RowSource Row)>("record-flag-rows", "Rows of the flags",
        Flags.SelectMany(f => f.Rows, (f, r) => (f, r)))
    {
        { Columns.Check, r => r.Flag.Check }, { Columns.FlagGroup, r => r.Flag.GroupShown },
        { Columns.File, r => r.Row.File }, { Columns.Line, r => r.Row.Line },
    };
}
