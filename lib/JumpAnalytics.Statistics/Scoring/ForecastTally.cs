namespace JumpAnalytics.Statistics;

/// <summary>Forecasts that are counted together: their value or mean, how many, and the successes after them.</summary>
internal readonly record struct ForecastTally(double Forecast, double Count, double Successes)
{
    public double Rate => Successes / Count;

    /// <summary>One for each different forecast, in rising order.</summary>
    public static ForecastTally[] Of(IReadOnlyList<double> probabilities, IReadOnlyList<bool> successes)
    {
        if (probabilities.Count != successes.Count)
            throw new ArgumentException("Each forecast needs its outcome; "
                + $"found {probabilities.Count} forecasts and {successes.Count} outcomes.");
        return [.. probabilities.Zip(successes).GroupBy(f => ForecastScores.Share(f.First)).OrderBy(g => g.Key)
            .Select(g => new ForecastTally(g.Key, g.Count(), g.Count(f => f.Second)))];
    }

    /// <summary>Several as one, with the mean of their forecasts.</summary>
    public static ForecastTally Together(IEnumerable<ForecastTally> tallies)
    {
        var (sum, count, successes) = (0.0, 0.0, 0.0);
        foreach (var t in tallies) (sum, count, successes) = (sum + t.Count * t.Forecast, count + t.Count, successes + t.Successes);
        return new ForecastTally(sum / count, count, successes);
    }

    /// <summary>
    /// Isotonic regression by pooling adjacent violators (Ayer and others 1955, Annals of Mathematical Statistics 26:641-647): the blocks
    /// of equal rate, rates rising strictly from block to block.
    /// </summary>
    public static List<ForecastTally> Rising(ReadOnlySpan<ForecastTally> tallies)
    {
        var blocks = new List<ForecastTally>();
        foreach (var tally in tallies)
        {
            if (tally.Count == 0) continue;
            var block = tally;
            while (blocks.Count > 0 && blocks[^1] is var last && last.Successes * block.Count >= block.Successes * last.Count)
            {
                block = new ForecastTally((last.Forecast * last.Count + block.Forecast * block.Count) / (last.Count + block.Count),
                    last.Count + block.Count, last.Successes + block.Successes);
                blocks.RemoveAt(blocks.Count - 1);
            }
            blocks.Add(block);
        }
        return blocks;
    }
}
