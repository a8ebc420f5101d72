namespace JumpAnalytics;

/// <summary>What a forecaster stated beside what came.</summary>
/// <param name="Forecaster">What it is called.</param>
/// <param name="Missions">Missions forecast.</param>
/// <param name="Diagram">The rate of hits that followed each forecast.</param>
/// <param name="Band">Where it would lie by chance if the forecasts were right, or why there is no band.</param>
[TypeFormatterSource]
public sealed record ForecastReliability(string Forecaster, int Missions, ReliabilityDiagram Diagram, Fit<ReliabilityBand> Band)
{
    internal TableView Table(AccuracyOptions options) =>
        new TableOf<ReliabilityStep>("reliability", $"What was stated and what came: {Forecaster}", Diagram.Steps,
            "Isotonic regression, no bins chosen. "
            + $"Band: where {Rounding.Percent(options.Confidence)} of right forecasts' rates would lie at "
            + "the middle of the stretch, outcomes of a mission going together and the forecasts with their own errors; "
            + $"Brier score {Rounding.Fixed(Diagram.Brier.Score, 4)} = miscalibration {Rounding.Fixed(Diagram.Brier.Miscalibration, 4)} "
            + $"− discrimination {Rounding.Fixed(Diagram.Brier.Discrimination, 4)} "
            + $"+ uncertainty {Rounding.Fixed(Diagram.Brier.Uncertainty, 4)}; {Rounding.Count(Missions, "mission")}.")
        {
            { Columns.StatedFrom, s => s.From },
            { Columns.StatedTo, s => s.To },
            { Columns.Landings, s => s.Forecasts },
            { Columns.Hits, s => s.Successes },
            { Columns.CameRate, s => s.Rate },
            { Columns.BandIfRight, s => AtMiddle((s.From + s.To) / 2) },
        };

    private Estimate? AtMiddle(double forecast) =>
        Band.Value?.Points.MinBy(p => Math.Abs(p.Forecast - forecast)) is { } point ? Estimate.Of(forecast, point.Range) : null;
}
