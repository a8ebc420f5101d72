namespace JumpAnalytics;

/// <summary>Whether a landing came down inside the target radius.</summary>
public enum LandingOutcome
{
    /// <summary>Known only as beyond a distance that is shorter than the target radius: can't be told.</summary>
    Undecided,

    /// <summary>Inside the target radius, or on it.</summary>
    Hit,

    /// <summary>Outside the target radius.</summary>
    Miss,
}

/// <summary>
/// One jumper's landing: its place relative to the spot or, when the place is unknown, the distance it lies beyond.
/// SI units. An optional value that was not recorded is null.
/// </summary>
/// <remarks>
/// Every model of the statistics can be fitted to landings as they are, for instance <c>BivariateT.FitTo(log.Landings)</c>: it sees their
/// misses in the downwind frame, their missions, the distances that censored ones lie beyond, and the recorded errors of measurement. A
/// landing with a place but no downwind frame (a forecast drift of no length) is left out; the fit counts it and says so.
/// </remarks>
[TypeFormatterSource]
public sealed record Landing : IPlaneReading
{
    /// <summary>
    /// A miss distance may pass the target radius by this share and still count as on it: the size of rounding when a
    /// distance in yards meets a radius in feet, far below anything measured.
    /// </summary>
    internal const double OnTheRim = 1e-9;

    /// <summary>The pass this jumper left on.</summary>
    public required Drop Drop { get; init; }

    /// <summary>Where the row stands in the log.</summary>
    public required RowSource Source { get; init; }

    /// <summary>Landing less spot, metres east and north; null when only <see cref="Beyond"/> is known.</summary>
    public LocalVector? Miss { get; init; }

    /// <summary>Metres from spot to landing as recorded; null when only <see cref="Beyond"/> is known.</summary>
    public double? MissDistance { get; init; }

    /// <summary>Metres; the landing is farther from the spot than this and its place is unknown (a censored landing).</summary>
    public double? Beyond { get; init; }

    /// <summary>Code of the jumper.</summary>
    public string? Jumper { get; init; }

    /// <summary>Place in the stick, 1 = first out.</summary>
    public int? ExitOrder { get; init; }

    /// <summary>Class of canopy.</summary>
    public string? Canopy { get; init; }

    /// <summary>Whether the jumper hung up in a tree.</summary>
    public bool? HungUp { get; init; }

    /// <summary>How the place was measured: gps, pace, laser or estimate.</summary>
    public string? MeasuredBy { get; init; }

    /// <summary>Metres; standard deviation of the measurement per axis.</summary>
    public double? MeasuredSd { get; init; }

    /// <summary>File of the descent track.</summary>
    public string? Track { get; init; }

    /// <summary>Whether the jumper was injured.</summary>
    public bool? Injured { get; init; }

    /// <summary>Free text.</summary>
    public string? Remarks { get; init; }

    /// <summary>Whether the place is known only as beyond a distance.</summary>
    public bool IsCensored => Beyond is not null;

    /// <summary>
    /// Hit, miss, or undecided: whether the landing <see cref="IsInside"/> the target radius.
    /// </summary>
    public LandingOutcome Outcome => OutcomeOf(IsInside(Drop.TargetRadius));

    /// <summary>
    /// Whether the landing came down inside a distance from the spot, or on it: the one rule for a hit. False for a landing known only as
    /// beyond that distance or a longer one; null, not known, for one known only as beyond a shorter distance.
    /// </summary>
    /// <param name="distance">Metres from the spot, zero or more: the target radius, or a margin.</param>
    public bool? IsInside(double distance) =>
        Beyond is { } beyond ? IsWithin(distance, beyond) ? false : null
        : MissDistance is { } miss ? IsWithin(miss, distance) : null;

    /// <summary>
    /// The same rule for a miss that is not on record, a modelled or moved one: whether a distance is no longer than a radius, give or take
    /// <see cref="OnTheRim"/>.
    /// </summary>
    /// <param name="distance">Metres from the middle of the circle.</param>
    /// <param name="radius">Metres.</param>
    internal static bool IsWithin(double distance, double radius) => distance <= radius * (1 + OnTheRim);

    /// <summary>The outcome that such an answer comes to.</summary>
    internal static LandingOutcome OutcomeOf(bool? isInside) => isInside switch
    {
        true => LandingOutcome.Hit,
        false => LandingOutcome.Miss,
        null => LandingOutcome.Undecided,
    };

    /// <summary>
    /// Whether the recorded miss distance is the target radius itself: a hit by definition, though often only by rounding.
    /// </summary>
    public bool IsOnTheRadius => MissDistance is { } miss && Math.Abs(miss - Drop.TargetRadius) <= Drop.TargetRadius * OnTheRim;

    /// <summary>The miss along and across the forecast drift; null when the place or the drift's direction is unknown.</summary>
    public PlaneVector? MissDownwind => Miss is { } miss ? Drop.Frame?.ToDownwind(miss) : null;

    string IPlaneReading.Cluster => Drop.Mission;

    PlaneVector? IPlaneReading.Place => MissDownwind;

    SampleNouns IPlaneReading.Nouns => TradeNouns.Value;
}
