namespace JumpAnalytics;

/// <summary>The glossary: every column that a table of the library may have, once.</summary>
internal static partial class Columns
{
    public static readonly TableColumn
        WindBand = new("wind_band", "wind band", CellFormat.Text, "Class of the drift wind speed; 'all' for every band together."),
        Terrain = new("terrain", "terrain", CellFormat.Text, "Class of the ground round the spot; 'all' for every class together."),
        Season = new("season", "season", CellFormat.Text, "Season of the drop; 'all' for every season together."),
        SeasonFrom = new("season_from", "from", CellFormat.Text, "The earlier season."),
        SeasonTo = new("season_to", "to", CellFormat.Text, "The later season."),
        Group = new("group", "group", CellFormat.Text,
            "The drops or landings compared: all, one wind band, one terrain, or a group of one's own."),
        Missions = new("missions", "missions", CellFormat.Count,
            "Flights: the unit of independence, since the jumpers of one share a forecast."),
        MissionsFrom = new("missions_from", "missions before", CellFormat.Count, "Missions of the earlier season."),
        MissionsTo = new("missions_to", "missions after", CellFormat.Count, "Missions of the later season."),
        Landings = new("landings", "landings", CellFormat.Count, "Landings that can be told a hit or a miss."),
        LandingsFrom = new("landings_from", "landings before", CellFormat.Count, "Landings of the earlier season."),
        LandingsTo = new("landings_to", "landings after", CellFormat.Count, "Landings of the later season."),
        Hits = new("hits", "hits", CellFormat.Count, "Landings inside the target radius or on it."),
        Placed = new("placed", "placed", CellFormat.Count, "Landings whose place is known."),
        BeyondMisses = new("beyond", "beyond", CellFormat.Count, "Landings known only as beyond the target radius; counted as misses."),
        Undecided = new("undecided", "undecided", CellFormat.Count,
            "Landings known only as beyond a distance shorter than the target radius; left out."),
        Rate = new("rate", "landing rate", CellFormat.ShareRange, "Hits over landings, with a between-mission interval."),
        RateFrom = new("rate_from", "rate before", CellFormat.ShareRange, "Landing rate of the earlier season."),
        RateTo = new("rate_to", "rate after", CellFormat.ShareRange, "Landing rate of the later season."),
        Change = new("change", "change (points)", CellFormat.ShareChange, "Later rate less earlier rate."),
        GroupChange = new("difference", "difference (points)", CellFormat.ShareChange, "Rate of this group less that of the group above."),
        ChangeReading = new("reading", "reading", CellFormat.Text,
            "Whether the interval of the change lies above or below no change, or holds it."),
        DesignEffect = new("design_effect", "design effect", CellFormat.Number,
            "Variance of the rate over that of as many independent landings."),
        Icc = new("intraclass_correlation", "likeness within a mission", CellFormat.Number,
            "Intra-class correlation of hits: how alike the landings of one mission are."),
        ModelRate = new("model_rate", "fitted normal", CellFormat.ShareRange,
            "Rate that a bivariate normal fitted to the misses implies, with a mission-bootstrap interval."),
        Verdict = new("benchmark", "benchmark", CellFormat.Text,
            "Whether the interval of the rate lies above or below the benchmark, or holds it."),
        Note = new("note", "note", CellFormat.Text, "What to know beside the numbers."),
        File = new("file", "file", CellFormat.Text, "File of the log."),
        Holds = new("holds", "holds", CellFormat.Text, "The table the file holds."),
        RowsRead = new("rows_read", "rows read", CellFormat.Count, "Rows that hold anything, header and blank lines apart."),
        RowsAccepted = new("rows_accepted", "accepted", CellFormat.Count, "Rows used."),
        RowsQuarantined = new("rows_quarantined", "quarantined", CellFormat.Count, "Rows set apart because they can't be used."),
        RowsNoRecords = new("rows_no_records", "no records", CellFormat.Count,
            "Rows passed over because they are no records: totals, comments, repeated headers. They are in no other count."),
        UnknownColumns = new("columns_not_read", "columns not read", CellFormat.Text, "Headers that are none of the log's."),
        Line = new("line", "line", CellFormat.Text, "Line of the file, the header being line 1."),
        ColumnName = new("column", "column", CellFormat.Text, "Header of the field."),
        Value = new("value", "value", CellFormat.Text, "The text found there, or what was set."),
        Quantity = new("quantity", "read as", CellFormat.Text, "The quantity of the log that the column holds."),
        Conversions = new("conversions", "conversions", CellFormat.Text, "What turned the text into the value, in order."),
        Setting = new("setting", "setting", CellFormat.Text, "What can be set."),
        Kind = new("kind", "kind", CellFormat.Text, "Kind of trouble."),
        Reason = new("reason", "reason", CellFormat.Text, "What is wrong with it."),
        Try = new("what_to_try", "what to try", CellFormat.Text, "How to repair it."),
        Rows = new("rows", "rows", CellFormat.Count, "Number of rows."),
        Example = new("example", "for instance", CellFormat.Text, "Where the first one stands."),
        DropId = new("drop_id", "drop", CellFormat.Text, "Id of the drop."),
        Outcome = new("outcome", "outcome", CellFormat.Text, "Hit, miss, or undecided."),
        Correlation = new("correlation", "correlation", CellFormat.Number, "Correlation of the miss along and across the forecast drift."),
        Check = new("check", "check", CellFormat.Text, "Check of the records that raised the flag."),
        FlagGroup = new("rows_of", "where", CellFormat.Text,
            "Group of rows that the flag concerns: whole log, base, season, spotter, file, way of measuring, or single rows."),
        Found = new("found", "found", CellFormat.Text, "What looks wrong."),
        Harm = new("harm", "size of the harm", CellFormat.Text, "What it would do to the numbers, with the n it rests on."),
        FlagRows = new("flagged_rows", "rows", CellFormat.Count, "Rows of the log that the flag concerns."),
        Strength = new("strength", "strength", CellFormat.Text,
            "Chance of as much in sound records after allowing for all looks, or the rule that was broken."),
        WhatToDo = new("what_to_do", "what to do", CellFormat.Text, "How to settle it."),
        MapTarget = new("proposed", "proposed", CellFormat.Text,
            "The log's header that the column may stand for; unit? is to be filled in."),
        MapSureness = new("sureness", "how sure", CellFormat.Text, "Sure, likely, a guess, or none."),
        MapScore = new("score", "score", CellFormat.Count, "Sum of the points of the evidence, 0 to 100."),
        MapEvidence = new("evidence", "evidence", CellFormat.Text, "What speaks for and against it, in points."),
        MapRunnerUp = new("runner_up", "runner-up", CellFormat.Text, "The next best quantity and its score."),
        MapValues = new("values", "values", CellFormat.Text, "What the column holds."),
        MapUnits = new("under_each_unit", "under each unit", CellFormat.Text,
            "What the values would mean under each unit, where the header states none."),
        Mission = new("mission", "mission", CellFormat.Text, "Id of the mission.");

