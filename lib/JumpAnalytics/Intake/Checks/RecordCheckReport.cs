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
            return $"{Rounding.Count(Checks.Count, "check")} of the records raised {(flags == 0 ? "no flag" : Rounding.Count(flags, "flag"))}"
                + (flags == 0 ? ". " : $" in {string.Join(", ", Checks.Where(c => c.Flags.Count > 0).Select(c => c.Check))}. ")
                + "A flag says that rows look wrong, not that they are; nothing was changed, repaired or left out.";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Flags.Select(f => $"{f.Check}{(f.Group == RecordGroup.SingleRows ? "" : $", {f.GroupShown}")}: {f.Found}"),
        .. Checks.Where(c => c.Rows == 0).Select(c => c.Check).ToList() is { Count: > 0 } blind ? [$"Not looked at, because the log does not record what is needed: {string.Join("; ", blind)}."] : Array.Empty<string>(),
    ];

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [FlagTable, RowTable];

    /// <summary>The flags.</summary>
    public TableView FlagTable => new("record-flags", "Flags of the record checks",
        [Columns.Check, Columns.FlagGroup, Columns.Found, Columns.Harm, Columns.FlagRows, Columns.Strength, Columns.WhatToDo],
        [.. Flags.Select(f => new object?[] { f.Check, f.GroupShown, f.Found, f.Harm.Sentence, f.Rows.Count, f.Strength, f.Try })],
        $"p: chance of as much in sound records, multiplied by the groups and the checks looked at; a test flags below {Rounding.Fixed(_options.FalseAlarms, 2)}. "
        + "Numbers that no public source gives (limits of rules) are common practice, no source.");

    /// <summary>Every row of every flag.</summary>
    public TableView RowTable => new("record-flag-rows", "Rows of the flags",
        [Columns.Check, Columns.FlagGroup, Columns.File, Columns.Line],
        [.. Flags.SelectMany(f => f.Rows.Select(r => new object?[] { f.Check, f.GroupShown, r.File, r.Line }))]);
}
