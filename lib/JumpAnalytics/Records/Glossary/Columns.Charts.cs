namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        ChartOf = new("missions_of", "missions of", CellFormat.Text, "Whose missions are charted."),
        ChartName = new("chart", "chart", CellFormat.Text, "What is charted."),
        ChartMissions = new("missions_charted", "missions", CellFormat.Count, "Missions on the chart: one point each."),
        ChartLandings = new("landings_charted", "landings", CellFormat.Count, "Landings behind the points, or behind the point."),
        ReferenceMissions = new("reference_missions", "reference: missions", CellFormat.Count, "Missions compared with."),
        ReferenceLandings = new("reference_landings", "reference: landings", CellFormat.Count, "Landings compared with."),
        ChartLimit = new("limit", "limit", CellFormat.Number,
            "Upper limit of the statistic; the lower one has the opposite sign where there is one."),
        RunLength = new("run_length", "run length", CellFormat.Number,
            "Missions until a false signal in the mean, if nothing has changed."),
        SignalCount = new("signals", "signals", CellFormat.Count, "Signals of the chart."),
        ChanceOfFalse = new("chance_of_false_signal", "chance of a false signal", CellFormat.Probability,
            "Chance of at least one signal by now if nothing had changed, the error of the reference counted."),
        PNoChange = new("p_no_change", "p", CellFormat.PValue,
            "Chance that a chart comes as near its limit, or as far beyond, if nothing had changed; the error of the reference counted."),
        PNoChangeAll = new("p_no_change_all", "p after all looks", CellFormat.PValue,
            "The same held together with all other looks by Holm's rule."),
        SignalDirection = new("direction", "direction", CellFormat.Text, "Which way the chart signals."),
        ProbableStart = new("probable_start", "probably since", CellFormat.Text, "The mission with which the change most probably began."),
        MissionsSince = new("missions_since", "missions since", CellFormat.Count, "Missions from the probable start to the signal."),
        LandingsSince = new("landings_since", "landings since", CellFormat.Count, "Landings of those missions."),
        UpperStatistic = new("statistic", "statistic", CellFormat.Number, "What is held against the upper limit."),
        LowerStatistic = new("statistic_low", "statistic, low", CellFormat.Number, "What is held against the lower limit."),
        CurveShape = new("shape", "shape", CellFormat.Text, "How distances go with the number of missions flown."),
        LastOverFirst = new("last_over_first", "last over first", CellFormat.Range,
            "Typical distance at the last mission over that at the first; below 1 is nearer the spot."),
        MissionsToTellCurve = new("missions_to_tell", "missions to tell", CellFormat.Count,
            "Missions in all that would tell distances a fifth shorter at the last from no change, half of the time."),
        CurvePace = new("pace", "pace", CellFormat.Number,
            "Power of the mission's number, or missions in which the distance to the plateau falls to 1/e.");
}