    /// <summary>The wind band, headed by the unit of the bands.</summary>
    public static TableColumn WindBandIn(MeasureUnit unit) => WindBand with { Label = $"wind band ({unit.Suffix})" };

    /// <summary>The target radii of a group.</summary>
    public static TableColumn TargetRadii(MeasureUnit unit) =>
        new("target_radius_" + unit.Suffix, $"target radius ({unit.Suffix})", CellFormat.Text,
            "Least and greatest radius round the spot that counted as a good landing.");

    /// <summary>Bias along the forecast drift.</summary>
    public static TableColumn BiasDownwind(MeasureUnit unit) =>
        new("bias_downwind_" + unit.Suffix, $"bias downwind ({unit.Suffix})", CellFormat.SignedRange,
            "Mean miss along the forecast drift, + long.");

    /// <summary>Bias across the forecast drift.</summary>
    public static TableColumn BiasRight(MeasureUnit unit) =>
        new("bias_right_" + unit.Suffix, $"bias right ({unit.Suffix})", CellFormat.SignedRange,
            "Mean miss across the forecast drift, + right of it.");

    /// <summary>A quantile of the miss distance.</summary>
    public static TableColumn MissQuantile(int percent, MeasureUnit unit) =>
        new($"miss_{percent}_{unit.Suffix}", $"{percent} % of misses within ({unit.Suffix})", CellFormat.Range,
            $"Distance from the spot that {percent} % of the landings do not pass (quantile type 8).");

    /// <summary>A coordinate or distance of one landing.</summary>
    public static TableColumn Measure(string name, string label, MeasureUnit unit, string meaning) =>
        new($"{name}_{unit.Suffix}", $"{label} ({unit.Suffix})", CellFormat.Number, meaning);
}
