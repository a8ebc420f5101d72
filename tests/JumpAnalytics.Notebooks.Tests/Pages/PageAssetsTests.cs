using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using JumpAnalytics.Notebooks.Tests.Figures;

namespace JumpAnalytics.Notebooks.Tests.Pages;

public class PageAssetsTests
{
    private static readonly string Html = new PageAssets().Html();

    [Fact]
    public void The_packed_chart_library_is_the_one_of_the_chart_package()
    {
        var packed = Regex.Match(Html, "jumpChartLibrary \\|\\| '([A-Za-z0-9+/=]+)'").Groups[1].Value;
        using var zip = new GZipStream(new MemoryStream(Convert.FromBase64String(packed)), CompressionMode.Decompress);
        using var unpacked = new MemoryStream();
        zip.CopyTo(unpacked);

        using var source = typeof(Plotly.NET.GenericChart).Assembly.GetManifestResourceStream("Plotly.NET.plotly-2.28.0.min.js")!;
        Assert.Equal(source.Length, unpacked.Length);
        Assert.Equal(SHA256.HashData(source), SHA256.HashData(unpacked.ToArray()));
        Assert.StartsWith("/**\n* plotly.js v2.28.0\n", Encoding.UTF8.GetString(unpacked.GetBuffer(), 0, 64)); // banner of the release
    }

    [Fact]
    public void The_page_gets_style_note_and_script_and_no_address()
    {
        Assert.Contains(".ja-figure", Regex.Match(Html, "<style>(.*?)</style>", RegexOptions.Singleline).Groups[1].Value);
        Assert.Contains("MIT licence, copyright Plotly, Inc.", Html);
        Assert.Equal(1, Regex.Count(Html, "<script"));
        Assert.Equal(1, Regex.Count(Html, "</script"));
        // Comments apart, nothing with two slashes outside the packed library.
        var rest = Regex.Replace(Regex.Replace(Html, "'[A-Za-z0-9+/=]{1000,}'", ""), @"^\s*// .*$", "", RegexOptions.Multiline);
        Assert.DoesNotContain("//", rest);
        Assert.DoesNotMatch(@"\bsrc=|\bhref=|@import|url\(|fetch\(|XMLHttpRequest", rest);
    }

    [Fact]
    public void It_is_the_same_each_time_and_carries_no_table()
    {
        Assert.Equal(Html, new PageAssets().Html());
        Assert.Equal("{\"tables\":[]}", new PageAssets().TablesAsJson());
    }
}
