using System.Text;
using nietras.SeparatedValues;

namespace JumpAnalytics;

/// <summary>Writes a table as CSV: UTF-8 without a mark, commas, quotes where they are needed.</summary>
internal static class CsvWriting
{
    public static void Write(string path, WrittenTable table)
    {
        using var text = new StreamWriter(new FileStream(path, FileMode.CreateNew), new UTF8Encoding(false)) { NewLine = "\n" };
        using var writer = new Sep(',').Writer(o => o with { Escape = true }).To(text);
        foreach (var values in table.Rows)
        {
            using var row = writer.NewRow();
            for (var i = 0; i < values.Length; i++)
                row[table.Columns[i].Header].Set(values[i] is string s ? SpreadsheetText.Guard(s) : CellText.Of(values[i]));
        }
        if (table.Rows.Count > 0) return;
        writer.Header.Add([.. table.Columns.Select(c => c.Header)]);
        writer.Header.Write();
    }
}
