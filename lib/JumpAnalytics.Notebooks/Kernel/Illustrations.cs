using System.Runtime.CompilerServices;
using Microsoft.DotNet.Interactive.Formatting;

namespace JumpAnalytics;

/// <summary>The figures that belong to a result: with the notebook package loaded a result shows them below its reading.</summary>
internal static class Illustrations
{
    private static readonly Dictionary<Type, Func<object, IReadOnlyList<Figure>>> _figures = new[]
    {
        For<SeasonAccuracy>(a => [RateForest.Of(a.Rates)]),
        For<SeasonGlance>(g => [RateForest.Of(g)]),
        For<LandingGroups>(g => [RateForest.Of(g)]),
        For<RateTable>(r => [RateHeatMap.Of(r), RateForest.Of(r)]),
        For<MissDistribution>(m => [ProbabilityPlot.Of(m), RadialQuantilePlot.Of(m)]),
        For<Backtest>(b => [ReliabilityPlot.Of(b)]),
        For<SpotterReview>(r => [BiasPlot.Of(r.Patterns)]),
        For<SpotterPatterns>(p => [BiasPlot.Of(p)]),
        For<FairComparison>(c => [FunnelPlot.Of(c)]),
        For<MissChart>(c => [ControlChart.Of(c)]),
        For<LearningCurve>(c => [LearningPlot.Of(c)]),
        For<SpottingMargins>(m => [MarginPlot.Of(m.Radii)]),
        For<RadiusMargins>(m => [MarginPlot.Of(m)]),
        For<CostShift>(c => [CostPlot.Of(c)]),
        For<StickMargins>(s => [StickCurve.Of(s)]),
        For<ForecastAgeing>(a => [AgeGrowthPlot.Of(a)]),
        For<MissionDebrief>(d => MissionMap.Of(d)),
        For<BudgetSheet>(b => [BudgetBars.Of(b)]),
        For<WindsFound>(w => WindProfilePlot.Of(w)),
        For<ForecastReview>(r => [SourceShares.Of(r.Sources)]),
        For<ErrorDecomposition>(d => [SourceShares.Of(d)]),
    }.ToDictionary();

    /// <summary>Page and tables of a result ask for its figures one after the other.</summary>
    private static readonly ConditionalWeakTable<object, IReadOnlyList<Figure>> _drawn = [];

    /// <summary>The figures of a result; none when it has none, or is withheld.</summary>
    public static IReadOnlyList<Figure> Of(object result) =>
        result is ShownResult { Withheld: not null } or SeasonAccuracy { Log.Sharing: not null } or RateTable { Sharing: not null }
            ? [] : _figures.TryGetValue(result.GetType(), out var figures) ? _drawn.GetValue(result, r => figures(r)) : [];

    /// <summary>Writes any value of the library with its figures.</summary>
    public static void WriteHtml(object? value, TextWriter writer) => Showing.Of(value).WriteHtml(writer, value is null ? [] : Of(value));

    /// <summary>Tells the kernel of the results with figures, and how to show lists of the library's values.</summary>
    public static void Register()
    {
        foreach (var type in _figures.Keys)
        {
            Formatter.Register(type, WriteHtml, HtmlFormatter.MimeType);
            if (type.IsAssignableTo(typeof(ShownResult)))
                Formatter.Register(type, (value, writer) => writer.Write(((ShownResult)value).TablesAsJson(Of(value))),
                    ShownResult.TablesMimeType);
        }
        foreach (var type in typeof(ShownResult).Assembly.GetExportedTypes()
            .Where(t => t is { IsEnum: false, IsGenericType: false } && !(t.IsAbstract && t.IsSealed)))
        {
            var list = typeof(IEnumerable<>).MakeGenericType(type);
            Formatter.Register(list, WriteHtml, HtmlFormatter.MimeType);
            Formatter.Register(list, (value, writer) => writer.Write(Showing.Of(value).ToString()), PlainTextFormatter.MimeType);
        }
    }

    private static KeyValuePair<Type, Func<object, IReadOnlyList<Figure>>> For<T>(Func<T, IReadOnlyList<Figure>> figures) where T : class =>
        KeyValuePair.Create<Type, Func<object, IReadOnlyList<Figure>>>(typeof(T), value => figures((T)value));
}
