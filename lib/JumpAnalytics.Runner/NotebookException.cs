namespace JumpAnalytics.Runner;

/// <summary>Something about a notebook that its reader can put right; the message says what and where.</summary>
internal sealed class NotebookException(string message) : Exception(message);
