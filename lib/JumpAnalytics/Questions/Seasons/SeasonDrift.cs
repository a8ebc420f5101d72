using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>Whether the landing rate drifts over three seasons or more, and what the next season may bring.</summary>
/// <remarks>
/// <para>Rates as flown. Each has the variance of the rate of all seasons on its landings, times one design effect of missions within
/// seasons (Rao and Scott 1992, Biometrics 48:577-585), so that thin seasons do not vouch for themselves. Trend: Cochran's (1954) and
/// Armitage's (1955, Biometrics 11:375-386) test of a straight line on that variance, t on missions − seasons degrees of freedom.</para>
/// <para>Spread between seasons: random effects by restricted likelihood, its interval and the test of equal rates by Cochran's Q
/// (<see cref="RandomEffectsMean"/>). Next season: the mean, the spread, the error of both and the chance in a season of the usual size,
/// t on seasons − 1 degrees; it foresees no trend. The papers are cited from memory.</para>
/// </remarks>
[TypeFormatterSource]
public sealed record SeasonDrift
{
    /// <summary>Fewest seasons.</summary>
    public const int FewestSeasons = 3;

    /// <summary>The first season and the last.</summary>
    public required string First { get; init; }

    /// <summary>The last season.</summary>
    public required string Last { get; init; }

    /// <summary>Seasons with a landing known as a hit or a miss.</summary>
    public required int Seasons { get; init; }

    /// <summary>Their missions.</summary>
    public required int Missions { get; init; }

    /// <summary>Their landings.</summary>
    public required int Landings { get; init; }

    /// <summary>Change of the rate from a season to the next by a straight line over all, as a share, + better.</summary>
    public required Estimate Slope { get; init; }

    /// <summary>Chance of a line as steep or steeper, up or down, were the rate steady.</summary>
    public required double TrendP { get; init; }

    /// <summary>Standard deviation of the true rates of the seasons, as a share.</summary>
    public required Estimate Spread { get; init; }

    /// <summary>Chance of seasons that differ as much or more were the rate steady.</summary>
    public required double SpreadP { get; init; }

    /// <summary>
    /// The rate that a next season of the usual size may show, if seasons go on differing as they did and no trend goes on.
    /// </summary>
    public required Estimate Next { get; init; }

    /// <summary>Coverage of the intervals.</summary>
    public required double Confidence { get; init; }

    /// <summary>
    /// Whether the seasons differ by more than chance, by the trend or by the spread: each is held to half of 1 − confidence.
    /// </summary>
    public bool IsDrifting => HasTrend || SpreadP < (1 - Confidence) / 2;

    private bool HasTrend => TrendP < (1 - Confidence) / 2;

    /// <summary>What to know beside a rate of all seasons together; null where they do not differ by more than chance.</summary>
    public string? Warning => !IsDrifting ? null
        : (HasTrend ? $"The landing rate {(Slope.Value < 0 ? "falls" : "rises")} over the seasons from {First} to {Last}, by "
            + $"{Rounding.Points(Slope)} points a season (p {Rounding.PValue(TrendP)})"
            : $"The seasons from {First} to {Last} differ by more than chance (p {Rounding.PValue(SpreadP)})")
        + $", {Size}: one rate for all of them describes none of them well.";

    /// <summary>Spread, trend and next season in words.</summary>
    public string Sentence => $"Over the {Seasons} seasons from {First} to {Last} ({Size}) the rate changed by "
        + $"{Rounding.Points(Slope)} points a season (p {Rounding.PValue(TrendP)}), "
        + (HasTrend ? $"a {(Slope.Value < 0 ? "fall" : "rise")} beyond chance" : "not clearly different from a steady rate")
        + $"; true rates of seasons have a standard deviation of {Points(Spread)} points (p {Rounding.PValue(SpreadP)} of none). "
        + $"A next season of the usual size may show {Rounding.Percent(Next)}, if no trend goes on.";

    private string Size => $"{Rounding.Count(Missions, "mission")}, {Rounding.Count(Landings, "landing")}";

    private static string Points(Estimate share) => Rounding.Number(share.Select(x => 100 * x));

