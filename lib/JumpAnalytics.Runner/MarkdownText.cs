using Markdig;
using Markdig.Renderers;
using Markdig.Syntax;

namespace JumpAnalytics.Runner;

/// <summary>Markdown as the report reads it: with pipe tables, without raw HTML.</summary>
internal static class MarkdownText
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().UsePipeTables().DisableHtml().Build();

    public static MarkdownDocument Parse(string text) => Markdown.Parse(text, Pipeline);

    public static IEnumerable<HeadingBlock> Headings(string text) => Parse(text).Descendants<HeadingBlock>();

    public static string PlainText(this HeadingBlock heading)
    {
        using var writer = new StringWriter();
        var renderer = new HtmlRenderer(writer) { EnableHtmlForBlock = false, EnableHtmlForInline = false, EnableHtmlEscape = false };
        Pipeline.Setup(renderer);
        renderer.Render(heading);
        return writer.ToString().Trim();
    }

    /// <summary>The first sentence of the first paragraph, without markup; null when there is no paragraph.</summary>
    public static string? FirstSentence(string text)
    {
        if (Parse(text).Descendants<ParagraphBlock>().FirstOrDefault() is not { } paragraph) return null;
        var plain = Markdown.ToPlainText(text[paragraph.Span.Start..(paragraph.Span.End + 1)], Pipeline).ReplaceLineEndings(" ").Trim();
        var end = plain.AsSpan().IndexOfAny('.', '?');
        return end < 0 ? plain : plain[..(end + 1)];
    }

    public static string ToHtml(MarkdownDocument document) => document.ToHtml(Pipeline);
}
