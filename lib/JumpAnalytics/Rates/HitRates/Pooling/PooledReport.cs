namespace JumpAnalytics;

/// <summary>Puts a fitted model into the words of its result.</summary>
internal static class PooledReport
{
    public static PooledRates Of(
        PoolingOptions options, List<PooledCount> counts, List<IGrouping<string, PooledCount>> missions, ClusterPatterns patterns,
        PooledLikelihood likelihood, double[] at, PooledComponent fitted, PooledAverage average, bool cellEffect, List<string> warnings)
    {
        var (design, spreads, kernel) = (likelihood.Design, likelihood.Spreads, likelihood.Kernel(at));
        var effects = likelihood.MissionEffects(at);
        var byCell = counts.ToLookup(c => c.Cell);
        var cellSd = likelihood.CellSd(at);
        return new PooledRates
        {
            Options = options,
            Missions = missions.Count,
            Landings = counts.Sum(c => c.Landings),
            Hits = counts.Sum(c => c.Hits),
            FixedEffects = [.. design.Names.Select((name, k) => new FixedEffect(name, at[k], Error(k)))],
            BetweenMissions = new PooledSpread(likelihood.MissionSd(at), spreads.MissionFree ? Error(design.Names.Count) : null),
            BetweenCells = cellEffect ? new PooledSpread(cellSd, spreads.CellFree ? Error(at.Length - 1) : null) : null,
            LogLikelihood = kernel.Value,
            FreeParameters = likelihood.Count,
            Cells = [.. design.Cells.Select((_, c) => Cell(c))],
            MissionEffects = [.. missions.Select((m, i) => new PooledMission(m.Key, m.Sum(c => c.Landings), m.Sum(c => c.Hits),
                Effect(effects[patterns.PatternOf[i]])))],
            Warnings = [.. warnings],
        };

        double Error(int k) => Math.Sqrt(fitted.Covariance[k, k]);

        PooledEffect Effect((double Mode, double Variance) effect) => new(effect.Mode, Math.Sqrt(effect.Variance));

        PooledCell Cell(int c)
        {
            var here = byCell[design.Cells[c]].ToList();
            var unknown = $"no landing tells how {design.Cells[c].WindBand} and {design.Cells[c].Terrain} go together";
            return new PooledCell
            {
                Cell = design.Cells[c],
                Missions = here.Select(x => x.Mission).Distinct().Count(), Landings = here.Sum(x => x.Landings),
                Hits = here.Sum(x => x.Hits),
                Effect = !cellEffect ? null : Effect(here.Count > 0 ? (kernel.CellMode[c], kernel.CellVariance[c]) : (0, cellSd * cellSd)),
                ModelRate = design.Estimable[c]
                    ? Fit<Estimate>.Made(average.ModelRate(c, options.Confidence)) : Fit<Estimate>.Refused(unknown),
                Rate = design.Estimable[c] ? Fit<Estimate>.Made(average.Rate(c, options.Confidence)) : Fit<Estimate>.Refused(unknown),
                Pull = !cellEffect && design.Names.Count == design.Observed && here.Count > 0 ? 0 : average.Pull(c),
            };
        }
    }
}
