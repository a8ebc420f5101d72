namespace JumpAnalytics;

/// <summary>The ledgers in which refused rows can be repaired.</summary>
public sealed partial class IntakeReport
{
    /// <inheritdoc/>
    public override IReadOnlyList<ShownFile> Attachments => HoldsRowsAsWritten ? [.. QuarantineLedger.Attachments(this)] : [];
}
