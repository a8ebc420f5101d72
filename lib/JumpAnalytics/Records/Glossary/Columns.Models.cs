namespace JumpAnalytics;

internal static partial class Columns
{
    public static readonly TableColumn
        PooledRate = new("pooled_rate", "pooled", CellFormat.ShareRange, "Chance of a hit on a mission not yet flown by a logistic mixed "
            + "model over all cells: a cell with few missions is drawn towards what its band and terrain say."),
        Pull = new("pulled", "pulled", CellFormat.Share,
            "How strongly the cell was drawn from its own landings towards the model: 0 not at all, 1 wholly."),
        Model = new("model", "distribution", CellFormat.Text, "Distribution fitted to the misses."),
        FreeParameters = new("free_parameters", "parameters", CellFormat.Count, "Number of parameters fitted."),
        LogLikelihood = new("log_likelihood", "log-likelihood", CellFormat.Number,
            "Natural logarithm of the likelihood, densities per square metre."),
        Aicc = new("aicc", "AICc", CellFormat.Number, "Akaike's criterion with its small-sample correction; less is better."),
        Bic = new("bic", "BIC", CellFormat.Number, "Schwarz's criterion; less is better."),
        Weight = new("weight", "weight", CellFormat.Share, "Akaike weight among the distributions fitted."),
        AgainstBest = new("against_best", "against the best", CellFormat.Text, "Whether the records tell it from the best one."),
        FitP = new("fit_p", "fit: p", CellFormat.PValue,
            "Chance of distances as far from the distribution as these if it were right; small speaks against it."),
        Parameter = new("parameter", "parameter", CellFormat.Text, "Parameter of the distribution."),
        ParameterUnit = new("unit", "unit", CellFormat.Text, "Unit of the parameter; none for a plain number."),
        ParameterValue = new("estimate", "estimate", CellFormat.Number, "Its value."),
        StandardError = new("standard_error", "standard error", CellFormat.Number, "Its standard error."),
        Axis = new("axis", "axis", CellFormat.Text, "Downwind (along the forecast drift), right (across it), or both."),
        ForecastShare = new("forecast_share", "mission's share", CellFormat.ShareRange,
            "Share of the variance that the landings of a mission have in common.");

    /// <summary>A radius of a fitted distribution.</summary>
    public static TableColumn ModelRadius(int percent, MeasureUnit unit) =>
        new($"radius_{percent}_{unit.Suffix}", $"{percent} % within ({unit.Suffix})", CellFormat.Range,
            $"Radius about the spot that holds {percent} % of landings under the distribution.");

    /// <summary>Standard deviation between missions.</summary>
    public static TableColumn BetweenSd(MeasureUnit unit) =>
        new("between_sd_" + unit.Suffix, $"shared, sd ({unit.Suffix})", CellFormat.Number,
            "Standard deviation of what the landings of a mission share.");

    /// <summary>Standard deviation within missions.</summary>
    public static TableColumn WithinSd(MeasureUnit unit) =>
        new("within_sd_" + unit.Suffix, $"own, sd ({unit.Suffix})", CellFormat.Number,
            "Standard deviation of what differs within a mission: of jumpers, of single passes, of measuring.");
}
