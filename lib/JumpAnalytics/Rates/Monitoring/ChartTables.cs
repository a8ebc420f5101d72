namespace JumpAnalytics;

/// <summary>The tables of control charts.</summary>
internal static class ChartTables
{
    public static TableView Charts(IReadOnlyList<MissCharts> all, bool spotters) => new(spotters ? "spotter-charts" : "charts", spotters ? "Control charts by spotter" : "Control charts",
        [Columns.ChartOf, Columns.ChartName, Columns.ChartMissions, Columns.ChartLandings, Columns.ReferenceMissions, Columns.ReferenceLandings, Columns.ChartLimit, Columns.RunLength, Columns.RunLengthLow, Columns.RunLengthHigh, Columns.SignalCount, Columns.ChanceOfFalse, Columns.Note],
        [.. all.SelectMany(m => m.All.Select((c, i) => c.Value is { } chart
            ? new object?[] { m.Name, chart.Name, chart.Missions, chart.Landings, chart.ReferenceMissions, chart.ReferenceLandings, chart.UpperLimit, chart.InControlRunLength, chart.RunLengthRange.Low, chart.RunLengthRange.High, chart.Signals.Count, chart.ChanceOfFalseSignal, null }
            : [m.Name, MissChart.NameOf((ChartKind)i), null, null, null, null, null, null, null, null, null, null, c.Reason]))],
        "Run length: missions until a false signal in the mean; the range is for 90 of 100 references as long as this one, since mean and spread of a reference are estimates. Miss distance: normal scores among the reference's landings, distances divided by the typical one of their wind band and terrain, "
        + "averaged by mission and divided by the standard deviation between missions + within/landings. Hits: log-likelihood ratio of halved or doubled odds (or the ratio asked for) of a mission's hits, chances by cell from a logistic mixed model. After a signal a chart starts anew.");

    public static TableView Signals(IReadOnlyList<MissCharts> all, bool spotters) => new(spotters ? "spotter-chart-signals" : "chart-signals", "Signals and restarts",
        [Columns.ChartOf, Columns.ChartName, Columns.Mission, Columns.FlownOn, Columns.SignalDirection, Columns.ProbableStart, Columns.MissionsSince, Columns.LandingsSince, Columns.Note],
        [.. all.SelectMany(m => m.Made.SelectMany(c => c.Signals.Select(s => new object?[] { m.Name, c.Name, s.At.Mission, Date(s.At.Time), s.Direction, s.ProbableStart, s.MissionsSinceStart, s.LandingsSinceStart, s.Size }))
            .Concat(m.Restarts.Select(r => new object?[] { m.Name, "all", r.Mission, Date(r.Time), "starts anew", null, null, null, r.Reason })))],
        "The missions since the probable start were picked by the chart: the change looks larger in them than it is.");

    public static TableView Points(IReadOnlyList<MissCharts> all) => new("spotter-chart-points", "Points of the charts",
        [Columns.ChartOf, Columns.ChartName, Columns.Mission, Columns.FlownOn, Columns.ChartLandings, Columns.UpperStatistic, Columns.LowerStatistic, Columns.SignalDirection],
        [.. all.SelectMany(m => m.Made.SelectMany(c => Rows(c).Select(r => (object?[])[m.Name, .. r])))]);

    public static TableView Points(MissCharts charts) => new("chart-points", "Points of the charts",
        [Columns.ChartName, Columns.Mission, Columns.FlownOn, Columns.ChartLandings, Columns.UpperStatistic, Columns.LowerStatistic, Columns.SignalDirection],
        [.. charts.Made.SelectMany(Rows)]);

    public static IEnumerable<object?[]> Rows(MissChart chart) => chart.Points.Select(p => new object?[] { chart.Name, p.Mission, Date(p.Time), p.Landings, p.Upper, p.Lower, p.Direction });

    public static string Date(NodaTime.LocalDateTime time) => NodaTime.Text.LocalDatePattern.Iso.Format(time.Date);
}
