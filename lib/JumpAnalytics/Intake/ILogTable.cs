using System.Collections.Frozen;

namespace JumpAnalytics;

/// <summary>
/// A table as a file format yields it: headers, and rows of text with their place. Nothing is interpreted here, so that what is refused
/// later can be quoted as it was written.
/// </summary>
internal interface ILogTable
{
    /// <summary>File name without its folder, and the sheet where a file has several.</summary>
    string Name { get; }

    /// <summary>The headers, trimmed.</summary>
    IReadOnlyList<string> Header { get; }

    /// <summary>What a reader should know of how the file was read: encoding, sheet, merged headers.</summary>
    IReadOnlyList<string> Remarks { get; }

    /// <summary>The rows below the header, streamed; blank ones too.</summary>
    IEnumerable<RawRow> Rows();
}

/// <summary>One row as it was read: text and place, nothing interpreted.</summary>
/// <param name="Source">File and line on which the row begins.</param>
/// <param name="LastLine">Line on which it ends; a quoted field may hold line breaks.</param>
/// <param name="Fields">The fields without their quotes.</param>
/// <param name="QuoteTrouble">How the quotes of the row are wrong, so that fields or lines ran together; null when they are right.</param>
internal sealed record RawRow(RowSource Source, int LastLine, string[] Fields, string? QuoteTrouble)
{
    /// <summary>Columns, counted from 0, whose decimals are written with a comma.</summary>
    public IReadOnlySet<int> DecimalCommas { get; init; } = FrozenSet<int>.Empty;

    /// <summary>Fields in which a number such as 1.234 is not read, because its point may part thousands.</summary>
    public IReadOnlySet<int> UnreadPoints { get; init; } = FrozenSet<int>.Empty;

    /// <summary>Whether the spreadsheet counts days from 1904 and not from 1900.</summary>
    public bool From1904 { get; init; }

    public const string OpenQuote = "a quote opens and does not close";
    public const string StrayQuote = "a quote opens or closes in the middle of a field";

    /// <summary>What stands in place of bytes that are not UTF-8.</summary>
    public const char Undecoded = '\uFFFD';

    /// <summary>Whether the fields come from a repaired ledger and stand in place of those of the file.</summary>
    public bool IsRepair { get; init; }

    public bool IsBlank => Array.TrueForAll(Fields, string.IsNullOrWhiteSpace);
}
