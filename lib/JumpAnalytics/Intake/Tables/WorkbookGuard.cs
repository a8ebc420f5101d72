using System.IO.Compression;

namespace JumpAnalytics;

/// <summary>Looks at a workbook from outside before it is unpacked.</summary>
internal static class WorkbookGuard
{
    /// <summary>Bytes of all parts unpacked.</summary>
    private const long LargestUnpacked = 512L << 20;

    /// <summary>Unpacked over packed size of one part; what the compression can reach at all is about 1,030.</summary>
    private const long LargestRatio = 200;

    /// <summary>Bytes unpacked below which a part may be as dense as it likes.</summary>
    private const long SmallPart = 4 << 20;

    /// <summary>Bytes with which an Office file begins when it is encrypted, and an old .xls always.</summary>
    private static ReadOnlySpan<byte> CompoundFile => [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1];

    /// <exception cref="LogFormatException">It is encrypted, no workbook, damaged, or unpacks to more than any log.</exception>
    public static void Check(Stream stream, string file)
    {
        Span<byte> start = stackalloc byte[8];
        start = start[..stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)];
        if (start.SequenceEqual(CompoundFile))
            throw new LogFormatException($"{file} is encrypted or an old Excel file (.xls). Take the password off and save it as .xlsx.");
        if (!start.StartsWith("PK"u8))
            throw new LogFormatException($"{file} is not a workbook although its name says so. "
                + "Save it as .xlsx, or give it the ending of what it is.");
        stream.Position = 0;
        using var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
        if (archive.Entries.Sum(e => e.Length) > LargestUnpacked
            || archive.Entries.Any(e => e.Length > SmallPart && e.Length > LargestRatio * e.CompressedLength))
            throw new LogFormatException($"{file} unpacks to far more than a log can hold and was not opened. "
                + "Save its sheet of drops or landings as CSV UTF-8.");
        stream.Position = 0;
    }
}
