namespace JumpAnalytics;

/// <summary>Looks for the mistakes that occur in records: flags, never deletions or repairs.</summary>
public static class RecordChecks
{
    internal static IReadOnlyList<IRecordCheck> All { get; } =
    [
        new UnitSlipCheck(), new ReversalCheck(), new RotationCheck(), new PositionCheck(), new CoordinateFormCheck(), new HeapingCheck(),
        new DuplicateCheck(), new StreamerAgeCheck(), new DriftRowCheck(), new ExitHeightCheck(), new MissingLandingsCheck(),
        new FarLandingCheck(), new MissionCheck(),
    ];

    /// <summary>Checks a log.</summary>
    /// <param name="log">The records.</param>
    /// <param name="options">Units, confidence and the chance of a false alarm; the defaults when left out.</param>
    public static RecordCheckReport Of(JumpLog log, RecordCheckOptions? options = null)
    {
        if (log.Sharing is not null)
            return new RecordCheckReport([], options ?? new RecordCheckOptions()) { Withheld = LogSharing.Withheld };
        var looked = new CheckedLog(log, options ?? new RecordCheckOptions(), All.Count(c => !c.IsRuleAlone));
        return new RecordCheckReport([.. All.Select(c => c.Look(looked))], looked.Options);
    }
}

/// <summary>One check.</summary>
internal interface IRecordCheck
{
    /// <summary>Name in the table of flags.</summary>
    string Name { get; }

    /// <summary>Whether it looks for broken rules alone, so that no probability has to allow for it.</summary>
    bool IsRuleAlone => false;

    /// <summary>Looks at the records.</summary>
    CheckOutcome Look(CheckedLog log);
}

/// <summary>What came of one check.</summary>
/// <param name="Check">Its name.</param>
/// <param name="Rows">How many rows it could look at; 0 when the log does not record what it needs.</param>
/// <param name="Flags">What it found.</param>
[TypeFormatterSource]
public sealed record CheckOutcome(string Check, int Rows, IReadOnlyList<RecordFlag> Flags);
