namespace JumpAnalytics;

/// <summary>
/// The wind that descent tracks found, by height, beside the one wind that the forecast used for the whole descent; and the wind that the
/// streamers imply.
/// </summary>
/// <remarks>
/// At each height the winds of the jumpers' tracks are averaged with weights by their errors. Where their scatter is larger than their
/// errors say, the error grows by it (Birge ratio, Birge 1932, from memory): the jumpers flew through other gusts at other moments. With
/// one track it is that of the track.
/// </remarks>
public sealed partial class WindsFound : ShownResult
{
    /// <summary>Metres between two heights of the table.</summary>
    private const double Step = 50;

    private WindsFound(IReadOnlyList<DebriefedPass> all, IReadOnlyList<PassWind> passes, AccuracyOptions options)
    {
        (Passes, Options) = (passes, options);
        Streamers = [.. all.Select(p => new StreamerWind(p, p.Streamers, passes.FirstOrDefault(w => w.Pass == p)))];
    }

    /// <summary>The wind of one pass.</summary>
    /// <param name="Pass">The pass.</param>
    /// <param name="Levels">
    /// The wind at each height where a track tells it, from the ground up, with the number of tracks behind it.
    /// </param>
    /// <param name="Mean">Mean wind of the levels; null when there is none.</param>
    [TypeFormatterSource]
    public sealed record PassWind(DebriefedPass Pass, IReadOnlyList<(WindLevel Level, int Tracks)> Levels, WindVector? Mean);

    /// <summary>Passes with a track that tells a wind.</summary>
    public IReadOnlyList<PassWind> Passes { get; }

    /// <summary>Units and confidence.</summary>
    public AccuracyOptions Options { get; }

    internal static WindsFound Of(IReadOnlyList<DebriefedPass> passes, AccuracyOptions options) =>
        new(passes, [.. passes.Where(p => p.Jumpers.Any(j => j.Flight.Value?.Profile.Count > 0)).Select(Of)], options);

    private static PassWind Of(DebriefedPass pass)
    {
        var profiles = pass.Jumpers.Select(j => j.Flight.Value?.Profile).OfType<IReadOnlyList<WindLevel>>()
            .Where(p => p.Count > 0).ToList();
        var levels = new List<(WindLevel, int)>();
        var top = profiles.Max(p => p.Max(l => l.Height));
        for (var height = Step / 2; height <= top; height += Step)
        {
            var here = profiles.Select(p => Near(p, height)).OfType<WindLevel>().ToList();
            if (here.Count > 0) levels.Add((Mean(height, here), here.Count));
        }
        return new PassWind(pass, levels,
            levels.Count == 0 ? null : 1.0 / levels.Count * levels.Select(l => l.Item1.Wind).Aggregate((a, b) => a + b));
    }

    /// <summary>The wind of a profile at a height, between its two neighbours; null outside of it by more than a step.</summary>
    private static WindLevel? Near(IReadOnlyList<WindLevel> profile, double height)
    {
        var (below, above) =
            (profile.Where(l => l.Height <= height).MaxBy(l => l.Height), profile.Where(l => l.Height > height).MinBy(l => l.Height));
        if (below is null || above is null) return (below ?? above) is { } end && Math.Abs(end.Height - height) <= Step ? end : null;
        var share = (height - below.Height) / (above.Height - below.Height);
        return new WindLevel(height, (1 - share) * below.Wind + share * above.Wind,
            below.Error is { } a && above.Error is { } b ? (1 - share) * a + share * b : null);
    }

