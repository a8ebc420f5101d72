namespace JumpAnalytics.Statistics;

/// <summary>
/// What the points of one cluster share: the best linear unbiased prediction, drawn towards zero the more the fewer the points.
/// </summary>
/// <param name="Points">Points of the cluster with a known place; with none the prediction is zero.</param>
/// <param name="Effect">The prediction, metres beside the bias (and beside the rater's effect).</param>
/// <param name="Errors">
/// Covariance of the prediction's error, that of the bias included and the parts of the variance taken as known.
/// </param>
[TypeFormatterSource]
public readonly record struct ClusterEffect(int Points, PlaneVector Effect, PlaneCovariance Errors);

/// <summary>
/// What the clusters of one rater share: the best linear unbiased prediction, drawn towards zero the more the fewer the clusters.
/// </summary>
/// <param name="Rater">The rater.</param>
/// <param name="Effect">The prediction, metres beside the bias.</param>
/// <param name="Errors">
/// Covariance of the prediction's error, that of the bias included and the parts of the variance taken as known.
/// </param>
[TypeFormatterSource]
public sealed record RaterEffect(string Rater, PlaneVector Effect, PlaneCovariance Errors);
