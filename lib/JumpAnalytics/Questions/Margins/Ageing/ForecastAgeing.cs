namespace JumpAnalytics;

/// <summary>
/// What the minutes between streamers and exit do to the misses: counted by class of age, and as a law of growth with its uncertainty.
/// </summary>
public sealed class ForecastAgeing : ShownResult
{
    /// <summary>
    /// The exponent that the variance of wind change has in published measurements: change over a lag grows as its cube root,
    /// its variance as the power 2/3 (Merceret 1997, Journal of Applied Meteorology 36:1567-1571, from 6 to 17 km up: the
    /// shape may be used, the size not).
    /// </summary>
    public const double PublishedExponent = 2 / 3.0;

    /// <summary>Fewest missions with an age from which a law is fitted.</summary>
    public const int FewestMissions = 20;

    /// <summary>The oldest forecast must be so many times as old as the youngest.</summary>
    private const double LeastSpread = 1.5;

    private ForecastAgeing()
    {
    }

    /// <summary>The law, or the reason why there is none.</summary>
    public required Fit<AgeGrowth> Growth { get; init; }

    /// <summary>Whether growth with age is shown (<see cref="AgeGrowth.IsShown"/>); false where no law could be fitted.</summary>
    public bool IsShown => Growth.Value?.IsShown == true;

    /// <summary>Landings by class of age, counted with no law behind them.</summary>
    public required IReadOnlyList<AgeClass> Classes { get; init; }

    /// <summary>Landings without an age on record.</summary>
    public required int WithoutAge { get; init; }

    /// <summary>Landings with an age that can't be one: negative or not finite.</summary>
    public required int ImpossibleAges { get; init; }

    /// <summary>Landings with an age but without a place in the downwind frame; left out of the law, not of the classes.</summary>
    public required int WithoutPlace { get; init; }

    /// <summary>When the number of points asked about is lost, or why that can't be said; refused where growth is not shown.</summary>
    public required Fit<AgeOfLoss> Loss { get; init; }

    /// <summary>The reader's settings.</summary>
    public required AgeingOptions Settings { get; init; }

    /// <summary>Units and confidence.</summary>
    public required AccuracyOptions Options { get; init; }

    /// <summary>Looks at the ages.</summary>
    /// <param name="landings">Landings, with or without ages.</param>
    /// <param name="options">Units, confidence, resamples and seed.</param>
    /// <param name="settings">Ages to tell, classes and points; as <see cref="AgeingOptions"/> has them when left out.</param>
    public static ForecastAgeing Of(IReadOnlyList<Landing> landings, AccuracyOptions options, AgeingOptions? settings = null)
    {
        settings ??= new AgeingOptions();
        var aged = landings.Where(l => AgedLandings.HasAge(l.Drop)).ToList();
        var growth = Fitted(aged, options);
        return new ForecastAgeing
        {
            Growth = growth,
            Classes = AgeClass.Of(aged, options, settings.ClassEdges),
            WithoutAge = landings.Count(l => l.Drop.StreamerAge is null),
            ImpossibleAges = landings.Count(l => l.Drop.StreamerAge is { } && !AgedLandings.HasAge(l.Drop)),
            WithoutPlace = aged.Count(l => l.MissDownwind is null),
            Loss = !growth.Success ? Fit<AgeOfLoss>.Refused(growth.Reason)
                : !growth.Value.IsShown ? Fit<AgeOfLoss>.Refused(NotShown)
                : Fit<AgeOfLoss>.Made(growth.Value.AgeAtLoss(settings.Ages[0], settings.LossPoints)),
            Settings = settings,
            Options = options,
        };
    }

    internal const string NotShown = "growth with age is not shown";

    private static Fit<AgeGrowth> Fitted(IReadOnlyList<Landing> aged, AccuracyOptions options)
    {
        var data = AgedLandings.Of(aged);
        if (!data.Success) return Fit<AgeGrowth>.Refused(data.Reason);
        if (data.Value.Missions < FewestMissions)
            return Fit<AgeGrowth>.Refused($"{Rounding.Count(data.Value.Missions, "mission")} with an age of the streamers; "
                + $"a law of growth needs {FewestMissions}, and some hundreds to be of use");
        return data.Value.Age.Max() < LeastSpread * data.Value.Age.Min()
            ? Fit<AgeGrowth>.Refused($"the ages lie between {Minutes(AgedLandings.Unit * data.Value.Age.Min())} "
                + $"and {Minutes(AgedLandings.Unit * data.Value.Age.Max())} min; "
                + $"growth needs the oldest to be {LeastSpread} times as old as the youngest")
            : Fit<AgeGrowth>.Made(new AgeGrowth(data.Value, options));
    }

