namespace JumpAnalytics;

/// <summary>Where canopies should have drifted by the streamers, beside where the tracks say that they did.</summary>
public sealed partial class PlanAndOutcome
{
    /// <summary>One pass and one class of canopy in its stick.</summary>
    /// <param name="Pass">The pass.</param>
    /// <param name="Canopy">The class as the log names it; null where none was recorded.</param>
    /// <param name="Drift">Where such a canopy should have drifted by the streamers, or what is missing.</param>
    [TypeFormatterSource]
    public sealed record StreamerDrift(DebriefedPass Pass, string? Canopy, Fit<PassStreamers.CanopyDrift> Drift)
    {
        /// <summary>The unsteered drift that tracks of the pass found, metres; null without one.</summary>
        public LocalVector? Found => Pass.ForecastError is { } error ? Pass.Drop.ForecastDrift + error : null;

        /// <summary>Whether it and the one by the streamers differ by no more than their errors; null without a track.</summary>
        /// <param name="confidence">Share of errors, taken as normal, that are to be no larger.</param>
        public bool? IsInKeeping(double confidence)
        {
            if (Drift.Value is not { } drift || Found is not { } found) return null;
            var apart = drift.Drift - found;
            return (drift.Error + Pass.TrackError!).SquaredLength(apart.East, apart.North) <= -2 * Math.Log(1 - confidence);
        }
    }

    /// <summary>By pass and class of canopy, where the canopy should have drifted by the streamers.</summary>
    public IReadOnlyList<StreamerDrift> Streamers { get; }

    private static IEnumerable<StreamerDrift> DriftsOf(DebriefedPass pass, AccuracyOptions options)
    {
        var classes = pass.Jumpers.Select(j => j.Landing.Canopy).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        if (classes.Count == 0) return [new(pass, null, Refused("no canopy of the stick was recorded"))];
        return classes.Select(name => new StreamerDrift(pass, name,
            pass.Streamers.Value is not { } streamers ? Refused(pass.Streamers.Reason!)
            : CanopyFlight.Of(name, options.Canopies) is not { } canopy ? Refused("no flight figures for this canopy")
            : Fit<PassStreamers.CanopyDrift>.Made(streamers.DriftOf(canopy))));

        static Fit<PassStreamers.CanopyDrift> Refused(string why) => Fit<PassStreamers.CanopyDrift>.Refused(why);
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points =>
    [
        .. Streamers.Where(s => s.Drift.Success).Select(Sentence),
        .. Streamers.Where(s => !s.Drift.Success)
            .Select(s => $"{Rounding.Capital(s.Pass.Name)}: where canopies should have drifted is not known: {s.Drift.Reason}."),
    ];

    private string Sentence(StreamerDrift s)
    {
        var (unit, frame) = (_options.Units.Distance, s.Pass.Drop.Frame!);
        var (along, right) = Ranges(s, s.Drift.Value!.Drift, s.Drift.Value.Error);
        var found = s.Found is not { } flown ? "." : $"; {Rounding.Count(s.Pass.Parted, "track")} found "
            + $"{Show(frame.ToDownwind(flown).Along)} and {Show(frame.ToDownwind(flown).Across)}, "
            + (s.IsInKeeping(_options.Confidence) == true ? "no farther off" : "farther off") + " than the errors of both explain.";
        return $"{Rounding.Capital(s.Pass.Name)}: by the streamers a {s.Canopy} canopy should have drifted "
            + $"{Rounding.Number(along!)} {unit.Suffix} "
            + $"the way of the forecast and {Rounding.Number(right!, signed: true)} to the right of it, where the forecast was "
            + $"{DebriefWords.Distance(s.Pass.Drop.ForecastDrift.Length, _options)}{found}";

        string Show(double metres) => Rounding.Fixed(unit.FromSi(metres), 0);
    }

    private TableView StreamerTable
    {
        get
        {
            var unit = _options.Units.Distance;
            var told = Streamers.Select(s => s.Pass.Streamers.Value).OfType<PassStreamers>().FirstOrDefault();
            var figures = told is null ? "" : $"{StreamerWords.Figures(told, _options)} {StreamerWords.Throw(told.Figures)} "
                + $"Canopies: {string.Join("; ", _options.Canopies.Select(c => $"{c.Canopy}: {c.Source}"))}. "
                + $"The wind is taken to have changed since by {StreamerWords.Speed(told.Sources.WindChange, _options)} per axis "
                + $"at {Rounding.Fixed(told.Sources.ReferenceAge / 60, 0)} min, with the cube root of the age: an assumption. ";
            return new TableOf<StreamerDrift>("streamer-drifts", "Where canopies should have drifted by the streamers", Streamers,
                figures + $"Intervals at {Rounding.Percent(_options.Confidence)}, of the drift found by the tracks' errors alone.")
            {
                { Columns.PassNumber, s => s.Pass.Name },
                { Columns.CanopyClass, s => s.Canopy },
                {
                    Columns.Measure("forecast_drift", "forecast drift", unit, "Length of the recorded forecast drift."),
                    s => unit.FromSi(s.Pass.Drop.ForecastDrift.Length)
                },
                {
                    Columns.SignedDistance("streamer_drift_downwind", "by streamers, downwind", unit,
                        "Drift of the canopy by the streamers, the way of the forecast drift."),
                    s => ByStreamers(s).Along
                },
                {
                    Columns.SignedDistance(
                        "streamer_drift_right", "by streamers, right", unit, "The same across the forecast drift, + right of it."),
                    s => ByStreamers(s).Right
                },
                {
                    Columns.SignedDistance("track_drift_downwind", "found, downwind", unit,
                        "Unsteered drift by the tracks, the way of the forecast drift."),
                    s => ByTracks(s).Along
                },
                {
                    Columns.SignedDistance("track_drift_right", "found, right", unit, "The same across the forecast drift, + right of it."),
                    s => ByTracks(s).Right
                },
                { Columns.TracksBehind, s => s.Pass.Parted },
                { Columns.InKeeping, s => s.IsInKeeping(_options.Confidence) switch { true => "yes", false => "no", null => "not known" } },
                { Columns.StreamersAssumed, s => s.Drift.Success ? StreamerWords.OfPass(s.Pass.Streamers.Value!) : null },
                {
                    Columns.StreamersMissing,
                    s => s.Drift.Reason ?? (s.Pass.ForecastError is null ? "no descent track separates drift from steering" : null)
                },
            };
        }
    }

    private (Estimate? Along, Estimate? Right) ByStreamers(StreamerDrift s) =>
        s.Drift.Value is { } drift ? Ranges(s, drift.Drift, drift.Error) : default;

    private (Estimate? Along, Estimate? Right) ByTracks(StreamerDrift s) =>
        s.Found is { } found ? Ranges(s, found, s.Pass.TrackError!) : default;

    /// <summary>A drift along and across the forecast drift, with intervals; null where the forecast drift has no direction.</summary>
    private (Estimate? Along, Estimate? Right) Ranges(StreamerDrift s, LocalVector drift, PlaneCovariance error)
    {
        if (s.Pass.Drop.Frame is not { } frame) return default;
        var (v, c) = (frame.ToDownwind(drift), frame.ErrorDownwind(error));
        Estimate Around(double value, double variance) =>
            BudgetSheet.Around(_options.Units.Distance, Math.Round(value, 6), Math.Sqrt(Math.Max(0, variance)), _options);
        return (Around(v.Along, c.VarianceAlong), Around(v.Across, c.VarianceAcross));
    }
}
