using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace JumpAnalytics;

/// <summary>Writes a proposal as the text of a map: what is sure or likely as entries, the rest as comments.</summary>
internal static class MapProposalJson
{
    private static readonly JsonSerializerOptions _readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Of(IReadOnlyList<ColumnProposal> proposals)
    {
        var text = new StringBuilder("{\n  // Proposed from the headers and values; check every line. Where a ? "
            + "stands, put what is meant: the map is refused until then.\n  \"columns\": {\n");
        foreach (var header in proposals.Where(p => !p.IsOwn && p.Target is not null)
            .GroupBy(p => p.Header.Trim(), StringComparer.OrdinalIgnoreCase))
        {
            foreach (var p in header) text.Append(
                $"    // {p.Words}: {Quoted(p.Header)} of {Plain(p.File)}: {Plain(p.Values)}{Also(p.UnderEachUnit)}{Also(p.Note)}\n");
            var used = header.Where(p => p.Sureness >= Sureness.Likely).Select(p => p.Target!).Distinct().ToList();
            var targets = used.Count > 0 ? used : header.Select(p => p.Target!).Distinct().ToList();
            text.Append($"    {(used.Count > 0 ? "" : "// ")}{Quoted(header.Key)}: "
                + $"{(targets is [var one] ? Quoted(one) : $"[{string.Join(", ", targets.Select(Quoted))}]")},\n");
        }
        text.Append("  },\n  \"values\": {\n");
        foreach (var codes in proposals.Where(p => p.OpenCodes.Count > 0 && p.Sureness >= Sureness.Likely).GroupBy(p => p.Column!.Name))
        {
            var open = codes.SelectMany(p => p.OpenCodes).Distinct(StringComparer.OrdinalIgnoreCase);
            text.Append($"    {Quoted(codes.Key)}: {{ "
                + $"{string.Join(", ", open.Select(c => $"{Quoted(c)}: \"{ColumnMapReader.Open}\""))} }},\n");
        }
        text.Append("  },\n");
        var left = proposals.Where(p => p.Target is null).Select(p => Quoted(p.Header)).Distinct().ToList();
        if (left.Count > 0) text.Append($"  // without a match: {string.Join(", ", left)}\n");
        if (proposals.Any(p => p.IsOrderOpen && p.Sureness >= Sureness.Likely))
            text.Append($"  // month first, or day first\n  \"dates\": \"{ColumnMapReader.Open}\",\n");
        return text.Append("  \"ignore\": [],\n}\n").ToString();
    }

    private static string Also(string? text) => text is null ? "" : "; " + Plain(text);

    private static string Quoted(string text) => JsonSerializer.Serialize(text, _readable);

    /// <summary>A text for a comment, which ends with its line.</summary>
    private static string Plain(string text) => string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c));
}
