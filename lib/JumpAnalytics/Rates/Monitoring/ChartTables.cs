using NodaTime;
using NodaTime.Text;

namespace JumpAnalytics;

/// <summary>The tables of control charts.</summary>
internal static class ChartTables
{
    public static TableView Charts(IReadOnlyList<MissCharts> all, bool spotters) =>
        new TableOf<(string Of, ChartKind Kind, MissChart? Chart, string? Why, double? Adjusted)>(
            spotters ? "spotter-charts" : "charts", spotters ? "Control charts by spotter" : "Control charts",
            all.SelectMany(m => m.All.Select((c, i) => (m.Name, (ChartKind)i, c.Value, c.Reason, m.Adjusted((ChartKind)i)))),
            "Run length: missions until a false signal in the mean, against a reference that is known exactly. The chance of a false "
            + "signal and p have the error of the reference in them: its mean and spread are estimates. p looks at how near the limit a "
            + "chart came, or how far beyond; after all looks: Holm's rule over the "
            + $"{Rounding.Count(all.Count == 0 ? 0 : all[0].Looks.Count, "look")} of {(spotters ? "this report" : "these charts")}. Miss "
            + "distance: normal scores among the reference's landings, distances divided by the typical one of their wind band and "
            + "terrain, averaged by mission and divided by the standard deviation between missions + within/landings. Hits: log-likelihood "
            + "ratio of halved or doubled odds (or the ratio asked for) of a mission's hits, chances by cell from a logistic mixed model. "
            + "After a signal a chart starts anew.")
        {
            { Columns.ChartOf, r => r.Of }, { Columns.ChartName, r => MissChart.NameOf(r.Kind) },
            { Columns.ChartMissions, r => r.Chart?.Missions }, { Columns.ChartLandings, r => r.Chart?.Landings },
            { Columns.ReferenceMissions, r => r.Chart?.ReferenceMissions }, { Columns.ReferenceLandings, r => r.Chart?.ReferenceLandings },
            { Columns.ChartLimit, r => r.Chart?.UpperLimit }, { Columns.RunLength, r => r.Chart?.InControlRunLength },
            { Columns.SignalCount, r => r.Chart?.Signals.Count }, { Columns.ChanceOfFalse, r => r.Chart?.ChanceOfFalseSignal },
            { Columns.PNoChange, r => r.Chart?.PValue }, { Columns.PNoChangeAll, r => r.Adjusted },
            { Columns.Note, r => r.Why },
        };

    /// <summary>A signal, or a place where all charts start anew.</summary>
    private sealed record Event(string Of, string Chart, string Mission, LocalDateTime Time, ChartSignal? Signal, string Note);

    public static TableView Signals(IReadOnlyList<MissCharts> all, bool spotters) => new TableOf<Event>(
        spotters ? "spotter-chart-signals" : "chart-signals", "Signals and restarts",
        all.SelectMany(m => (spotters ? m.Found : m.Made)
            .SelectMany(c => c.Signals.Select(s => new Event(m.Name, c.Name, s.At.Mission, s.At.Time, s, s.Size)))
            .Concat(m.Restarts.Select(r => new Event(m.Name, "all", r.Mission, r.Time, null, r.Reason)))),
        (spotters ? "Signals of the charts that are beyond chance after all looks. " : "")
        + "The missions since the probable start were picked by the chart: the change looks larger in them than it is.")
    {
        { Columns.ChartOf, e => e.Of }, { Columns.ChartName, e => e.Chart }, { Columns.Mission, e => e.Mission },
        { Columns.FlownOn, e => Date(e.Time) }, { Columns.SignalDirection, e => e.Signal?.Direction ?? "starts anew" },
        { Columns.ProbableStart, e => e.Signal?.ProbableStart }, { Columns.MissionsSince, e => e.Signal?.MissionsSinceStart },
        { Columns.LandingsSince, e => e.Signal?.LandingsSinceStart }, { Columns.Note, e => e.Note },
    };

    public static TableView Points(IReadOnlyList<MissCharts> all, bool spotters) => Points(
        spotters ? "spotter-chart-points" : "chart-points", "Points of the charts",
        all.SelectMany(m => m.Made.Select(c => (m.Name, c, !spotters || m.Found.Contains(c)))), spotters);

    public static TableView Points(MissChart chart, string note) =>
        Points("chart-points", "Points of the chart", [("", chart, true)], false, note);

    private static TableView Points(
        string name, string title, IEnumerable<(string Of, MissChart Chart, bool Found)> charts, bool spotters, string? note = null) =>
        new TableOf<(string Of, string Chart, ChartPoint Point, bool Found)>(
            name, title, charts.SelectMany(c => c.Chart.Points, (c, p) => (c.Of, c.Chart.Name, p, c.Found)), note)
        {
            { spotters, Columns.ChartOf, r => r.Of }, { Columns.ChartName, r => r.Chart }, { Columns.Mission, r => r.Point.Mission },
            { Columns.FlownOn, r => Date(r.Point.Time) }, { Columns.ChartLandings, r => r.Point.Landings },
            { Columns.UpperStatistic, r => r.Point.Upper }, { Columns.LowerStatistic, r => r.Point.Lower },
            { Columns.SignalDirection, r => r.Found ? r.Point.Direction : null },
        };

    public static string Date(LocalDateTime time) => LocalDatePattern.Iso.Format(time.Date);
}
