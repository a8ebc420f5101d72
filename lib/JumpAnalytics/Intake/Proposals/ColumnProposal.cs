namespace JumpAnalytics;

/// <summary>How sure a proposal is.</summary>
public enum Sureness
{
    /// <summary>No quantity of the log comes near.</summary>
    None,

    /// <summary>
    /// Score 40 or more, close to its runner-up, or with a word in the header that the quantity does not account for. It is
    /// not part of the proposed map.
    /// </summary>
    Guess,

    /// <summary>Score 65 or more and 8 above its runner-up, every word of the header accounted for.</summary>
    Likely,

    /// <summary>Score 85 or more and 15 above its runner-up, every word of the header accounted for.</summary>
    Sure,
}

/// <summary>What is proposed for one header of a base's table.</summary>
[TypeFormatterSource]
public sealed record ColumnProposal
{
    /// <summary>File name without its folder.</summary>
    public required string File { get; init; }

    /// <summary>The header as the file spells it.</summary>
    public required string Header { get; init; }

    /// <summary>The header of the log; null when nothing comes near. An open unit ends it with <c>_unit?</c>.</summary>
    public string? Target { get; init; }

    /// <summary>How sure that is.</summary>
    public Sureness Sureness { get; init; }

    /// <summary>0 to 100; the sum of the points in <see cref="Evidence"/>, cut at both ends.</summary>
    public int Score { get; init; }

    /// <summary>The pieces of evidence with their points.</summary>
    public string Evidence { get; init; } = "";

    /// <summary>The next best quantity and its score; null when there is none.</summary>
    public string? RunnerUp { get; init; }

    /// <summary>The values in a few words.</summary>
    public required string Values { get; init; }

    /// <summary>
    /// What the median value is under each unit that the quantity may have; null when the header states the unit or there is none.
    /// </summary>
    public string? UnderEachUnit { get; init; }

    /// <summary>What to check before the proposal is used; null when there is nothing.</summary>
    public string? Note { get; init; }

    /// <summary>Whether the header is one of the log's own and needs no map.</summary>
    public bool IsOwn { get; init; }

    /// <summary>Whether the unit has to be filled in.</summary>
    public bool IsUnitOpen => Target?.EndsWith(ColumnMapReader.Open, StringComparison.Ordinal) == true;

    /// <summary>Texts that a yes-or-no column holds and the log does not understand.</summary>
    internal IReadOnlyList<string> OpenCodes { get; init; } = [];

    /// <summary>Whether its dates leave open which of day and month comes first.</summary>
    internal bool IsOrderOpen { get; init; }

    /// <summary>The quantity proposed.</summary>
    internal LogColumn? Column { get; init; }

    /// <summary>The sureness in words.</summary>
    public string Words =>
        Sureness switch { Sureness.Sure => "sure", Sureness.Likely => "likely", Sureness.Guess => "a guess", _ => "none" };
}
