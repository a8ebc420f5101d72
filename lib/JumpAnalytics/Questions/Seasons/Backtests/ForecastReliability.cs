namespace JumpAnalytics;

/// <summary>What a forecaster stated beside what came.</summary>
/// <param name="Forecaster">What it is called.</param>
/// <param name="Missions">Missions forecast.</param>
/// <param name="Diagram">The rate of hits that followed each forecast.</param>
/// <param name="Band">Where it would lie by chance if the forecasts were right, or why there is no band.</param>
[TypeFormatterSource]
public sealed record ForecastReliability(string Forecaster, int Missions, ReliabilityDiagram Diagram, Fit<ReliabilityBand> Band)
{
    internal TableView Table(AccuracyOptions options) => new("reliability", $"What was stated and what came: {Forecaster}",
        [Columns.StatedFrom, Columns.StatedTo, Columns.Landings, Columns.Hits, Columns.CameRate, Columns.BandIfRight],
        [.. Diagram.Steps.Select(s => new object?[] { s.From, s.To, s.Forecasts, s.Successes, s.Rate, AtMiddle((s.From + s.To) / 2) })],
        $"Isotonic regression, no bins chosen. Band: where {Rounding.Percent(options.Confidence)} of right forecasts' rates would lie at the middle of the stretch, outcomes of a mission going together; "
        + $"Brier score {Rounding.Fixed(Diagram.Brier.Score, 4)} = miscalibration {Rounding.Fixed(Diagram.Brier.Miscalibration, 4)} − discrimination {Rounding.Fixed(Diagram.Brier.Discrimination, 4)} + uncertainty {Rounding.Fixed(Diagram.Brier.Uncertainty, 4)}; "
        + $"{Rounding.Count(Missions, "mission")}.");

    private Estimate? AtMiddle(double forecast) =>
        Band.Value?.Points.MinBy(p => Math.Abs(p.Forecast - forecast)) is { } point ? Estimate.Of(forecast, point.Range) : null;
}
