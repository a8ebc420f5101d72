using System.IO.Compression;

namespace JumpAnalytics;

/// <summary>
/// What a page needs once: the style of results and figures, and the chart library, packed, so that no network is needed.
/// </summary>
public sealed class PageAssets : ShownResult
{
    private const string ChartLibrary = "Plotly.NET.plotly-2.28.0.min.js";

    internal PageAssets()
    {
    }

    /// <inheritdoc/>
    public override string Reading =>
        $"JumpAnalytics {typeof(PageAssets).Assembly.GetName().Version!.ToString(3)} is ready. "
        + "Charts are drawn with plotly.js 2.28.0 (MIT licence, copyright Plotly, Inc.), contained in this page.";

    /// <inheritdoc/>
    public override void WriteHtml(TextWriter writer)
    {
        writer.Write($"<style>{Own("page.css")}</style>");
        writer.Write($"<!-- {Escape(Reading)} -->");
        writer.Write($"<script>window.jumpChartLibrary = window.jumpChartLibrary || '{PackedChartLibrary()}';\n{Own("page.js")}</script>");
    }

    private static string PackedChartLibrary()
    {
        var charts = typeof(Plotly.NET.GenericChart).Assembly;
        using var source = charts.GetManifestResourceStream(ChartLibrary)
            ?? throw new InvalidOperationException($"Plotly.NET {charts.GetName().Version} does not contain {ChartLibrary}.");
        using var packed = new MemoryStream();
        using (var zip = new GZipStream(packed, CompressionLevel.Optimal, leaveOpen: true)) source.CopyTo(zip);
        return Convert.ToBase64String(packed.ToArray());
    }

    private static string Own(string name)
    {
        using var reader = new StreamReader(typeof(PageAssets).Assembly.GetManifestResourceStream(name)!);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}
