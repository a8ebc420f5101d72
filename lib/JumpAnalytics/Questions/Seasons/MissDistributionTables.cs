namespace JumpAnalytics;

/// <summary>The tables of fitted distributions.</summary>
internal static class MissDistributionTables
{
    public static TableView Models(MissDistribution of)
    {
        var unit = of.Options.Units.Distance;
        var ranked = of.Choice.Value?.Models.ToDictionary(m => m.Name) ?? [];
        return new TableOf<(MissFit Fitted, RankedModel? Rank)>("miss-models", "Distributions fitted to the misses",
            of.Fits.Select(f => (f, ranked.GetValueOrDefault(f.Name))),
            $"{Rounding.Count(of.Sample.Clusters, "mission")}, {Rounding.Count(of.Sample.Points, "landing")}, "
            + $"{Rounding.Count(of.Sample.Beyond.Count)} of them known only as beyond a distance. "
            + $"Intervals at {Rounding.Percent(of.Options.Confidence)} between missions. "
            + "AICc and BIC: less is better; they and the weights take landings as independent. Told apart: by sums over missions. "
            + "Fit: Anderson and Darling's test of the distances on one landing of each mission, "
            + $"parametric bootstrap, seed {of.Options.Seed}; distances on round numbers are spread over their rounding; "
            + "a small p speaks against the distribution.")
        {
            { Columns.Model, f => f.Fitted.Name },
            { Columns.FreeParameters, f => f.Fitted.Fit.Value?.FreeParameters },
            { Columns.LogLikelihood, f => f.Fitted.Fit.Value?.LogLikelihood },
            { Columns.Aicc, f => f.Fitted.Fit.Value?.Aicc },
            { Columns.Bic, f => f.Fitted.Fit.Value?.Bic },
            { Columns.Weight, f => f.Rank?.Weight },
            { Columns.AgainstBest, f => Against(f.Rank) },
            {
                MissSummary.Percents.Index(), p => Columns.ModelRadius(p.Item, unit),
                (f, p) => p.Index < f.Fitted.Radii.Count ? f.Fitted.Radii[p.Index].Select(unit.FromSi) : null
            },
            { Columns.FitP, f => f.Fitted.Check?.Distances.Value?.PValue },
            { Columns.Note, f => f.Fitted.Fit.Reason },
        };
    }

    public static TableView Parameters(MissDistribution of) =>
        new TableOf<(string Model, ModelParameter Of)>("miss-model-parameters", "Parameters of the fitted distributions",
            of.Fits.Where(f => f.Fit.Success).SelectMany(f => f.Fit.Value!.Parameters.Select(p => (f.Name, p))),
            "Standard errors between missions; "
            + $"{Rounding.Count(of.Sample.Clusters, "mission")}, {Rounding.Count(of.Sample.Points, "landing")}.")
        {
            { Columns.Model, r => r.Model },
            { Columns.Parameter, r => r.Of.Name },
            { Columns.ParameterUnit, r => UnitOf(r.Of.Kind, of) },
            { Columns.ParameterValue, r => Shown(r.Of.Value, r.Of.Kind, of) },
            { Columns.StandardError, r => r.Of.StandardError is { } e ? Shown(e, r.Of.Kind, of) : null },
        };

    public static TableView Parts(MissDistribution of, TwoLevelModel levels)
    {
        var unit = of.Options.Units.Distance;
        var (shared, own, part) = (levels.Shared, levels.Within.Value, levels.Forecast);
        return new TableOf<(string Axis, double Shared, double Own, Estimate Share)>(
            "forecast-share", "What a mission's landings share of the spread, and the rest",
            [
                ("downwind", shared.VarianceAlong, own.VarianceAlong, part.Along.Share),
                ("right", shared.VarianceAcross, own.VarianceAcross, part.Right.Share),
                ("both", shared.Trace, own.Trace, part.Overall.Share),
            ],
            "Two-level model, REML: what the landings of a mission share, and what differs from landing to landing; forecast errors of "
            + "single passes are in the second. "
            + (levels.Measurement is { } m
                ? $"Of the own part, the error of measurement makes up {Rounding.Fixed(unit.FromSi(Math.Sqrt(m.Variance)), 1)} {unit.Name} "
                    + $"an axis, known of {Rounding.Count(m.Recorded)} of {Rounding.Count(m.Points, "landing")}."
                : "Errors of measurement are not recorded and stand in the own part."))
        {
            { Columns.Axis, r => r.Axis },
            { Columns.Missions, _ => levels.Clusters },
            { Columns.Landings, _ => levels.Points },
            { Columns.BetweenSd(unit), r => unit.FromSi(Math.Sqrt(r.Shared)) },
            { Columns.WithinSd(unit), r => unit.FromSi(Math.Sqrt(r.Own)) },
            { Columns.ForecastShare, r => r.Share },
        };
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