    /// <summary>Judges the seasons.</summary>
    /// <param name="seasons">Seasons in rising order.</param>
    /// <param name="confidence">Coverage of the intervals.</param>
    internal static Fit<SeasonDrift> Of(IReadOnlyList<(string Name, MissionSample Sample)> seasons, double confidence)
    {
        if (seasons.Count < FewestSeasons)
            return Fit<SeasonDrift>.Refused($"{Rounding.Count(seasons.Count, "season")}; a drift is judged from {FewestSeasons} on");
        var counts = seasons.Select(s => s.Sample.Decided()).ToList();
        var (hits, sizes) = (counts.Select(c => (double)c.Hits.Sum()).ToList(), counts.Select(c => (double)c.Landings.Sum()).ToList());
        var (missions, all) = (counts.Sum(c => c.Landings.Length), sizes.Sum());
        var (rates, mean) = (hits.Zip(sizes, (h, n) => h / n).ToList(), hits.Sum() / all);
        if (missions - seasons.Count < 2 || mean is 0 or 1) return Fit<SeasonDrift>.Refused(
            mean is 0 or 1 ? "landings are all hits or all misses" : "a mission a season says nothing of chance");

        // missions about the rate of their own season, over what as many independent landings would scatter
        var between = counts.Zip(rates, (c, p) => c.Landings.Length / Math.Max(1, c.Landings.Length - 1.0)
            * c.Hits.Zip(c.Landings, (h, n) => (h - p * n) * (h - p * n)).Sum()).Sum();
        var binomial = sizes.Zip(rates, (n, p) => n * p * (1 - p)).Sum();
        var design = binomial > 0 ? Math.Max(1, between / binomial) : all / missions;
        double[] variances = [.. sizes.Select(n => design * mean * (1 - mean) / n)];
        var (freedom, effects) = (missions - seasons.Count, RandomEffectsMean.Of(rates, variances, confidence: confidence).Value!);

        var middle = sizes.Select((n, t) => n * t).Sum() / all;
        var squares = sizes.Select((n, t) => n * (t - middle) * (t - middle)).Sum();
        var slope = sizes.Select((n, t) => n * (t - middle) * rates[t]).Sum() / squares;
        var error = Math.Sqrt(design * mean * (1 - mean) / squares);
        var share = TailShare.Middle(confidence);
        var (t, next) = (QuantileOf.T(freedom, share), QuantileOf.T(seasons.Count - 1, share)
            * Math.Sqrt(effects.TauSquared + effects.StandardError * effects.StandardError + variances.Average()));
        return Fit<SeasonDrift>.Made(new SeasonDrift
        {
            First = seasons[0].Name, Last = seasons[^1].Name, Seasons = seasons.Count, Missions = missions, Landings = (int)all,
            Slope = Estimate.Of(slope, new Interval(slope - t * error, slope + t * error)),
            TrendP = 2 * StudentT.CDF(0, 1, freedom, -Math.Abs(slope / error)),
            Spread = Estimate.Of(Math.Sqrt(effects.TauSquared),
                new Interval(Math.Sqrt(effects.TauSquaredRange.Low), Math.Sqrt(effects.TauSquaredRange.High))),
            SpreadP = effects.QP,
            Next = Estimate.Of(effects.Mean.Value,
                new Interval(Math.Max(0, effects.Mean.Value - next), Math.Min(1, effects.Mean.Value + next))),
            Confidence = confidence,
        });
    }

    internal TableView Table(AccuracyOptions options) =>
        new TableOf<SeasonDrift>("season-drift", "All seasons together: does the rate drift?", [this],
            $"Intervals at {Rounding.Percent(options.Confidence)}, rates as flown. The slope is that of a straight line; the spread is "
            + "that of the seasons' true rates, chance taken out; a next season of the usual size if no trend goes on.")
        {
            { Columns.SeasonFrom, d => d.First },
            { Columns.SeasonTo, d => d.Last },
            { Columns.Missions, d => d.Missions },
            { Columns.Landings, d => d.Landings },
            { Columns.SlopeBySeason, d => d.Slope },
            { Columns.SlopePValue, d => d.TrendP },
            { Columns.SpreadOfSeasons, d => d.Spread },
            { Columns.SeasonSpreadPValue, d => d.SpreadP },
            { Columns.NextSeason, d => d.Next },
        };
}
