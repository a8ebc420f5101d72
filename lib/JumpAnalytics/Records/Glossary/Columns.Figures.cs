namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        Position = new("position", "position", CellFormat.Share, "Share of landings within the observed distance."),
        ShareHeld = new("held_share", "held by the distribution", CellFormat.ShareRange, "Share of landings that the distribution puts "
            + "within the observed distance, and the limits it would lie within if the distribution were right.");

    /// <summary>A distance of a fitted distribution.</summary>
    public static TableColumn FittedDistance(MeasureUnit unit) =>
        new("fitted_distance_" + unit.Suffix, $"fitted ({unit.Suffix})", CellFormat.Number,
            "Distance that holds this share of landings under the distribution.");

    /// <summary>An observed distance with the limits it would have if a distribution were right.</summary>
    public static TableColumn ObservedDistance(MeasureUnit unit) =>
        new("observed_distance_" + unit.Suffix, $"observed ({unit.Suffix})", CellFormat.Range,
            "Observed miss distance, and the limits it would lie within if the distribution were right.");
}
