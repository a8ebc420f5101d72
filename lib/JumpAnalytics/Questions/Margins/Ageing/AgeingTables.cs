namespace JumpAnalytics;

/// <summary>The tables of a <see cref="ForecastAgeing"/>.</summary>
internal static class AgeingTables
{
    public static IReadOnlyList<TableView> Of(ForecastAgeing ageing) => [Classes(ageing), Growth(ageing), Law(ageing), Effects(ageing)];

    private static TableView Classes(ForecastAgeing ageing)
    {
        var (distance, speed) = (ageing.Options.Units.Distance, ageing.Options.Units.Speed);
        return new TableView("age-classes", "Landings by age of the forecast",
            [Columns.AgeClassMinutes, Columns.Missions, Columns.LandingsOfClass, Columns.Measure("mean_wind", "mean drift wind", speed, "Mean drift wind of the landings."), Columns.Rate, Columns.MissQuantile(90, distance), Columns.Note],
            [.. ageing.Classes.Select(c => new object?[]
            {
                c.Label, c.Missions, c.Landings, speed.FromSi(c.MeanWind), c.Rate.Value?.Rate, c.Radius90.Value?.Select(distance.FromSi),
                c.Rate.Reason ?? c.Radius90.Reason ?? c.Rate.Value?.Caution ?? c.Radius90.Value?.WhyNoRange,
            })],
            $"Counted, with no law behind it; intervals at {Rounding.Percent(ageing.Options.Confidence)} between missions. A mission of several passes may stand in several classes. Wind is not held fixed here.");
    }

    private static TableView Growth(ForecastAgeing ageing)
    {
        var (distance, g) = (ageing.Options.Units.Distance, ageing.Growth.Value);
        var from = ageing.Settings.Ages[0];
        var rows = g is null ? [] : ageing.Settings.Ages.Select(age => new object?[]
        {
            age / 60, g.Radius(age).Select(distance.FromSi), g.RadiusGrowth(from, age), g.HitRate(age), g.HitRateChange(from, age),
            g.Covers(age) ? null : $"beyond the ages on record; as at {ForecastAgeing.Minutes(Math.Clamp(age, g.Ages.Low, g.Ages.High))} min",
        }).ToList();
        return new TableView("age-growth", "What age does, wind held fixed",
            [Columns.AgeMinutes, Columns.ModelRadius(90, distance), Columns.RadiusGrowth, Columns.RateAtAge, Columns.RateChangeAtAge, Columns.Note], rows,
            g is null ? $"Not told: {ageing.Growth.Reason}."
                : $"{Rounding.Count(g.Missions, "mission")}, {Rounding.Count(g.Passes)} passes, {Rounding.Count(g.Landings, "landing")}. Radius at the median drift wind; rate over the winds and radii of the record. Growth and change: against {ForecastAgeing.Minutes(from)} min. Intervals at {Rounding.Percent(ageing.Options.Confidence)}, missions resampled.");
    }

    private static TableView Law(ForecastAgeing ageing)
    {
        var g = ageing.Growth.Value;
        List<object?[]> rows = g is null ? [] :
        [
            ["power of the age", "", g.Exponent.Value, g.Exponent.Range!.Value.Low, g.Exponent.Range.Value.High, g.ExponentBeyond ? "no upper end within the powers tried" : null],
            ["spread without age and wind", "share of variance", g.Law.Base, null, null, "uncertainty: see the growth"],
            ["spread that 10 min add", "share of variance", g.Law.Growth, null, null, "uncertainty: see the growth"],
            ["spread that the median wind adds", "share of variance", g.Law.Wind, null, null, "uncertainty: see the growth"],
            ["p of the published power 2/3", "", g.PublishedP, null, null, null],
            ["p of no growth", "", g.NoGrowthP, null, null, "one-sided"],
            ["design effect", "", g.DesignEffect, null, null, "variance of the growth over that of independent landings"],
            ["missions to tell such growth from none", "", (double?)g.MissionsToTell, null, null, g.MissionsToTell is null ? "there seems to be none" : "four times in five, at 2.5 % one-sided"],
            [$"age at which {Rounding.Short(ageing.Settings.LossPoints)} points of landing rate are lost", "min", ageing.Loss.Value!.Age / 60, ageing.Loss.Value.Low / 60, ageing.Loss.Value.High / 60, LossNote(ageing)],
        ];
        return new TableView("age-law", "The law of growth", [Columns.Parameter, Columns.ParameterUnit, Columns.ParameterValue, Columns.LimitLow, Columns.LimitHigh, Columns.Note], rows,
            "Squared spread of a landing, in units of that of all landings = base + growth · (age / 10 min)^power + wind · (wind / median wind)². The power's interval is by profile likelihood over the design effect. Points lost: the reader's number.");
    }

    private static TableView Effects(ForecastAgeing ageing) => new("age-effects", "What else goes with the spread, age and wind allowed for",
        [Columns.EffectOf, Columns.EffectPer, Columns.Missions, Columns.LandingsOfClass, Columns.SpreadChange, Columns.Note],
        [.. (ageing.Growth.Value?.Effects ?? []).Select(e =>
        {
            var unit = e.Of == SpreadEffect.Height ? ageing.Options.Units.Distance : ageing.Options.Units.Speed;
            return new object?[] { e.Of, $"{Rounding.Fixed(unit.FromSi(e.Per), 1)} {unit.Suffix}", e.Missions, e.Landings, e.Effect.Value, e.Effect.Reason };
        })],
        "Change of the standard deviation of the miss. What goes with the spread need not be its cause: canopies, too, differ in exit height.");

    private static string? LossNote(ForecastAgeing ageing) => ageing.Loss.Value switch
    {
        { Age: null, Low: { } low } => $"not reached within the ages on record; by the interval perhaps from {ForecastAgeing.Minutes(low)} min on",
        { Age: null } => "not reached within the ages on record",
        { High: null, Low: { } low } => $"from {ForecastAgeing.Minutes(low)} min to beyond the ages on record",
        { High: null } => "interval beyond the ages on record",
        _ => null,
    };
}
