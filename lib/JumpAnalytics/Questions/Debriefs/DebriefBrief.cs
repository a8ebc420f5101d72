namespace JumpAnalytics;

/// <summary>The debrief on one screen.</summary>
internal static class DebriefBrief
{
    public static Brief Of(MissionDebrief debrief)
    {
        var (drops, options) = (debrief.Passes.Select(p => p.Drop).ToList(), debrief.Options);
        var (hits, decided) = (debrief.Passes.Sum(p => p.Hits), debrief.Passes.Sum(p => p.Decided.Count));
        var points = new List<string>();
        if (debrief.Log.Notice is { } notice) points.Add(notice);
        points.Add(debrief.Plan.Reading);
        points.Add(debrief.Budgets.Reading);
        points.Add(debrief.Winds.Reading);
        points.Add(debrief.History.Reading);
        if (debrief.Refused > 0) points.Add($"{Rounding.Count(debrief.Refused, "row")} of this mission could not be used and "
            + $"{(debrief.Refused == 1 ? "stands" : "stand")} in no number here: see the quarantine of the log.");
        points.Add("One mission proves nothing about a forecast, a spotter or a jumper. It asks where to look.");
        var first = drops[0];
        var winds = drops.Select(d => options.Bands.LabelOf(d.WindSpeed)).Distinct().ToList();
        return new Brief(
            $"Mission {debrief.Mission} of {first.Time.Date.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}"
                + $"{(first.Base is { } place ? $", {place}" : "")}{(first.Spotter is { } spotter ? $", spotter {spotter}" : "")}: "
                + $"{string.Join(" and ", drops.Select(d => d.Terrain).Distinct())}, drift wind {string.Join(" and ", winds)} "
                + $"{options.Bands.Unit.Suffix}, {Rounding.Count(drops.Count)} pass{(drops.Count == 1 ? "" : "es")}, "
                + $"{Rounding.Count(debrief.Passes.Sum(p => p.Jumpers.Count), "landing")}. "
                + (decided == 0 ? "None can be told a hit or a miss."
                    : $"{Rounding.Count(hits)} of {Rounding.Count(decided)} came down inside the target radius.")
                + $" {Rounding.Count(debrief.Passes.Sum(p => p.Jumpers.Count(j => j.Flight.Success)), "descent track")} could be used.",
            points);
    }
}
