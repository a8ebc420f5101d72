namespace JumpAnalytics;

/// <summary>Something that was found wrong or odd in a track, and what was done about it.</summary>
/// <param name="Kind">A short fixed name, for instance <c>gap</c>, <c>spike</c>, <c>repeated time</c>.</param>
/// <param name="Count">How often.</param>
/// <param name="Text">One sentence: what was found, where, what was done.</param>
[TypeFormatterSource]
public sealed record TrackNote(string Kind, int Count, string Text);
