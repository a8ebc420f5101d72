namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        MissionsMeasured = new("missions_measured", "missions", CellFormat.Count,
            "Missions with a landing whose distance, or a distance it lies beyond, is known."),
        LandingsMeasured = new("landings_measured", "landings", CellFormat.Count,
            "Landings whose distance, or a distance they lie beyond, is known."),
        MarginBasis = new("rests_on", "rests on", CellFormat.Text, "The cell's own landings, or borrowed from other cells too."),
        Borrowed = new("borrowed", "borrowed", CellFormat.Share, "Share of what band and terrain say in the scale of the cell."),
        NominalShare = new("nominal_share", "share meant", CellFormat.Share, "Share of landings that the margin was to hold."),
        ActualShare = new("actual_share", "share held by the radius", CellFormat.ShareRange,
            "Share of the later season's landings inside the radius."),
        ActualShareOfLimit = new("actual_share_of_limit", "share held by the upper limit", CellFormat.ShareRange,
            "Share of the later season's landings inside the upper limit of the radius."),
        MarginVerdict = new("held", "held", CellFormat.Text,
            "Whether the interval of the share held lies above or below the share meant, or holds it."),
        WithoutMargin = new("without_margin", "without a margin", CellFormat.Count,
            "Landings of the later season in cells that earlier seasons give no margin for.");

    public static readonly TableColumn
        MissionsPlaced = new("missions_placed", "missions", CellFormat.Count,
            "Missions with a landing whose miss along and across the forecast drift is known."),
        ShiftKept = new("kept", "kept", CellFormat.Share, "What the evidence leaves of the length of the mean miss."),
        ShiftSupported = new("supported", "supported", CellFormat.Text,
            "Whether the region that holds the true shift leaves out no shift at all."),
        RateShifted = new("rate_shifted", "rate after", CellFormat.ShareRange,
            "Landing rate if each mission had been moved by the shift that the other missions give."),
        RateChangeShifted = new("change_shifted", "change (points)", CellFormat.ShareChange,
            "Rate after the shift less rate as flown, over the same missions.");

    public static readonly TableColumn
        InClearing = new("in_clearing", "in the clearing", CellFormat.ShareRange,
            "Share of the landings that came down in the clearing, with a between-mission interval."),
        InClearingModelled = new("in_clearing_modelled", "by a fitted t", CellFormat.ShareRange,
            "Share that a bivariate t fitted to the misses gives, with its interval between missions.");

    public static readonly TableColumn ShiftAxis = new("shift_axis", "axis", CellFormat.Text, "Along the forecast drift or across it.");

    /// <summary>Shift of least cost.</summary>
    public static TableColumn CostShiftBest(MeasureUnit unit) => new("shift_best_" + unit.Suffix, $"shift ({unit.Suffix})",
        CellFormat.SignedRange, "How far to move the exit for the least mean cost.");

    /// <summary>What it saves.</summary>
    public static TableColumn CostSaving(MeasureUnit unit) => new("cost_saving_" + unit.Suffix, $"saving ({unit.Suffix})", CellFormat.Range,
        "Mean cost with the exits as they were less the least.");

    /// <summary>Shift of the exit along the forecast drift.</summary>
    public static TableColumn ShiftDownwind(MeasureUnit unit) => new("shift_downwind_" + unit.Suffix, $"shift downwind ({unit.Suffix})",
        CellFormat.SignedRange, "How far to move the exit along the forecast drift, + downwind.");

    /// <summary>Shift of the exit across the forecast drift.</summary>
    public static TableColumn ShiftRight(MeasureUnit unit) => new("shift_right_" + unit.Suffix, $"shift right ({unit.Suffix})",
        CellFormat.SignedRange, "How far to move the exit across the forecast drift, + right.");

    /// <summary>A radius that holds a share of landings.</summary>
    public static TableColumn RadiusOf(double share, MeasureUnit unit) =>
        new($"radius_{Percentage(share)}_{unit.Suffix}", $"{100 * share:0.##} % within ({unit.Suffix})", CellFormat.Number,
            $"Radius round the spot that holds {100 * share:0.##} % of the landings.");

    /// <summary>Its upper limit.</summary>
    public static TableColumn RadiusLimitOf(double share, MeasureUnit unit) =>
        new($"radius_{Percentage(share)}_upper_{unit.Suffix}", $"upper limit ({unit.Suffix})", CellFormat.Number,
            $"One-sided upper confidence limit of the radius that holds {100 * share:0.##} % of the landings.");

    private static string Percentage(double share) =>
        (100 * share).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture).Replace('.', '_');
}
