namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        StreamerMinutes = new("streamer_minutes", "streamers (min)", CellFormat.Number,
            "Minutes from the streamers to the exit: the age of the forecast."),
        OrderOfExit = new("exit_order", "exit order", CellFormat.Count, "Place in the stick, 1 = first out.");
}
