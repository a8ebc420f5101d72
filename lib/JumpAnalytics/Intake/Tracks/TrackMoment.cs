namespace JumpAnalytics;

/// <summary>A moment found in a track: exit, opening or touchdown.</summary>
/// <param name="Point">Index of the point at or next after it.</param>
/// <param name="Seconds">Seconds since <see cref="DescentTrack.Start"/>; may lie between two points.</param>
/// <param name="SecondsSd">Standard deviation of that time, seconds.</param>
/// <param name="Confidence">0 to 1: how sure it is that this is the moment and not something else.</param>
/// <param name="Sign">What it was told by, in plain words.</param>
[TypeFormatterSource]
public sealed record TrackMoment(int Point, double Seconds, double SecondsSd, double Confidence, string Sign);
