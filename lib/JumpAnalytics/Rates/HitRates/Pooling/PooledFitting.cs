using System.Globalization;

namespace JumpAnalytics;

/// <summary>Fits a pooled model to counts.</summary>
internal static class PooledFitting
{
    /// <summary>Log-odds beyond this, without any spread between missions, come from hits and misses that part.</summary>
    private const double Parted = 15;

    /// <summary>A standard deviation below this is zero.</summary>
    private const double Vanishing = 1e-4;

    /// <summary>A standard deviation between missions above this comes from missions whose landings all agree.</summary>
    private const double Runaway = 20;

    /// <summary>Nodes are enough when twice as many change the log-likelihood by no more than this.</summary>
    private const double Settled = 1e-3;

    /// <summary>A log-likelihood that nodes asked for leave off by more than this is warned of.</summary>
    private const double Noticed = 0.1;

    public static Fit<PooledRates> Of(IReadOnlyList<PooledCount> counts, PoolingOptions options)
    {
        if (options is { CellEffect: true, Nodes: > 1 and < PoolingOptions.FewNodes })
            throw new ArgumentException($"With cell effects, 1 node or at least {PoolingOptions.FewNodes}; found {options.Nodes}.");
        if (counts.FirstOrDefault(c => c.Landings < 0 || c.Hits < 0 || c.Hits > c.Landings) is { } odd)
            throw new ArgumentException($"A count can't have {odd.Hits} hits in {odd.Landings} landings (mission '{odd.Mission}').");
        var used = counts.Where(c => c.Landings > 0).ToList();
        var missions = used.GroupBy(c => c.Mission).ToList();
        if (Trouble(used, missions) is { } reason) return Fit<PooledRates>.Refused(reason);

        var warnings = new List<string>();
        var design = PooledDesign.Of(used, options.Interaction);
        if (design.Dropped.Count > 0)
            warnings.Add("the cells that have landings can't tell these effects from others, and they are left out: "
                + $"{string.Join(", ", design.Dropped)}");
        var index = Enumerable.Range(0, design.Observed).ToDictionary(c => design.Cells[c]);
        var patterns = ClusterPatterns.Of([.. missions.Select(m => m.GroupBy(c => index[c.Cell])
            .Select(g => new CellCount(g.Key, g.Sum(c => c.Hits), g.Sum(c => c.Landings))).ToArray())], design.Observed);
        var cellEffect = options.CellEffect && design.Names.Count < design.Observed;
        if (options.CellEffect && !cellEffect)
            warnings.Add("there is no effect of the cell beside the fixed effects, which are as many as the cells");
        var spread = missions.Any(m => m.Sum(c => c.Landings) > 1);
        if (!spread) warnings.Add("no mission has two landings, so that nothing tells missions from landings; "
            + "the spread between missions is taken as zero");

        var (likelihood, start) = Bare(design, Kernel(patterns, options.Nodes), used, warnings);
        if (Top(likelihood, start, spread, cellEffect, warnings) is not var (top, at) || PooledComponent.Of(top, at) is not { } fitted)
            return Fit<PooledRates>.Refused("the likelihood has no maximum that the search could settle on; a simpler model may help");
        if (top.MissionSd(at) > Runaway)
            return Fit<PooledRates>.Refused("the landings of nearly every mission agree, so that the spread between missions has no bound");
        var off = OffBy(top, at, patterns, options.Nodes);
        if (off > Settled && options.Nodes is >= PoolingOptions.FewNodes and < GaussHermite.MostNodes)
            return Of(counts, options with { Nodes = Math.Min(2 * options.Nodes, GaussHermite.MostNodes) });
        if (off > Noticed) warnings.Add(string.Create(CultureInfo.InvariantCulture, $"with {Rounding.Count(options.Nodes, "node")} of "
            + $"quadrature the log-likelihood is {off:0.0#} off that of more: rates may be wrong by more than their intervals allow"));
        var average = cellEffect ? PooledAverage.Over(top, at) : PooledAverage.Of(fitted);
        return average is null
            ? Fit<PooledRates>.Refused("the likelihood is flat about its maximum; a simpler model may help")
            : Fit<PooledRates>.Made(PooledReport.Of(options, used, missions, patterns, top, at, fitted, average, cellEffect, warnings));
    }

    private static ILogisticLikelihood Kernel(ClusterPatterns patterns, int nodes) =>
        nodes > 1 ? new NestedLaplace(patterns, nodes) : new JointLaplace(patterns);

