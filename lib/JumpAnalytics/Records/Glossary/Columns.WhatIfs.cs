namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        ScenarioAsked = new("scenario", "what if", CellFormat.Text, "What is supposed to have been otherwise; a setting of the reader's."),
        Basis = new("basis", "basis", CellFormat.Text, "Counted from landings that were made, or modelled."),
        MissionsJudged = new("missions_judged", "missions", CellFormat.Count, "Missions for which the scenario can be judged."),
        LandingsJudged = new("landings_judged", "landings", CellFormat.Count, "Landings for which the scenario can be judged."),
        RateAsFlown = new("rate_as_flown", "rate as flown", CellFormat.ShareRange, "Landing rate of these landings as they were flown."),
        RateThen = new("rate_then", "rate then", CellFormat.ShareRange, "Landing rate under the scenario, of the landings still made."),
        RateChangeThen = new("change_then", "change (points)", CellFormat.ShareChange,
            "Rate under the scenario less rate as flown, over the same missions."),
        MissionsFlown = new("missions_flown", "missions still flown", CellFormat.ShareRange,
            "Share of the missions that still have a landing."),
        LandingsFlown = new("landings_flown", "landings still made", CellFormat.ShareRange, "Share of the landings that are still made.");
}
