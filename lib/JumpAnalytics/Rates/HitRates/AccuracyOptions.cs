namespace JumpAnalytics;

/// <summary>What a season-accuracy analysis is asked for. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record AccuracyOptions
{
    /// <summary>The trade's rule of thumb for the share of forecasts that succeed: 85 %. Common practice, no source.</summary>
    public const double RuleOfThumb = 0.85;

    private readonly double _benchmark = RuleOfThumb;
    private readonly double _confidence = 0.95;
    private readonly int _replicates = 2000;

    /// <summary>Wind bands; 0, 5, 10 and 15 mph unless said otherwise.</summary>
    public WindBands Bands { get; init; } = WindBands.FromLowerEdges([0, 5, 10, 15], MeasureUnit.Speed("mph"));

    /// <summary>The units of tables and readings.</summary>
    public ReportUnits Units { get; init; } = ReportUnits.FireLine;

    /// <summary>The rate that rates are compared with, between 0 and 1; <see cref="RuleOfThumb"/> unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double Benchmark
    {
        get => _benchmark;
        init => _benchmark = Guard.Share(value, nameof(Benchmark), "for instance 0.85");
    }

    /// <summary>Coverage of every interval; 0.95 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double Confidence
    {
        get => _confidence;
        init => _confidence = Guard.Confidence(value, nameof(Confidence));
    }

    /// <summary>Resamples of the mission bootstrap; 2,000 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 200: limits would hang on single resamples.</exception>
    public int Replicates
    {
        get => _replicates;
        init => _replicates = Guard.AtLeast(value, 200, nameof(Replicates), "as the mission bootstrap needs");
    }

    /// <summary>What bounds the steering of each class of canopy; <see cref="CanopyFlight.Examples"/> unless said otherwise.</summary>
    public IReadOnlyList<CanopyFlight> Canopies { get; init; } = CanopyFlight.Examples;

    /// <summary>Seed of the mission bootstrap. The same records, options and seed give the same numbers.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>The benchmark as a reader sees it: <c>85 %</c>, <c>82.5 %</c>.</summary>
    internal string BenchmarkText => Rounding.Percent(Benchmark, Math.Abs(100 * Benchmark - Math.Round(100 * Benchmark)) > 1e-9 ? 1 : 0);

    /// <summary>Each option, for a report's account of what was asked for.</summary>
    /// <param name="withBenchmark">Whether the report compares rates with the benchmark.</param>
    internal IEnumerable<Setting> Settings(bool withBenchmark)
    {
        yield return new("wind bands", $"{string.Join(", ", Bands.Labels)} {Bands.Unit.Suffix}", "a band holds its lower edge");
        yield return new("units", $"{Units.Distance.Name}, {Units.Speed.Name}");
        if (withBenchmark)
        {
            yield return new("benchmark", Rounding.Percent(Benchmark, 1), Benchmark != RuleOfThumb ? null
                : "the trade's rule of thumb; common practice, no source; it names no radius and no wind, "
                    + "so it is a yardstick and not a standard");
        }
        yield return new("confidence of intervals", Rounding.Percent(Confidence, 1));
        yield return new("resamples of the mission bootstrap", Rounding.Count(Replicates), $"seed {Seed}");
    }

    /// <summary>Random resamples of the missions for one purpose.</summary>
    internal ResampleOptions Resampling(string purpose) =>
        new() { Replicates = Replicates, Seed = Seed, Purpose = purpose, Choice = ResampleChoice.Random, Nouns = TradeNouns.Value };
}
