using System.IO.Compression;
using System.Security;

namespace JumpAnalytics.Tests;

/// <summary>A workbook put together from its parts, to hold what a writing library would not write.</summary>
internal sealed class MadeWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006";

    private readonly List<(string Name, string Xml, string State)> _sheets = [];
    private readonly List<(string Name, byte[] Bytes)> _others = [];

    public bool Date1904 { get; init; }

    public string[] SharedStrings { get; init; } = [];

    /// <summary>A cell as XML: style 1 is a date and time, 2 a number with the word "day" in quotes, 3 a date.</summary>
    public static string Cell(string reference, string value, string type = "n", int style = 0, string formula = "") =>
        $"<c r=\"{reference}\" t=\"{type}\" "
        + $"s=\"{style}\">{(formula.Length > 0 ? $"<f>{formula}</f>" : "")}<v>{SecurityElement.Escape(value)}</v></c>";

    /// <summary>A row of texts from column A on; nothing is written for an empty one.</summary>
    public static string Texts(int row, params string[] texts) => Row(row, [.. texts.Select((t, i) => t.Length == 0 ? ""
        : $"<c r=\"{(char)('A' + i)}{row}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{SecurityElement.Escape(t)}</t></is></c>")]);

    public static string Row(int row, params string[] cells) => $"<row r=\"{row}\">{string.Concat(cells)}</row>";

    public MadeWorkbook With(string sheet, string rows, string after = "", string state = "visible")
    {
        _sheets.Add((sheet,
            $"<worksheet xmlns=\"{Main}\"><dimension ref=\"A1:XFD1048576\"/><sheetData>{rows}</sheetData>{after}</worksheet>", state));
        return this;
    }

    public MadeWorkbook WithPart(string name, byte[] bytes)
    {
        _others.Add((name, bytes));
        return this;
    }

    public byte[] ToBytes()
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Part(zip, "[Content_Types].xml", $"<Types xmlns=\"{Package}/content-types\"><Default Extension=\"rels\" "
                + "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default Extension=\"xml\" "
                + "ContentType=\"application/xml\"/>"
                + Kind("workbook", "sheet.main") + Kind("styles", "styles") + Kind("sharedStrings", "sharedStrings")
                + string.Concat(_sheets.Select((_, i) => Kind($"worksheets/sheet{i + 1}", "worksheet"))) + "</Types>");
            Part(zip, "_rels/.rels", Relations(("w", "officeDocument", "xl/workbook.xml")));
            Part(zip, "xl/workbook.xml", $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Office}\"><workbookPr "
                + $"date1904=\"{(Date1904 ? 1 : 0)}\"/><sheets>"
                + string.Concat(_sheets.Select((s, i) =>
                    $"<sheet name=\"{s.Name}\" sheetId=\"{i + 1}\" state=\"{s.State}\" r:id=\"s{i + 1}\"/>")) + "</sheets></workbook>");
            Part(zip, "xl/_rels/workbook.xml.rels", Relations([("f", "styles", "styles.xml"), ("t", "sharedStrings", "sharedStrings.xml"),
                .. _sheets.Select((_, i) => ($"s{i + 1}", "worksheet", $"worksheets/sheet{i + 1}.xml"))]));
            Part(zip, "xl/styles.xml", $"<styleSheet xmlns=\"{Main}\"><numFmts count=\"2\"><numFmt "
                + "numFmtId=\"164\" formatCode=\"[$-409]yyyy\\-mm\\-dd hh:mm\"/><numFmt numFmtId=\"165\" formatCode=\"0.0&quot; "
                + "yd a day&quot;\"/></numFmts><cellXfs count=\"4\"><xf numFmtId=\"0\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/><xf "
                + "numFmtId=\"14\"/></cellXfs></styleSheet>");
            Part(zip, "xl/sharedStrings.xml",
                $"<sst xmlns=\"{Main}\">" + string.Concat(SharedStrings.Select(s => $"<si>{s}</si>")) + "</sst>");
            for (var i = 0; i < _sheets.Count; i++) Part(zip, $"xl/worksheets/sheet{i + 1}.xml", _sheets[i].Xml);
            foreach (var (name, content) in _others)
            {
                using var part = zip.CreateEntry(name).Open();
                part.Write(content);
            }
        }
        return bytes.ToArray();

        static string Kind(string part, string type) => $"<Override PartName=\"/xl/{part}.xml\" "
            + $"ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.{type}+xml\"/>";

        static string Relations(params (string Id, string Type, string Target)[] all) =>
            $"<Relationships xmlns=\"{Package}/relationships\">"
                + string.Concat(all.Select(r => $"<Relationship Id=\"{r.Id}\" Type=\"{Office}/{r.Type}\" Target=\"{r.Target}\"/>"))
                + "</Relationships>";
    }

    private static void Part(ZipArchive zip, string name, string xml)
    {
        using var writer = new StreamWriter(zip.CreateEntry(name).Open());
        writer.Write(xml);
    }
}