    /// <inheritdoc/>
    public override string Reading
    {
        get
        {
            if (!Growth.Success) return $"What the age of the forecast does to the misses can't be told: {Growth.Reason}.";
            var g = Growth.Value;
            var (young, old) = (Settings.Ages[0], Math.Min(Settings.Ages[^1], g.Ages.High));
            var (radius, rate) = (g.RadiusGrowth(young, old), g.HitRateChange(young, old));
            var n = $"wind held fixed ({Rounding.Count(g.Missions, "mission")}, {Rounding.Count(g.Landings, "landing")}; ages "
                + $"{Minutes(g.Ages.Low)} to {Minutes(g.Ages.High)} min)";
            var p = $"p {Rounding.PValue(g.NoGrowthP)}, one-sided";
            return g.IsShown
                ? $"From {Minutes(young)} to {Minutes(old)} min of age the radius that holds 90 % of landings grows by "
                    + $"{Rounding.Percent(radius)} and the landing rate changes by {Rounding.Points(rate)} points, {n}. "
                    + $"Growth with age is shown ({p}). {LossSentence(g)}"
                : $"Growth of the misses with the age of the forecast is not shown ({p}), {n}. "
                    + $"From {Minutes(young)} to {Minutes(old)} min of age the records leave possible that the "
                    + $"radius that holds 90 % of landings grows by {Ends(radius, 100)} % and the landing rate "
                    + $"changes by {Ends(rate, 100)} points ({Rounding.Percent(Options.Confidence)} intervals)"
                    + (g.MissionsToTell is { } missions
                        ? $"; to show growth of the size it seems to be would take about {Rounding.Count(missions, "mission")}." : ".");

            static string Ends(Estimate of, double times) => of.Range is { } r
                ? $"{Rounding.Fixed(times * r.Low, 0)} to {Rounding.Fixed(times * r.High, 0)}" : "an unknown number of";
        }
    }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => Growth.Value is not { } g ? [Counts] :
    [
        Shape(g),
        Counts,
        "Old forecasts may differ in more than age: only the drift wind is held fixed. Growth below zero is not considered, "
            + "and nothing is said of ages beyond the record.",
    ];

    private string Counts => $"{Rounding.Count(WithoutAge, "landing")} without an age on record, {ImpossibleAges} with one that can't be, "
        + $"and {WithoutPlace} with an age but no known place are left out of the law.";

    private static string Shape(AgeGrowth g)
    {
        var range = g.Exponent.Range!.Value;
        var power = !g.IsShapeKnown
            ? "These records do not show the shape of the growth: the variance may grow with any power of the age from "
                + $"{Rounding.Short(range.Low)} to {Rounding.Short(range.High)} (0: no growth; 2: a steady trend of the wind), and "
                + "figures are those of the published power"
            : $"The variance grows with the age to the power {Rounding.Fixed(g.Exponent.Value, 2)} ({Rounding.Fixed(range.Low, 2)} to "
                + $"{Rounding.Fixed(range.High, 2)}{(g.ExponentBeyond ? ", the most tried" : "")})";
        return $"{power}. The published power, 2/3, is {(g.PublishedP < 0.05 ? "hard to reconcile with them" : "not contradicted")} (p "
            + $"{Rounding.PValue(g.PublishedP)}); no growth at all: p {Rounding.PValue(g.NoGrowthP)}.";
    }

    private string LossSentence(AgeGrowth g)
    {
        var loss = Loss.Value!;
        var (from, points) = (Minutes(Settings.Ages[0]), Rounding.Short(loss.Points));
        return loss.Age is { } age
            ? $"The {points} points of landing rate asked about, below {from} min, are lost at {Minutes(age)} min "
                + $"(from {Minutes(loss.Low ?? age)} min "
                + $"{(loss.High is { } high ? $"to {Minutes(high)} min" : "on, or not within the ages on record")})."
            : $"The {points} points of landing rate asked about, below {from} min, are not lost within the ages on record, "
                + $"up to {Minutes(g.Ages.High)} min"
                + (loss.Low is { } least ? $"; by the interval, from {Minutes(least)} min on they may be." : ".");
    }

    internal static string Minutes(double seconds) => Rounding.Short(Math.Round(seconds / 6) / 10);

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => AgeingTables.Of(this);
}
