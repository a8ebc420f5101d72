namespace JumpAnalytics;

/// <summary>Something that a report was asked for, for its account of itself.</summary>
/// <param name="Name">What can be set.</param>
/// <param name="Value">What it was set to, with its unit.</param>
/// <param name="Note">What to know of it; null when there is nothing.</param>
internal sealed record Setting(string Name, string Value, string? Note = null);
