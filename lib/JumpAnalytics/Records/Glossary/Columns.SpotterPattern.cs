namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        SpotterCode = new("spotter", "spotter", CellFormat.Text,
            "Code of the spotter, in the order of the codes; 'all' for the whole base."),
        PatternFrame = new("frame", "frame", CellFormat.Text,
            "What the miss is measured along: the forecast drift, the run, or the compass; or the exit along the run."),
        PositiveTowards = new("towards", "+ towards", CellFormat.Text, "The side that counts as positive."),
        TSquared = new("t_squared", "T²", CellFormat.Number,
            "Hotelling's T² of no bias on either axis of the downwind frame, between missions."),
        NoBiasP = new("p_no_bias", "p", CellFormat.PValue, "Chance of a mean miss so far from none, or farther, if there were no bias."),
        AdjustedP = new("p_adjusted", "p after all looks", CellFormat.PValue, "The same held together with all other looks (Holm)."),
        MissionsForDistance = new("missions_for_distance", "missions for the distance", CellFormat.Count,
            "Missions in all that would give the mean miss on both axes to within the named distance."),
        ShareDownwind = new("shared_downwind", "shared, downwind", CellFormat.ShareRange,
            "Share of the variance along the forecast drift that the landings of a mission have in common."),
        ShareRight = new("shared_right", "shared, right", CellFormat.ShareRange,
            "Share of the variance across the forecast drift that the landings of a mission have in common."),
        SharesFrom = new("shares_from", "shares from", CellFormat.Text,
            "Whose missions the shares are taken from: this spotter's own, or the whole base's."),
        WithDirection = new("with_direction", "with a direction", CellFormat.Count,
            "Missions whose mean miss is long enough to have a direction."),
        WithoutDirection = new("without_direction", "without", CellFormat.Count, "Missions whose mean miss is too short to have one."),
        MeanDirection = new("mean_direction_deg", "mean direction (deg)", CellFormat.Range, "Mean direction of the missions' mean misses, "
            + "degrees clockwise, with the limits clockwise about it; from downwind (90 = right) or from true north."),
        MedianDirection = new("median_direction_deg", "median (deg)", CellFormat.Number, "Median direction, degrees clockwise."),
        MeanResultant = new("mean_resultant", "mean resultant", CellFormat.Number,
            "1 when all missions miss the same way, 0 when their directions cancel."),
        CircularSd = new("circular_sd_deg", "circular sd (deg)", CellFormat.Number,
            "Circular standard deviation of the directions, degrees."),
        Concentration = new("concentration", "κ", CellFormat.Number,
            "Concentration of the von Mises distribution fitted to the directions."),
        RayleighP = new("p_rayleigh", "p (Rayleigh)", CellFormat.PValue,
            "Chance of directions so much alike if the missions preferred none; exact."),
        MooreP = new("p_moore", "p (Moore)", CellFormat.PValue, "The same with missions weighted by the rank of their mean miss."),
        MissPerDrift = new("miss_per_drift", "miss per 100 of drift", CellFormat.ShareChange,
            "Change of the miss by 100 units of forecast drift."),
        InfluenceFigure = new("figure", "figure", CellFormat.Text, "The figure that the mission drives."),
        FlownOn = new("flown_on", "date", CellFormat.Text, "Date of the mission's first drop."),
        WithAll = new("with_all", "with all", CellFormat.Number, "The figure of all missions."),
        WithoutMission = new("without_mission", "without it", CellFormat.Number, "The figure without this mission."),
        ChangeWithout = new("change_without", "change", CellFormat.Number, "Figure without the mission less figure of all."),
        StandardisedChange = new("standardised", "standardised", CellFormat.Number,
            "The same in units of its root mean square over all missions; beyond ±2 deserves a look.");

    /// <summary>A signed distance with its interval.</summary>
    public static TableColumn SignedDistance(string name, string label, MeasureUnit unit, string meaning) =>
        new($"{name}_{unit.Suffix}", $"{label} ({unit.Suffix})", CellFormat.SignedRange, meaning);

    /// <summary>A distance with its interval.</summary>
    public static TableColumn DistanceRange(string name, string label, MeasureUnit unit, string meaning) =>
        new($"{name}_{unit.Suffix}", $"{label} ({unit.Suffix})", CellFormat.Range, meaning);
}
