namespace JumpAnalytics;

/// <summary>Something in one field of a row that could not be used, with what to do about it.</summary>
/// <param name="Source">File and line.</param>
/// <param name="Column">Header of the field as the file spells it; several headers when the trouble lies between them.</param>
/// <param name="Value">The text found there, unchanged; empty when it is blank.</param>
/// <param name="Kind">Short name of the kind of trouble, for counting.</param>
/// <param name="Reason">What is wrong.</param>
/// <param name="Try">What to try.</param>
[TypeFormatterSource]
public sealed record CellProblem(RowSource Source, string Column, string Value, string Kind, string Reason, string Try);

/// <summary>A row that could not be used. Nothing of it is lost: its fields are kept as they were read.</summary>
/// <param name="Source">File and line.</param>
/// <param name="Problems">Why, at least one.</param>
/// <param name="Fields">The row's fields, unchanged, in the order of the file.</param>
/// <param name="Season">The season it belongs to, from the row itself or from its drop; null when neither tells.</param>
/// <param name="StandsForLanding">Whether it stands for a landing that is in no number; a repeat of an accepted landing does not.</param>
[TypeFormatterSource]
public sealed record QuarantinedRow(RowSource Source, IReadOnlyList<CellProblem> Problems, IReadOnlyList<string> Fields,
    string? Season, bool StandsForLanding)
{
    /// <summary>Whether it was refused because the jumper hung up and no distance is recorded.</summary>
    public bool IsHangUpWithoutDistance => Problems.Any(p => p.Kind == ProblemKinds.HangUpWithoutDistance);
}

/// <summary>Kinds of trouble that code asks for by name.</summary>
internal static class ProblemKinds
{
    public const string HangUpWithoutDistance = "hang-up without distance";
    public const string RepeatedLanding = "repeated landing";
    public const string OutOfRange = "out of range";
    public const string NotAPosition = "not a position";
}
