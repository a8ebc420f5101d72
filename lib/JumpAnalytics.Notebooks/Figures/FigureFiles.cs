using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace JumpAnalytics;

/// <summary>Figures as files for slides and papers.</summary>
public static partial class FigureFiles
{
    /// <summary>
    /// Saves a figure as SVG or PNG, as the ending of the file says, drawn by the browser of this machine. The title stands above it; an
    /// SVG carries title and alternative text.
    /// </summary>
    /// <param name="figure">The figure.</param>
    /// <param name="file">Where to; the ending is <c>.svg</c> or <c>.png</c>.</param>
    /// <param name="width">Width in pixels.</param>
    /// <param name="height">Height in pixels; that of the figure when left out.</param>
    /// <param name="scale">Dots for each pixel of a PNG.</param>
    /// <exception cref="ArgumentException">The ending is another.</exception>
    /// <exception cref="FileNotFoundException">No browser was found; the message says what to install.</exception>
    /// <exception cref="IOException">The browser did not draw it.</exception>
    public static void Save(this Figure figure, string file, int width = 900, int? height = null, double scale = 2)
    {
        var format = Path.GetExtension(file).ToLowerInvariant() is ".svg" or ".png" ? Path.GetExtension(file)[1..].ToLowerInvariant()
            : throw new ArgumentException($"'{Path.GetFileName(file)}' ends in neither .svg nor .png.", nameof(file));
        var picture = Draw(figure, format, width, height, scale);
        if (format == "png") File.WriteAllBytes(file, Convert.FromBase64String(picture));
        else File.WriteAllText(file, WithWords(Uri.UnescapeDataString(picture), figure));
    }

    private static string Draw(Figure figure, string format, int width, int? height, double scale)
    {
        var json = JsonNode.Parse(figure.Json)!;
        var layout = json["layout"]!.AsObject();
        layout["title"] = new JsonObject { ["text"] = ShownResult.Escape(figure.Title), ["x"] = 0, ["xanchor"] = "left", ["xref"] = "paper",
            ["yref"] = "container", ["y"] = 0.985, ["yanchor"] = "top" };
        var margin = layout["margin"]!.AsObject();
        margin["t"] = (double)margin["t"]! + 60; // the legend stands above the plot, the title above the legend
        var page = Path.Combine(Path.GetTempPath(), $"jump-figure-{Guid.NewGuid():N}.html");
        try
        {
            using (var writer = new StreamWriter(page))
            {
                writer.Write("<!doctype html><meta charset=\"utf-8\"><body>");
                new PageAssets().WriteHtml(writer);
                writer.Write("<script type=\"application/json\" "
                    + $"id=\"figure\">{json.ToJsonString().Replace("<", "\\u003c", StringComparison.Ordinal)}</script>");
                writer.Write($$"""
                    <script>
                    window.jumpLibrary().then(async plotly => {
                      const figure = JSON.parse(document.getElementById('figure').textContent);
                      const url = await plotly.toImage(figure, {
                        format: '{{format}}', width: {{width}}, height: {{height ?? 60 + (int?)(double?)layout["height"] ?? 500}},
                        scale: {{(format == "svg" ? 1 : scale).ToString(System.Globalization.CultureInfo.InvariantCulture)}} });
                      document.body.innerHTML = '<pre id="picture"></pre>';
                      document.getElementById('picture').textContent = url.slice(url.indexOf(',') + 1);
                    });
                    </script>
                    """);
            }
            return Picture().Match(Browser.Document(page)) is { Success: true } found ? found.Groups["data"].Value
                : throw new IOException($"The browser did not draw '{figure.Title}'.");
        }
        finally
        {
            File.Delete(page);
        }
    }

    private static string WithWords(string svg, Figure figure)
    {
        var end = svg.IndexOf('>', StringComparison.Ordinal) + 1;
        return $"{svg[..(end - 1)]} role=\"img\"><title>{ShownResult.Escape(figure.Title)}</title><desc>"
            + $"{ShownResult.Escape(figure.AlternativeText)}</desc>{svg[end..]}\n";
    }

    [GeneratedRegex("<pre id=\"picture\">(?<data>[^<]+)</pre>")]
    private static partial Regex Picture();
}