    private static WindLevel Mean(double height, List<WindLevel> winds)
    {
        var known = winds.Where(w => w.Error is { VarianceAlong: > 0, VarianceAcross: > 0 }).ToList();
        if (known.Count < winds.Count)
            return new WindLevel(height, 1.0 / winds.Count * winds.Select(w => w.Wind).Aggregate((a, b) => a + b));
        var weights = known.Select(w => 1 / w.Error!.Trace).ToList();
        var total = weights.Sum();
        var mean = known.Zip(weights, (w, k) => k / total * w.Wind).Aggregate((a, b) => a + b);
        var error = known.Zip(weights, (w, k) => k * k / (total * total) * w.Error!).Aggregate((a, b) => a + b);
        if (known.Count == 1) return new WindLevel(height, mean, error);
        var scatter = known.Zip(weights, (w, k) => 2 * k * Math.Pow((w.Wind - mean).Speed, 2)).Sum() / (2 * (known.Count - 1));
        return new WindLevel(height, mean, Math.Max(1, scatter) * error);
    }

    /// <inheritdoc/>
    public override string Reading => Passes.Count == 0
        ? "No descent track tells the wind of this mission. The forecast's own wind stands alone; whether it held can't be said."
        : string.Join(" ", Passes.Where(p => p.Mean is not null).Select(p => $"{Rounding.Capital(p.Pass.Name)}: "
            + $"forecast {DebriefWords.Wind(p.Pass.Drop.WindSpeed, p.Pass.Drop.WindFrom, Options)}, "
            + $"found {DebriefWords.Wind(p.Mean!.Value.Speed, p.Mean.Value.From, Options)} in the mean over height "
            + $"({Rounding.Count(p.Pass.Jumpers.Count(j => j.Flight.Success), "track")})."));

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => [.. Passes.Where(p => p.Mean is not null).Select(Change), .. StreamerPoints];

    private string Change(PassWind p)
    {
        string Words(WindLevel level) => DebriefWords.Wind(level.Wind.Speed, level.Wind.From, Options);
        return $"{Rounding.Capital(p.Pass.Name)}: the forecast took one wind for the whole descent; "
            + $"the tracks found {Words(p.Levels[0].Level)} at the lowest height told and {Words(p.Levels[^1].Level)} at the highest.";
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => [.. Passes.Count == 0 ? [] : new[] { ByHeight }, StreamerTable];

    private TableColumn WindRecorded =>
        Columns.Measure("wind_forecast", "forecast's wind", Options.Units.Speed, "Speed of the one wind that the forecast used.");

    private TableView ByHeight
    {
        get
        {
            var (speed, height) = (Options.Units.Speed, Options.Units.Height);
            return new TableOf<(DebriefedPass Pass, WindLevel Level, int Tracks)>("wind-found", "Wind found by height",
                Passes.SelectMany(p => p.Levels.Select(l => (p.Pass, l.Level, l.Tracks))),
                $"Intervals at {Rounding.Percent(Options.Confidence)}. Winds of several tracks are averaged by their errors; "
                    + "the error grows where they scatter more than it says.")
            {
                { Columns.PassNumber, r => r.Pass.Name },
                {
                    Columns.Measure("height", "height above ground", height, "Height above the landing ground."),
                    r => height.FromSi(r.Level.Height)
                },
                { Columns.TracksBehind, r => r.Tracks },
                {
                    Columns.SpeedRange("wind_found", "wind found", speed, "Speed of the wind, with the interval along its own direction."),
                    r => Speed(r.Level.Wind, r.Level.Error)
                },
                { Columns.WindFromFound, r => r.Level.Wind.From is { } from ? WholeDegrees(from) : null },
                { WindRecorded, r => speed.FromSi(r.Pass.Drop.WindSpeed) },
                { Columns.WindFromForecast, r => r.Pass.Drop.WindFrom is { } forecast ? WholeDegrees(forecast) : null },
            };
        }
    }

    private static double WholeDegrees(Bearing bearing) => Math.Round(bearing.Degrees) % 360;

    private Estimate Speed(WindVector wind, PlaneCovariance? error)
    {
        var unit = Options.Units.Speed;
        if (error is null || wind.From is not { } from) return Estimate.WithoutRange(unit.FromSi(wind.Speed), "error not known");
        var around = BudgetSheet.Around(unit, wind.Speed, error.SdAlong(from), Options);
        return Estimate.Of(around.Value, around.Range!.Value with { Low = Math.Max(0, around.Range.Value.Low) });
    }
}
