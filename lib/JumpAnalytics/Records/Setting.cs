namespace JumpAnalytics;

/// <summary>Something a report was asked for.</summary>
internal sealed record Setting(string Name, string Value, string? Note = null);
