namespace JumpAnalytics;

/// <summary>The margins on one screen.</summary>
internal static class MarginsBrief
{
    public static Brief Of(SpottingMargins margins)
    {
        var points = new List<string>();
        if (margins.Log.Notice is { } notice) points.Add(notice);
        points.Add(margins.Shifts.Reading);
        points.Add(margins.Sticks.Reading);
        points.Add(margins.Ageing.Reading);
        if (margins.Seasons.Count > 1 || margins.Log.Seasons.Count > 1) points.Add(margins.EarlierMargins.Sentence);
        points.Add("These are statistics of landings as they were steered. Nothing here says whether to jump; "
            + "every limit in this report is one that its reader put in.");
        return new Brief(margins.Radii.Reading, points);
    }
}
