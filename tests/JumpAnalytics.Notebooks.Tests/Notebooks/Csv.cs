using Microsoft.VisualBasic.FileIO;

namespace JumpAnalytics.Notebooks.Tests.Notebooks;

/// <summary>Reads a table file with a reader that is not the library's own.</summary>
internal static class Csv
{
    /// <summary>Header and rows; each row must have as many fields as the header.</summary>
    public static (string[] Header, List<Dictionary<string, string>> Rows) Read(string text)
    {
        using var parser =
            new TextFieldParser(new StringReader(text)) { Delimiters = [","], HasFieldsEnclosedInQuotes = true, TrimWhiteSpace = false };
        var header = parser.ReadFields()!;
        Assert.Equal(header.Length, header.Distinct().Count());
        var rows = new List<Dictionary<string, string>>();
        while (!parser.EndOfData)
        {
            var fields = parser.ReadFields()!;
            Assert.Equal(header.Length, fields.Length);
            rows.Add(header.Zip(fields).ToDictionary(pair => pair.First, pair => pair.Second));
        }
        return (header, rows);
    }
}