    /// <summary>How far the log-likelihood is from that of twice as many nodes: of half as many where there are no more.</summary>
    private static double OffBy(PooledLikelihood top, double[] at, ClusterPatterns patterns, int nodes)
    {
        var other = nodes == GaussHermite.MostNodes ? nodes / 2 : Math.Min(2 * Math.Max(nodes, 15), GaussHermite.MostNodes);
        return Math.Abs(top.With(Kernel(patterns, nodes)).Kernel(at).Value - top.With(Kernel(patterns, other)).Kernel(at).Value);
    }

    private static string? Trouble(List<PooledCount> counts, List<IGrouping<string, PooledCount>> missions)
    {
        var (landings, hits) = (counts.Sum(c => (long)c.Landings), counts.Sum(c => (long)c.Hits));
        if (landings == 0) return "no landing";
        if (landings > int.MaxValue) return $"more than {int.MaxValue} landings";
        if (missions.Count == 1) return "a single mission says nothing of how missions differ";
        if (hits == 0 || hits == landings)
            return $"{(hits == 0 ? "none" : "each")} of the {landings} landings is a hit, so that the log-odds of a hit have no bound";
        var several = missions.Where(m => m.Sum(c => c.Landings) > 1).ToList();
        return several.Count > 0 && several.All(m => m.All(c => c.Hits == 0) || m.All(c => c.Hits == c.Landings))
            ? "in each mission of two or more landings all landings agree, so that the spread between missions has no bound" : null;
    }

    /// <summary>The fixed part alone, for a start, held where hits and misses part.</summary>
    private static (PooledLikelihood Likelihood, double[] At) Bare(PooledDesign design, ILogisticLikelihood kernel,
        List<PooledCount> counts, List<string> warnings)
    {
        var none = new PooledSpreads(0, false, 0, false);
        var start = new double[design.Names.Count];
        var (landings, hits) = (counts.Sum(c => (double)c.Landings), counts.Sum(c => (double)c.Hits));
        start[0] = Math.Log(hits / (landings - hits));
        var free = new PooledLikelihood(design, kernel, false, none);
        var top = SlopeClimb.To(free.At, start);
        if (design.Levels(top.At).Take(design.Observed).All(level => Math.Abs(level) < Parted)) return (free, top.At);

        string[] pure =
        [
            .. Pure(c => c.WindBand, "wind band"), .. Pure(c => c.Terrain, "terrain"),
        ];
        warnings.Add(
            $"hits and misses part ({(pure.Length > 0 ? string.Join("; ", pure) : "in a combination of wind bands and terrains")}); the "
            + $"levels of the cells are held to their mean by a normal pull of standard deviation {PooledLikelihood.HoldingSd} log-odds");
        var held = new PooledLikelihood(design, kernel, true, none);
        return (held, SlopeClimb.To(held.At, start).At);

        IEnumerable<string> Pure(Func<PooledCount, string> level, string name) =>
            from g in counts.GroupBy(level)
            let n = g.Sum(c => c.Landings)
            let k = g.Sum(c => c.Hits)
            where k == 0 || k == n
            select $"{name} {g.Key}: {k} hits in {n} landings";
    }

    /// <summary>The top of the likelihood with spreads; one that vanishes is held at zero.</summary>
    private static (PooledLikelihood Likelihood, double[] At)? Top(PooledLikelihood bare, double[] start,
        bool mission, bool cell, List<string> warnings)
    {
        var likelihood = bare.With(new PooledSpreads(0.6, mission, 0.3, cell));
        if (!cell) likelihood = likelihood.With(likelihood.Spreads with { CellSd = 0 });
        if (!mission) likelihood = likelihood.With(likelihood.Spreads with { MissionSd = 0 });
        while (true)
        {
            var spreads = likelihood.Spreads;
            var top = SlopeClimb.To(likelihood.At, [.. start, .. spreads.MissionFree ? [spreads.MissionSd] : Array.Empty<double>(),
                .. spreads.CellFree ? [spreads.CellSd] : Array.Empty<double>()]);
            var (missionSd, cellSd) = (likelihood.MissionSd(top.At), likelihood.CellSd(top.At));
            if (spreads.MissionFree && missionSd < Vanishing)
            {
                warnings.Add("the spread between missions is estimated as zero");
                likelihood = likelihood.With(spreads with { MissionSd = 0, MissionFree = false });
            }
            else if (spreads.CellFree && cellSd < Vanishing)
            {
                warnings.Add("the spread between cells is estimated as zero; the rates allow for more");
                likelihood = likelihood.With(spreads with { CellSd = 0, CellFree = false });
            }
            else if (!top.Converged) return null;
            else return (likelihood, top.At);
        }
    }
}
