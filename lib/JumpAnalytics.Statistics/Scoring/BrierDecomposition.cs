namespace JumpAnalytics.Statistics;

/// <summary>
/// The mean Brier score of forecasts in its parts: score = miscalibration − discrimination + uncertainty + remainder. Less of the score
/// and of miscalibration is better, more of discrimination.
/// </summary>
[TypeFormatterSource]
public sealed record BrierDecomposition
{
    private BrierDecomposition(int forecasts, double score, double miscalibration, double discrimination, double uncertainty) =>
        (Forecasts, Score, Miscalibration, Discrimination, Uncertainty) = (forecasts, score, miscalibration, discrimination, uncertainty);

    /// <summary>Number of forecasts.</summary>
    public int Forecasts { get; }

    /// <summary>Mean Brier score.</summary>
    public double Score { get; }

    /// <summary>What the score would gain if forecasts were set to the rates that follow them; Murphy's reliability.</summary>
    public double Miscalibration { get; }

    /// <summary>What forecasts so set gain over forecasting the overall rate always; Murphy's resolution.</summary>
    public double Discrimination { get; }

    /// <summary>The score of forecasting the overall rate always: rate · (1 − rate).</summary>
    public double Uncertainty { get; }

    /// <summary>What forecasts that differ within a bin leave over; 0 without bins.</summary>
    public double Remainder => Score - (Miscalibration - Discrimination + Uncertainty);

    /// <summary>
    /// 1 − score / uncertainty: 1 is perfect, 0 as good as forecasting the overall rate always; null when the outcomes are all the same.
    /// </summary>
    public double? Skill => Uncertainty > 0 ? 1 - Score / Uncertainty : null;

    /// <summary>
    /// Murphy's decomposition (1973, Journal of Applied Meteorology 12:595-600): each different forecast with the
    /// rate of successes after it.
    /// </summary>
    /// <param name="probabilities">Forecast probabilities of a success.</param>
    /// <param name="successes">Whether each was one.</param>
    /// <param name="bins">
    /// Number of bins of equal width that forecasts are gathered in, each with the mean of its forecasts; null to gather equal forecasts
    /// only. Few forecasts of each value make miscalibration and discrimination both too large.
    /// </param>
    /// <returns>The parts, or the reason why there are none: no forecast.</returns>
    /// <exception cref="ArgumentException">Lengths that differ, a probability not from 0 to 1, or fewer than one bin.</exception>
    public static Fit<BrierDecomposition> Murphy(IReadOnlyList<double> probabilities, IReadOnlyList<bool> successes, int? bins = null)
    {
        if (bins is { } asked) Guard.AtLeast(asked, 1, nameof(bins));
        var tallies = ForecastTally.Of(probabilities, successes);
        if (tallies.Length == 0) return Fit<BrierDecomposition>.Refused("no forecast");
        return Fit<BrierDecomposition>.Made(bins is { } count
            ? OfGroups(tallies, [.. tallies.GroupBy(t => Bin(t.Forecast, count)).Select(ForecastTally.Together)])
            : OfGroups(tallies, tallies));
    }

    /// <summary>
    /// The decomposition by isotonic regression (CORP: Dimitriadis, Gneiting and Jordan 2021, PNAS 118, e2016191118): forecasts are set to
    /// the rising rates that fit the outcomes best. No bins are chosen, and miscalibration and discrimination are never negative.
    /// </summary>
    /// <param name="probabilities">Forecast probabilities of a success.</param>
    /// <param name="successes">Whether each was one.</param>
    /// <returns>The parts, or the reason why there are none: no forecast.</returns>
    /// <exception cref="ArgumentException">Lengths that differ, or a probability not from 0 to 1.</exception>
    public static Fit<BrierDecomposition> Corp(IReadOnlyList<double> probabilities, IReadOnlyList<bool> successes) =>
        ForecastTally.Of(probabilities, successes) is { Length: > 0 } tallies
            ? Fit<BrierDecomposition>.Made(OfRising(tallies, ForecastTally.Rising(tallies)))
            : Fit<BrierDecomposition>.Refused("no forecast");

    /// <summary>The bin from k/bins, included, up to the next; the last holds 1 too.</summary>
    private static int Bin(double forecast, int bins)
    {
        var bin = (int)(forecast * bins);
        return Math.Min(bins - 1, (bin + 1.0) / bins <= forecast ? bin + 1 : bin); // 0.29 · 100 comes out below 29
    }

    /// <summary>Murphy's parts of groups, each with the mean of its forecasts.</summary>
    internal static BrierDecomposition OfGroups(ForecastTally[] tallies, ForecastTally[] groups)
    {
        var of = OfRising(tallies, groups);
        return new(of.Forecasts, of.Score, groups.Sum(g => g.Count * Square(g.Forecast - g.Rate)) / tallies.Sum(t => t.Count),
            of.Discrimination, of.Uncertainty);
    }

    /// <summary>The parts when each forecast of a block is set to the rate of the block.</summary>
    internal static BrierDecomposition OfRising(ForecastTally[] tallies, IReadOnlyList<ForecastTally> blocks)
    {
        var (count, successes) = (tallies.Sum(t => t.Count), tallies.Sum(t => t.Successes));
        var overall = successes / count;
        var score = tallies.Sum(t => t.Successes * Square(1 - t.Forecast) + (t.Count - t.Successes) * Square(t.Forecast)) / count;
        var recalibrated = blocks.Sum(b => b.Count * b.Rate * (1 - b.Rate)) / count;
        var discrimination = blocks.Sum(b => b.Count * Square(b.Rate - overall)) / count;
        return new((int)count, score, Math.Max(0, score - recalibrated), discrimination, overall * (1 - overall));
    }

    private static double Square(double x) => x * x;
}
