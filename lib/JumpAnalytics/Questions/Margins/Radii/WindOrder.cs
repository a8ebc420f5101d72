namespace JumpAnalytics;

/// <summary>Radii of one terrain by rising wind: none grows smaller in stronger wind on borrowed grounds alone.</summary>
/// <remarks>
/// A borrowed radius that is smaller than one in calmer wind on the same ground is raised to it, and its upper limit at least to the
/// other's, unless five missions or more of its own give it an upper limit below that radius. This errs wide where misses truly shrink in
/// wind. A radius of the cell's own landings is left alone and named.
/// </remarks>
internal static class WindOrder
{
    /// <summary>The rows, in their order, with borrowed ones raised.</summary>
    /// <param name="rows">Cells or bands, in rising wind for each terrain.</param>
    public static List<RadiusMargin> Of(IEnumerable<RadiusMargin> rows)
    {
        var calmer = new Dictionary<(string Terrain, int Share), (RadiusLimit Limit, string Band)>();
        return [.. rows.Select(row =>
        {
            var radii = row.Radii.ToArray();
            for (var i = 0; i < radii.Length; i++)
            {
                if (radii[i].Value is not { } own) continue;
                if (calmer.TryGetValue((row.Terrain, i), out var before) && own.Radius < before.Limit.Radius)
                {
                    var borneOut = row.Missions >= RadiusMargin.FewestMissions && own.UpperLimit < before.Limit.Radius;
                    if (row.IsOwn || borneOut)
                    {
                        row = row with { SmallerThan = before.Band };
                        continue;
                    }
                    row = row with { NotBelow = before.Band };
                    radii[i] = Fit<RadiusLimit>.Made(own with
                    {
                        Radius = before.Limit.Radius, UpperLimit = Math.Max(own.UpperLimit, before.Limit.UpperLimit),
                    });
                }
                else calmer[(row.Terrain, i)] = (own, row.WindBand);
            }
            return row with { Radii = radii };
        })];
    }
}
