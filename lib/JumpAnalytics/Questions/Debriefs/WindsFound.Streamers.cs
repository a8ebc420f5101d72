namespace JumpAnalytics;

/// <summary>The wind that the streamers imply, beside the one recorded and the one found by tracks.</summary>
public sealed partial class WindsFound
{
    /// <summary>The winds of one pass.</summary>
    /// <param name="Pass">The pass.</param>
    /// <param name="Streamers">What its streamers tell, or what is missing.</param>
    /// <param name="Found">The wind its tracks found; null without a track that tells one.</param>
    [TypeFormatterSource]
    public sealed record StreamerWind(DebriefedPass Pass, Fit<PassStreamers> Streamers, PassWind? Found);

    /// <summary>Every pass of the mission, with its streamers.</summary>
    public IReadOnlyList<StreamerWind> Streamers { get; }

    private IReadOnlyList<string> StreamerPoints =>
    [
        .. Streamers.Where(s => s.Streamers.Success).Select(Sentence),
        .. Streamers.Where(s => !s.Streamers.Success)
            .Select(s => $"{Rounding.Capital(s.Pass.Name)}: no wind by the streamers: {s.Streamers.Reason}."),
    ];

    private string Sentence(StreamerWind s)
    {
        var unit = Options.Units.Speed.Suffix;
        var found = s.Found?.Mean is null ? ""
            : $"; found {Rounding.Number(FoundSpeed(s.Found)!)} {unit} in the mean over height ({Rounding.Count(TracksOf(s), "track")})";
        return $"{Rounding.Capital(s.Pass.Name)}: wind by the streamers {Rounding.Number(SpeedOf(s)!)} {unit}; "
            + $"recorded {DebriefWords.Wind(s.Pass.Drop.WindSpeed, s.Pass.Drop.WindFrom, Options)}{found}.";
    }

    private TableView StreamerTable
    {
        get
        {
            var (speed, height) = (Options.Units.Speed, Options.Units.Height);
            var assumed = Streamers.Select(s => s.Streamers.Value).OfType<PassStreamers>().FirstOrDefault();
            return new TableOf<StreamerWind>("streamer-winds", "Wind by the streamers, recorded and found", Streamers,
                (assumed is null ? "" : StreamerWords.Figures(assumed, Options) + " ")
                    + $"Intervals at {Rounding.Percent(Options.Confidence)}; "
                    + "of the wind found as if the errors of all heights went together.")
            {
                { Columns.PassNumber, s => s.Pass.Name },
                {
                    Columns.Measure(
                        "streamer_height", "streamers from", height, "Height above ground from which streamers are taken to fall."),
                    s => s.Streamers.Value is { } told ? height.FromSi(told.Set.ReleaseHeight) : null
                },
                {
                    Columns.SpeedRange("wind_streamers", "wind by streamers", speed, "Speed of the wind that the streamers imply."),
                    SpeedOf
                },
                { Columns.WindFromStreamers, s => s.Streamers.Value is { } told ? FromOf(told.Wind, told.WindError) : null },
                { WindRecorded, s => speed.FromSi(s.Pass.Drop.WindSpeed) },
                { Columns.WindFromForecast, s => s.Pass.Drop.WindFrom is { } from ? WholeDegrees(from) : null },
                {
                    Columns.SpeedRange("wind_found_mean", "wind found", speed, "Speed of the mean wind of the tracks over height."),
                    s => s.Found is { } found ? FoundSpeed(found) : null
                },
                { Columns.WindFromTracks, s => s.Found?.Mean is { } mean ? FromOf(mean, ErrorOf(s.Found)) : null },
                { Columns.TracksBehind, s => TracksOf(s) },
                { Columns.StreamersMissing, s => s.Streamers.Reason ?? (s.Found is null ? "no descent track tells the wind" : null) },
            };
        }
    }

    private static int TracksOf(StreamerWind s) => s.Pass.Jumpers.Count(j => j.Flight.Success);

    private Estimate? SpeedOf(StreamerWind s) => s.Streamers.Value is { } told ? Speed(told.Wind, told.WindError) : null;

    private Estimate? FoundSpeed(PassWind found) => found.Mean is { } mean ? Speed(mean, ErrorOf(found)) : null;

    /// <summary>
    /// Covariance of the error of a mean over heights, were the errors of all heights alike; null where one is not known.
    /// </summary>
    private static PlaneCovariance? ErrorOf(PassWind found)
    {
        var errors = found.Levels.Select(l => l.Level.Error).OfType<PlaneCovariance>().ToList();
        return errors.Count == 0 || errors.Count < found.Levels.Count ? null : 1.0 / errors.Count * errors.Aggregate((a, b) => a + b);
    }

    /// <summary>The direction a wind comes from, with the angle that its error across it makes; null in calm.</summary>
    private Estimate? FromOf(WindVector wind, PlaneCovariance? error)
    {
        if (wind.From is not { } from) return null;
        if (error is null) return Estimate.WithoutRange(from.Degrees, "error not known");
        var across = error.SdAlong(Bearing.FromDegrees(from.Degrees + 90)) / wind.Speed;
        var half = double.RadiansToDegrees(Math.Atan(BudgetSheet.HalfWidth(across, Options)));
        return Estimate.Of(from.Degrees, new Interval(from.Degrees - half, from.Degrees + half));
    }
}
