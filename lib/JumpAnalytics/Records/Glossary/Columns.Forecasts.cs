namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        SourceName = new("source", "source", CellFormat.Text, "Source of error, as far as a log can tell it from others."),
        SharedBy = new("shared_by", "shared by", CellFormat.Text,
            "Who has the error in common: the mission, the pass, or nobody but the jumper."),
        GrowsWith = new("grows_with", "grows with", CellFormat.Text, "What its standard deviation is in proportion to."),
        ShareOfVariance = new("variance_share", "share of the variance", CellFormat.ShareRange,
            "Share in the mean variance of a landing miss, with an interval from resampled missions."),
        RateIfHalved = new("rate_if_halved", "hit rate if halved (points)", CellFormat.ShareChange,
            "Change of the hit rate by the fitted model if its variance were halved."),
        RateIfRemoved = new("rate_if_removed", "if none (points)", CellFormat.ShareChange,
            "Change of the hit rate by the fitted model if it were none."),
        LeadsIn = new("leads_in", "leads in", CellFormat.Share, "Share of resampled missions in which halving this source helps most."),
        CheckedWhat = new("checked", "checked", CellFormat.Text,
            "What is predicted: where canopies land, or the forecast's own error by descent tracks."),
        ObservedRate = new("observed_rate", "inside, observed", CellFormat.ShareRange,
            "Share inside the target radius, with a between-mission interval."),
        PredictedRate = new("predicted_rate", "inside, predicted", CellFormat.Share,
            "Share inside the target radius by the labelled sources."),
        TooNarrowP = new("p_as_predicted", "p", CellFormat.PValue,
            "Chance of misses that lie so much farther out, or farther in, than predicted if the prediction were right; between missions."),
        ForecastVerdict = new("prediction", "the prediction is", CellFormat.Text, "Too narrow, too wide, or in keeping with what came."),
        TrackOutcome = new("track_outcome", "outcome", CellFormat.Text, "What the track could be used for, or why not.");
}
