namespace JumpAnalytics;

/// <summary>The tables of fitted distributions.</summary>
internal static class MissDistributionTables
{
    public static TableView Models(MissDistribution of)
    {
        var unit = of.Options.Units.Distance;
        var ranked = of.Choice.Value?.Models.ToDictionary(m => m.Name) ?? [];
        return new TableView("miss-models", "Distributions fitted to the misses",
            [
                Columns.Model, Columns.FreeParameters, Columns.LogLikelihood, Columns.Aicc, Columns.Bic, Columns.Weight, Columns.AgainstBest,
                .. MissSummary.Percents.Select(p => Columns.ModelRadius(p, unit)), Columns.FitP, Columns.Note,
            ],
            [.. of.Fits.Select(f => new object?[]
            {
                f.Name, f.Fit.Value?.FreeParameters, f.Fit.Value?.LogLikelihood, f.Fit.Value?.Aicc, f.Fit.Value?.Bic, ranked.GetValueOrDefault(f.Name)?.Weight, Against(ranked.GetValueOrDefault(f.Name)),
            }.Concat(MissSummary.Percents.Select((_, i) => i < f.Radii.Count ? (object?)f.Radii[i].Select(unit.FromSi) : null)).Concat([f.Check?.Distances.Value?.PValue, f.Fit.Reason]).ToArray())],
            $"{Rounding.Count(of.Sample.Clusters, "mission")}, {Rounding.Count(of.Sample.Points, "landing")}, {of.Sample.Beyond.Count} of them known only as beyond a distance. Intervals at {Rounding.Percent(of.Options.Confidence)} between missions. "
            + "AICc and BIC: less is better; they and the weights take landings as independent. Told apart: by sums over missions. Fit: Anderson and Darling's test of the distances on one landing of each mission, "
            + $"parametric bootstrap, seed {of.Options.Seed}; distances on round numbers are spread over their rounding; a small p speaks against the distribution.");
    }

    public static TableView Parameters(MissDistribution of) => new("miss-model-parameters", "Parameters of the fitted distributions",
        [Columns.Model, Columns.Parameter, Columns.ParameterUnit, Columns.ParameterValue, Columns.StandardError],
        [.. of.Fits.Where(f => f.Fit.Success).SelectMany(f => f.Fit.Value!.Parameters.Select(p => (f.Name, P: p))).Select(r =>
            new object?[] { r.Name, r.P.Name, UnitOf(r.P.Kind, of), Shown(r.P.Value, r.P.Kind, of), r.P.StandardError is { } e ? Shown(e, r.P.Kind, of) : null })],
        $"Standard errors between missions; {Rounding.Count(of.Sample.Clusters, "mission")}, {Rounding.Count(of.Sample.Points, "landing")}.");

    public static TableView Parts(MissDistribution of, TwoLevelModel levels)
    {
        var unit = of.Options.Units.Distance;
        return new TableView("forecast-share", "The forecast's part of the spread and the jumper's",
            [Columns.Axis, Columns.Missions, Columns.Landings, Columns.BetweenSd(unit), Columns.WithinSd(unit), Columns.ForecastShare],
            [
                Row("downwind", levels.Shared.VarianceAlong, levels.Within.Value.VarianceAlong, levels.Forecast.Along.Share),
                Row("right", levels.Shared.VarianceAcross, levels.Within.Value.VarianceAcross, levels.Forecast.Right.Share),
                Row("both", levels.Shared.Trace, levels.Within.Value.Trace, levels.Forecast.Overall.Share),
            ],
            "Two-level model, REML: what the landings of a mission share, and what is each jumper's own. "
            + (levels.Measurement is { } m
                ? $"Of the own part, the error of measurement makes up {Rounding.Fixed(unit.FromSi(Math.Sqrt(m.Variance)), 1)} {unit.Name} an axis, known of {Rounding.Count(m.Recorded)} of {Rounding.Count(m.Points, "landing")}."
                : "Errors of measurement are not recorded and stand in the own part."));

        object?[] Row(string axis, double shared, double own, Estimate share) =>
            [axis, levels.Clusters, levels.Points, unit.FromSi(Math.Sqrt(shared)), unit.FromSi(Math.Sqrt(own)), share];
    }

    private static string? Against(RankedModel? model) => model switch
    {
        null or { Weight: null } => null,
        { BestAgainst: null } => "the best",
        { IsToldApart: true, BestAgainst: { } c } => $"told apart (p {Rounding.PValue(c.PValue)})",
        { BestAgainst: { } c } => $"can't tell (p {Rounding.PValue(c.PValue)})",
    };

    private static string? UnitOf(ParameterKind kind, MissDistribution of) => kind switch
    {
        ParameterKind.Length => of.Options.Units.Distance.Suffix,
        ParameterKind.Area => of.Options.Units.Distance.Suffix + "²",
        _ => null,
    };

    private static double Shown(double value, ParameterKind kind, MissDistribution of) => kind switch
    {
        ParameterKind.Length => of.Options.Units.Distance.FromSi(value),
        ParameterKind.Area => of.Options.Units.Distance.FromSi(of.Options.Units.Distance.FromSi(value)),
        _ => value,
    };
}
