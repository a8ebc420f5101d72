namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        AgeClassMinutes = new("age_class_min", "streamers, min", CellFormat.Text,
            "Class of the minutes from streamers to exit; a class holds its lower edge."),
        AgeMinutes = new("age_min", "age (min)", CellFormat.Number, "Minutes from streamers to exit."),
        LandingsOfClass = new("landings_in_class", "landings", CellFormat.Count,
            "Landings of the class, whether or not they can be told a hit or a miss."),
        RadiusGrowth = new("radius_growth", "radius grows by", CellFormat.ShareRange,
            "Radius that holds 90 % of landings, over that at the first age, less one."),
        RateAtAge = new("rate_at_age", "landing rate", CellFormat.ShareRange,
            "Landing rate by the law if every forecast had been so old, over the winds and target radii of the record."),
        RateChangeAtAge = new("rate_change_at_age", "change (points)", CellFormat.ShareChange, "That rate less the one at the first age."),
        EffectOf = new("effect_of", "of", CellFormat.Text, "Quantity of the drop."),
        EffectPer = new("effect_per", "per", CellFormat.Text, "Difference of the quantity that the change is told for."),
        SpreadChange = new("spread_change", "spread changes by", CellFormat.ShareRange,
            "Change of the standard deviation of the miss for that difference."),
        LimitLow = new("limit_low", "from", CellFormat.Number, "Lower end of the parameter's interval, where it has one."),
        LimitHigh = new("limit_high", "to", CellFormat.Number, "Upper end of the parameter's interval, where it has one.");

    /// <summary>The 90 % radius under the published shape of growth.</summary>
    public static TableColumn PublishedRadius(MeasureUnit unit) =>
        new("published_shape_" + unit.Suffix, $"published shape ({unit.Suffix})", CellFormat.Number,
            "Radius that holds 90 % of landings when the variance grows with the published power of the age, 2/3.");
}
