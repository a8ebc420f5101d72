namespace JumpAnalytics;

/// <summary>Forecasts that are counted together: their value or mean, how many, and the hits after them.</summary>
internal readonly record struct ForecastTally(double Forecast, double Count, double Hits)
{
    public double Rate => Hits / Count;

    /// <summary>One for each different forecast, in rising order.</summary>
    public static ForecastTally[] Of(IReadOnlyList<double> probabilities, IReadOnlyList<bool> hits)
    {
        if (probabilities.Count != hits.Count)
            throw new ArgumentException($"Each forecast needs its outcome; found {probabilities.Count} forecasts and {hits.Count} outcomes.");
        return [.. probabilities.Zip(hits).GroupBy(f => ForecastScores.Share(f.First)).OrderBy(g => g.Key)
            .Select(g => new ForecastTally(g.Key, g.Count(), g.Count(f => f.Second)))];
    }

    /// <summary>Several as one, with the mean of their forecasts.</summary>
    public static ForecastTally Together(IEnumerable<ForecastTally> tallies)
    {
        var (sum, count, hits) = (0.0, 0.0, 0.0);
        foreach (var t in tallies) (sum, count, hits) = (sum + t.Count * t.Forecast, count + t.Count, hits + t.Hits);
        return new ForecastTally(sum / count, count, hits);
    }

    /// <summary>
    /// Isotonic regression by pooling adjacent violators (Ayer and others 1955, Annals of Mathematical Statistics 26:641-647): the blocks of
    /// equal rate, rates rising strictly from block to block.
    /// </summary>
    public static List<ForecastTally> Rising(ReadOnlySpan<ForecastTally> tallies)
    {
        var blocks = new List<ForecastTally>();
        foreach (var tally in tallies)
        {
            if (tally.Count == 0) continue;
            var block = tally;
            while (blocks.Count > 0 && blocks[^1] is var last && last.Hits * block.Count >= block.Hits * last.Count)
            {
                block = new ForecastTally((last.Forecast * last.Count + block.Forecast * block.Count) / (last.Count + block.Count), last.Count + block.Count, last.Hits + block.Hits);
                blocks.RemoveAt(blocks.Count - 1);
            }
            blocks.Add(block);
        }
        return blocks;
    }
}
