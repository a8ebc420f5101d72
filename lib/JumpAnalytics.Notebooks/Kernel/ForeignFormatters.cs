using Deedle;
using Microsoft.Data.Analysis;
using Microsoft.DotNet.Interactive.Formatting;
using Plotly.NET;

namespace JumpAnalytics;

/// <summary>
/// How a notebook shows the chart and frame types of other packages; without this a Deedle frame or series becomes
/// megabytes of object tree.
/// </summary>
internal static class ForeignFormatters
{
    public static void Register()
    {
        Formatter.Register<IFrame>((frame, writer) => Views.OfFrame(frame).WriteHtml(writer), HtmlFormatter.MimeType);
        Formatter.Register(typeof(Series<,>), (series, writer) => ((TableView)Views.OfSeries((dynamic)series)).WriteHtml(writer),
            HtmlFormatter.MimeType);
        Formatter.Register<DataFrame>((frame, writer) => Views.OfFrame(frame).WriteHtml(writer), HtmlFormatter.MimeType);
        Formatter.Register<GenericChart>((chart, writer) => Figure.WriteBare(writer, GenericChart.toFigureJson(chart)),
            HtmlFormatter.MimeType);
    }
}
