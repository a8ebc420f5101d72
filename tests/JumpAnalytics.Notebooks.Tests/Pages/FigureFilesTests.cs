using System.Xml.Linq;
using JumpAnalytics.Notebooks.Tests.Figures;

namespace JumpAnalytics.Notebooks.Tests.Pages;

/// <summary>Figures as files for slides; drawn by a browser where there is one.</summary>
public sealed class FigureFilesTests
{
    private static readonly Figure _figure = RateForest.Of(HandMadeLog.Season().Analyse().Rates);

    [Fact]
    public void An_svg_holds_the_drawing_its_title_and_its_words()
    {
        var file = Saved("rates.svg", width: 640);
        var svg = XDocument.Parse(File.ReadAllText(file)).Root!;
        XNamespace ns = "http://www.w3.org/2000/svg";
        Assert.Equal(ns + "svg", svg.Name);
        Assert.Equal(("640", "img"), ((string?)svg.Attribute("width"), (string?)svg.Attribute("role")));
        Assert.Equal(_figure.Title, svg.Element(ns + "title")!.Value);
        Assert.Equal(_figure.AlternativeText, svg.Element(ns + "desc")!.Value);
        Assert.Contains(svg.Descendants(ns + "text"), t => t.Value.Contains("landing rate", StringComparison.Ordinal));
        Assert.Contains(svg.Descendants(ns + "text"), t => t.Value == _figure.Title);
        Assert.True(svg.Descendants(ns + "path").Count() > 10);
    }

    [Fact]
    public void A_png_has_the_size_asked_for()
    {
        var bytes = File.ReadAllBytes(Saved("rates.png", width: 400, height: 300, scale: 2));
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], bytes[..4]);
        Assert.Equal((800, 600), (Whole(16), Whole(20)));

        int Whole(int at) => System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(at));
    }

    [Fact]
    public void Another_ending_is_refused() =>
        Assert.Contains("'rates.jpg' ends in neither .svg nor .png.",
            Assert.Throws<ArgumentException>(() => _figure.Save("rates.jpg")).Message);

    private static string Saved(string name, int width, int? height = null, double scale = 1)
    {
        if (Browser.Find() is null) Assert.Skip($"No Chromium, Chrome or Edge was found; install one, or name it in {Browser.Variable}.");
        var file = Path.Combine(Directory.CreateTempSubdirectory("jump-figure-").FullName, name);
        _figure.Save(file, width, height, scale);
        return file;
    }
}
