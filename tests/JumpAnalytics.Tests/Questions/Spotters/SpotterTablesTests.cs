using System.Globalization;
using JumpAnalytics.Tests.Demo;

namespace JumpAnalytics.Tests;

/// <summary>Tables of the review say what its objects hold, row by row and column by column.</summary>
public sealed class SpotterTablesTests
{
    private static readonly SpotterReview _review = SpotterReview.Of(DemoLog.Log, new AccuracyOptions { Replicates = 200 });

    private static double? Number(object? cell) => cell switch
    {
        null => null, Estimate e => e.Value, IConvertible x => x.ToDouble(CultureInfo.InvariantCulture),
        _ => throw new FormatException($"{cell}"),
    };

    private static void Holds<T>(TableView table, IReadOnlyList<T> rows, params (string Column, Func<T, double?> Value)[] columns)
    {
        Assert.Equal(rows.Count, table.Rows.Count);
        foreach (var (name, value) in columns)
        {
            var at = table.Columns.ToList().FindIndex(c => c.Name == name);
            Assert.True(at >= 0, $"{table.Name}: no column {name} among {string.Join(' ', table.Columns.Select(c => c.Name))}");
            for (var i = 0; i < rows.Count; i++)
            {
                var (wanted, found) = (value(rows[i]), Number(table.Rows[i][at]));
                Assert.Equal(wanted is null, found is null);
                if (wanted is { } w) Close.Absolute(w, found!.Value, 1e-9 * Math.Max(1, Math.Abs(w)), $"{table.Name} {name} {i}");
            }
        }
    }

    [Fact]
    public void Charts_by_spotter()
    {
        var charts = _review.Charts;
        var rows = charts.Spotters.SelectMany(s => s.All.Select((c, i) => (Of: s, Chart: c.Value, Kind: (ChartKind)i))).ToList();
        Holds(charts.Tables[0], rows, ("missions_charted", r => r.Chart?.Missions), ("landings_charted", r => r.Chart?.Landings),
            ("reference_missions", r => r.Chart?.ReferenceMissions), ("reference_landings", r => r.Chart?.ReferenceLandings),
            ("limit", r => r.Chart?.UpperLimit), ("run_length", r => r.Chart?.InControlRunLength), ("signals", r => r.Chart?.Signals.Count),
            ("chance_of_false_signal", r => r.Chart?.ChanceOfFalseSignal), ("p_no_change", r => r.Chart?.PValue),
            ("p_no_change_all", r => r.Of.Adjusted(r.Kind)));
        Assert.Equal(charts.Spotters.Sum(s => s.Found.Sum(c => c.Signals.Count) + s.Restarts.Count), charts.Tables[1].Rows.Count);
        Assert.Equal(charts.Spotters.Sum(s => s.Made.Sum(c => c.Points.Count)), charts.Tables[2].Rows.Count);
        var direction = charts.Tables[2].Columns.ToList().FindIndex(c => c.Name == "direction");
        var named = charts.Tables[2].Rows.Where(r => r[direction] is not null).Select(r => (string)r[0]!).Distinct();
        Assert.Equal((string[])["spotter S04"], named);
    }

    [Fact]
    public void Differences_by_spotter()
    {
        var fair = _review.Comparison;
        Holds(fair.Tables[0], fair.Spotters, ("missions", s => s.Missions), ("landings", s => s.Landings), ("hits", s => s.Hits),
            ("p_holm", s => s.PAdjusted));
        Assert.Single(fair.Tables[1].Rows);
    }

    [Fact]
    public void Patterns_by_spotter()
    {
        var patterns = _review.Patterns;
        List<SpotterPattern> rows = [patterns.Base, .. patterns.Spotters];
        Holds(patterns.Tables[0], rows, ("missions", s => s.Missions), ("p_no_bias", s => s.Downwind.Value?.NoBias.PValue),
            ("p_adjusted", s => s.AdjustedP));
        Assert.Equal(2 * rows.Count, patterns.Tables[2].Rows.Count);
        Assert.Equal(rows.Count, patterns.Tables[3].Rows.Count);
        Assert.Equal(2 * rows.Count, patterns.Tables[4].Rows.Count);
    }
}
