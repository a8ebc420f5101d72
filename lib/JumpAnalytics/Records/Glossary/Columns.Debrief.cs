namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        NotParted = new("not_known_because", "not known because", CellFormat.Text,
            "What is missing to tell the parts one by one; empty when all are known."),
        Compared = new("measured", "measured", CellFormat.Text, "What is compared."),
        PassNumber = new("pass", "pass", CellFormat.Text,
            "Which pass of the mission, and which jumper in order of exit where it is about one."),
        ComparedWith = new("compared_with", "compared with", CellFormat.Text,
            "Which earlier missions of the base: same wind band and terrain, or more where those are too few."),
        AsLargeBefore = new("as_large_before", "as large before", CellFormat.ShareRange,
            "Share of the earlier values that were as large or larger, with a between-mission interval."),
        ValuesBefore = new("values_before", "values before", CellFormat.Count, "Earlier values compared with."),
        MissionsBefore = new("missions_earlier", "missions before", CellFormat.Count, "Earlier missions they belong to."),
        Standing = new("standing", "standing", CellFormat.Text,
            "Whether the value is usual: at least a tenth of the earlier ones were as large."),
        HereValue = new("here", "here", CellFormat.Number, "The value of this mission."),
        HalfBefore = new("half_before", "half before within", CellFormat.Number, "The value that half of the earlier ones do not pass."),
        NineBefore = new("nine_in_ten_before", "9 in 10 before within", CellFormat.Number,
            "The value that nine in ten of the earlier ones do not pass; with fewer than ten of them, none."),
        MeasuredIn = new("measured_in", "in", CellFormat.Text, "Unit of the three values."),
        Planned = new("planned", "planned", CellFormat.Text, "What the plan or the forecast said."),
        Happened = new("happened", "happened", CellFormat.Text, "What the record says."),
        WentAsPlanned = new("as_planned", "as planned", CellFormat.Text,
            "Yes, no, or not known: no where a landing missed, or where a difference is larger than nine in ten before."),
        AskedUnder = new("asked_under", "about", CellFormat.Text, "What was planned, what happened, why, and next time."),
        ReviewQuestion = new("review_question", "question", CellFormat.Text,
            "A question for the stick, the spotter and the crew to answer together."),
        RecordSays = new("record_says", "what the record says", CellFormat.Text,
            "Facts of the record that bear on it; the answer is the crew's."),
        Answer = new("answer", "answer", CellFormat.Text, "To be written by the crew."),
        TracksBehind = new("tracks", "tracks", CellFormat.Count, "Descent tracks behind the number."),
        WindFromFound = new("found_from_deg", "from (° true)", CellFormat.Text, "Direction the wind found comes from, degrees true."),
        WindFromForecast = new("forecast_from_deg", "forecast's, from (° true)", CellFormat.Text,
            "Direction the forecast's wind comes from, degrees true."),
        TrackFileName = new("track_file", "track", CellFormat.Text, "File of the descent track."),
        TrackPointCount = new("track_points", "points", CellFormat.Count, "Points kept."),
        SampledEvery = new("sampled_every_s", "every (s)", CellFormat.Number, "Median seconds between two points."),
        ExitFound = new("exit_found", "exit", CellFormat.Text, "Whether the track shows the exit, and how sure that is."),
        OpeningFound = new("opening_found", "opening", CellFormat.Text, "Whether the track shows the opening, and how sure that is."),
        TouchdownFound = new("touchdown_found", "touchdown", CellFormat.Text,
            "Whether the track shows the touchdown, and how sure that is."),
        TrackRemarks = new("track_notes", "what was odd", CellFormat.Text,
            "What was found wrong or odd in the track, and what was done about it."),
        FullTurn = new("full_turn_s", "full turn (s)", CellFormat.Number, "Seconds of a full turn at the rate at which most was turned."),
        UsedFor = new("used_for", "used for", CellFormat.Text, "What the track could be used for, or why not."),
        Recoverable = new("recoverable", "recoverable", CellFormat.Text,
            "Whether the canopy could fly off the unsteered miss down to the target radius."),
        SecondsLeft = new("seconds_left", "seconds left", CellFormat.Number, "Seconds from there to the ground."),
        ReachBasis = new("reach_by", "by", CellFormat.Text, "Which wind and which figures of the canopy.");

    /// <summary>A speed with its interval.</summary>
    public static TableColumn SpeedRange(string name, string label, MeasureUnit unit, string meaning) =>
        new($"{name}_{unit.Suffix}", $"{label} ({unit.Suffix})", CellFormat.Range, meaning);
}
