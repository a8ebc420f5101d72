namespace JumpAnalytics;

/// <summary>A quantity of an earlier landing or pass.</summary>
/// <param name="Mission">The mission it belongs to.</param>
/// <param name="Value">SI.</param>
internal readonly record struct PastValue(string Mission, double Value);
