namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        MissCorrelation = new("miss_correlation", "correlation of misses", CellFormat.Number,
            "Share of the variance of a miss that the landings of a simulated mission have in common."),
        IntervalMethod = new("interval_method", "interval", CellFormat.Text, "Method of the interval."),
        RespectsMissions = new("respects_missions", "respects missions", CellFormat.Text,
            "Whether the method lets missions tell how much landings have in common (yes), or takes every landing as independent (no)."),
        SeasonsTold = new("seasons_simulated", "seasons", CellFormat.Count, "Simulated seasons that have an interval by the method."),
        CoverageShare = new("coverage", "coverage", CellFormat.ShareRange, "Share of these seasons whose interval holds the true rate."),
        MeanWidth = new("mean_width", "mean width", CellFormat.Share, "Mean of upper limit less lower limit over these seasons."),
        ClaimedConfidence = new("claimed_confidence", "claimed", CellFormat.Share, "Coverage that the interval claims.");
}
