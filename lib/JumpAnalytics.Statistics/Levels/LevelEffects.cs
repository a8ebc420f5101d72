namespace JumpAnalytics;

/// <summary>What the landings of one mission share: the best linear unbiased prediction, drawn towards zero the more the fewer the landings.</summary>
/// <param name="Landings">Landings of the mission with a known place; with none the prediction is zero.</param>
/// <param name="Effect">The prediction, metres beside the bias (and beside the spotter's effect).</param>
/// <param name="Errors">Covariance of the prediction's error, that of the bias included and the parts of the variance taken as known.</param>
[TypeFormatterSource]
public readonly record struct MissionEffect(int Landings, DownwindVector Effect, PlaneCovariance Errors);

/// <summary>What the missions of one spotter share: the best linear unbiased prediction, drawn towards zero the more the fewer the missions.</summary>
/// <param name="Spotter">The spotter.</param>
/// <param name="Effect">The prediction, metres beside the bias.</param>
/// <param name="Errors">Covariance of the prediction's error, that of the bias included and the parts of the variance taken as known.</param>
[TypeFormatterSource]
public sealed record SpotterEffect(string Spotter, DownwindVector Effect, PlaneCovariance Errors);
