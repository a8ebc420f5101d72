namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        HitsExpected = new("hits_expected", "hits expected", CellFormat.Number,
            "Hits the other spotters would have had in the same conditions."),
        RateExpected = new("rate_expected", "rate expected", CellFormat.ShareRange,
            "Landing rate the other spotters would have had in the same conditions, with the uncertainty of that."),
        OffExpected = new("off_expected", "counted less expected (points)", CellFormat.ShareChange,
            "Landing rate less the rate expected, with the uncertainty of both."),
        LandingsOffExpected = new("landings_off_expected", "counted less expected (landings)", CellFormat.SignedRange,
            "The same difference in landings."),
        PNoDifference = new("p_no_difference", "p of no difference", CellFormat.PValue,
            "Chance of records as far off or farther if there were no difference."),
        PHolm = new("p_holm", "p after all looks", CellFormat.PValue,
            "The same after Holm's allowance for all looks of the report."),
        OffShrunken = new("off_shrunken", "drawn towards the others (points)", CellFormat.ShareChange,
            "The difference drawn towards none by as much as the record is thin."),
        ProbabilityLarger = new("probability_larger", "probability of a larger difference", CellFormat.Probability,
            "Probability that the true difference is larger, either way, than the one the reader named."),
        EffectiveLandings = new("effective_landings", "effective landings", CellFormat.Count,
            "Independent landings that would tell as much of the difference."),
        MissionDispersion = new("dispersion", "dispersion", CellFormat.Number,
            "Variance of hits over that of independent landings, 1 or more: own missions steadied by the base's."),
        SpottersCompared = new("spotters", "spotters", CellFormat.Count, "Spotters with landings."),
        SpotterSd = new("spotter_sd", "between spotters, sd (log-odds)", CellFormat.Range,
            "Standard deviation between spotters in the same conditions, log-odds of a hit."),
        SpotterSdPoints = new("spotter_sd_points", "between spotters, sd of the rate", CellFormat.ShareRange,
            "The same as a difference of rates near the base's rate."),
        SpotterQ = new("q", "Q", CellFormat.Number, "Squared differences over their covariance."),
        NeighbourOrder = new("neighbour_order", "order of neighbours right", CellFormat.Probability,
            "Mean probability that two neighbours in an order of rate truly stand in that order; a coin has one half."),
        PlaceWidth = new("place_width", "places in doubt", CellFormat.Number,
            "Places that the 95 % interval of a spotter's true place takes up, on average.");
}
