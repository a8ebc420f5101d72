namespace JumpAnalytics;

/// <summary>The tables of a <see cref="ForecastAgeing"/>.</summary>
internal static class AgeingTables
{
    public static IReadOnlyList<TableView> Of(ForecastAgeing ageing) => [Classes(ageing), Growth(ageing), Law(ageing), Effects(ageing)];

    private static TableView Classes(ForecastAgeing ageing)
    {
        var (distance, speed) = (ageing.Options.Units.Distance, ageing.Options.Units.Speed);
        return new TableOf<AgeClass>("age-classes", "Landings by age of the forecast", ageing.Classes,
            $"Counted, with no law behind it; intervals at {Rounding.Percent(ageing.Options.Confidence)} between missions. "
            + "A mission of several passes may be in several classes. Wind is not held fixed here.")
        {
            { Columns.AgeClassMinutes, c => c.Label },
            { Columns.Missions, c => c.Missions },
            { Columns.LandingsOfClass, c => c.Landings },
            { Columns.Measure("mean_wind", "mean drift wind", speed, "Mean drift wind of the landings."), c => speed.FromSi(c.MeanWind) },
            { Columns.Rate, c => c.Rate.Value?.Rate },
            { Columns.MissQuantile(90, distance), c => c.Radius90.Value?.Select(distance.FromSi) },
            { Columns.Note, c => c.Rate.Reason ?? c.Radius90.Reason ?? c.Rate.Value?.Caution ?? c.Radius90.Value?.WhyNoRange },
        };
    }

    private static TableView Growth(ForecastAgeing ageing)
    {
        var distance = ageing.Options.Units.Distance;
        var from = ageing.Settings.Ages[0];
        var table = new TableOf<(double Age, AgeGrowth Growth)>("age-growth", "What age does, wind held fixed",
            ageing.Growth.Value is { IsShown: true } growth ? ageing.Settings.Ages.Select(age => (age, growth)) : [], Note())
        {
            { Columns.AgeMinutes, r => r.Age / 60 },
            { Columns.ModelRadius(90, distance), r => r.Growth.Radius(r.Age).Select(distance.FromSi) },
            { Columns.RadiusGrowth, r => r.Growth.RadiusGrowth(from, r.Age) },
            { Columns.RateAtAge, r => r.Growth.HitRate(r.Age) },
            { Columns.RateChangeAtAge, r => r.Growth.HitRateChange(from, r.Age) },
            { Columns.Note, r => r.Growth.Covers(r.Age) ? null : $"beyond the ages on record; as at {Nearest(r.Growth, r.Age)} min" },
        };
        return table;

        static string Nearest(AgeGrowth g, double age) => ForecastAgeing.Minutes(Math.Clamp(age, g.Ages.Low, g.Ages.High));

        string Note() => ageing.Growth.Value is not { } g ? $"Not known: {ageing.Growth.Reason}."
            : !g.IsShown ? $"No size is stated: {ForecastAgeing.NotShown} (p {Rounding.PValue(g.NoGrowthP)}, one-sided; "
                + $"{Rounding.Count(g.Missions, "mission")}, {Rounding.Count(g.Landings, "landing")})."
            : $"{Rounding.Count(g.Missions, "mission")}, {Rounding.Count(g.Passes)} passes, {Rounding.Count(g.Landings, "landing")}. "
                + "Radius at the median drift wind; rate over the winds and radii of the record. "
                + $"Growth and change: against {ForecastAgeing.Minutes(from)} min. "
                + $"Intervals at {Rounding.Percent(ageing.Options.Confidence)}, missions resampled.";
    }

    private static TableView Law(ForecastAgeing ageing) => new TableOf<LawRow>("age-law", "The law of growth",
        ageing.Growth.Value is { } growth ? LawRows(ageing, growth) : [],
        "Squared spread of a landing, in units of that of all landings = "
        + "base + growth · (age / 10 min)^power + wind · (wind / median wind)². "
        + "The power's interval is by profile likelihood over the design effect. Points lost: as asked about.")
    {
        { Columns.Parameter, r => r.Parameter },
        { Columns.ParameterUnit, r => r.Unit },
        { Columns.ParameterValue, r => r.Value },
        { Columns.LimitLow, r => r.Low },
        { Columns.LimitHigh, r => r.High },
        { Columns.Note, r => r.Note },
    };

    private static IEnumerable<LawRow> LawRows(ForecastAgeing ageing, AgeGrowth g)
    {
        const string Share = "share of variance";
        var see = g.IsShown ? "uncertainty: see the growth" : ForecastAgeing.NotShown;
        var power = g.Exponent.Range!.Value;
        var loss = ageing.Loss.Value;
        return
        [
            new("power of the age", "", g.IsShapeKnown ? g.Exponent.Value : null, power.Low, power.High,
                !g.IsShapeKnown ? "not shown by these records; the published power is taken"
                    : g.ExponentBeyond ? "no upper end within the powers tried" : null),
            new("spread without age and wind", Share, g.IsShown ? g.Law.Base : null, Note: see),
            new("spread that 10 min add", Share, g.IsShown ? g.Law.Growth : null, Note: see),
            new("spread that the median wind adds", Share, g.IsShown ? g.Law.Wind : null, Note: see),
            new("p of the published power 2/3", "", g.PublishedP),
            new("p of no growth", "", g.NoGrowthP, Note: "one-sided"),
            new("design effect", "", g.DesignEffect, Note: "variance of the growth over that of independent landings"),
            new("missions to show such growth", "", g.MissionsToTell,
                Note: g.MissionsToTell is null ? "there seems to be none" : "four times in five, at 2.5 % one-sided"),
            new($"age at which {Rounding.Short(ageing.Settings.LossPoints)} points of landing rate are lost", "min",
                loss?.Age / 60, loss?.Low / 60, loss?.High / 60, LossNote(ageing)),
        ];
    }

    private static TableView Effects(ForecastAgeing ageing)
    {
        return new TableOf<SpreadEffect>("age-effects", "What else goes with the spread, age and wind allowed for",
            ageing.Growth.Value?.Effects ?? [],
            "Change of the standard deviation of the miss. What goes with the spread need not be its cause: "
            + "canopies, too, differ in exit height.")
        {
            { Columns.EffectOf, e => e.Of },
            {
                Columns.EffectPer,
                e => $"{Rounding.Fixed(UnitOf(e).FromSi(e.Per), e.Of == SpreadEffect.Height ? 0 : 1)} {UnitOf(e).Suffix}"
            },
            { Columns.Missions, e => e.Missions },
            { Columns.LandingsOfClass, e => e.Landings },
            { Columns.SpreadChange, e => e.Effect.Value },
            { Columns.Note, e => e.Effect.Reason },
        };

        MeasureUnit UnitOf(SpreadEffect e) => e.Of == SpreadEffect.Height ? ageing.Options.Units.Height : ageing.Options.Units.Speed;
    }

    /// <summary>A number of the law of growth.</summary>
    private sealed record LawRow(
        string Parameter, string Unit, double? Value, double? Low = null, double? High = null, string? Note = null);

    private static string? LossNote(ForecastAgeing ageing) => ageing.Loss.Value switch
    {
        null => ageing.Loss.Reason,
        { Age: null, Low: { } low } =>
            $"not reached within the ages on record; by the interval perhaps from {ForecastAgeing.Minutes(low)} min on",
        { Age: null } => "not reached within the ages on record",
        { High: null, Low: { } low } => $"from {ForecastAgeing.Minutes(low)} min to beyond the ages on record",
        { High: null } => "interval beyond the ages on record",
        _ => null,
    };
}
