namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        CanopyClass = new("canopy_class", "canopy", CellFormat.Text, "Class of canopy, as the log names it."),
        WindFromStreamers = new("streamers_from_deg", "from (° true)", CellFormat.Range,
            "Direction the wind by the streamers comes from, degrees true; a limit may pass 0 or 360."),
        WindFromTracks = new("tracks_from_deg", "from (° true)", CellFormat.Range,
            "Direction the mean wind of the tracks comes from, degrees true; a limit may pass 0 or 360."),
        StreamersMissing = new("streamers_missing", "what is missing", CellFormat.Text,
            "Why the streamers of the pass tell nothing, or less; empty when nothing is missing."),
        InKeeping = new("in_keeping", "in keeping", CellFormat.Text,
            "Whether the drift by the streamers and the one by the tracks differ by no more than their errors; not known without a track."),
        StreamersAssumed = new("assumed", "assumed", CellFormat.Text, "What was assumed for this pass beside the figures below the table."),
        StreamerPart = new("missed_by", "missed by", CellFormat.Text,
            "What the streamers' own vector leaves out: the canopy's own rate, its height, the wind's change with height, its throw."),
        Passes = new("passes", "passes", CellFormat.Count, "Passes over the spot."),
        OutsideByStreamers = new("outside_by_streamers", "outside", CellFormat.ShareRange,
            "Share of passes that this alone would have put outside the target radius, unsteered, with a between-mission interval.");
}
