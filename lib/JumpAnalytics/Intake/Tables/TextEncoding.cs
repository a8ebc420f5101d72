using System.Buffers;
using System.Text;

namespace JumpAnalytics;

/// <summary>The encoding of a text file, told from its bytes.</summary>
internal static class TextEncoding
{
    /// <summary>
    /// UTF-8 when the bytes are UTF-8. When they are not: Windows-1252, the encoding of western spreadsheets, if no letter beyond ASCII is
    /// UTF-8 and none is one that Windows-1252 leaves undefined; else UTF-8 with its damaged letters marked. A byte-order mark overrides.
    /// </summary>
    /// <param name="stream">The file; left at its start.</param>
    public static (Encoding Encoding, string? Remark) Of(Stream stream)
    {
        var (first, second) = (stream.ReadByte(), stream.ReadByte());
        stream.Position = 0;
        if ((first, second) is (0xFF, 0xFE) or (0xFE, 0xFF)) return (Encoding.UTF8, null);
        var (valid, invalid, undefined) = Survey(stream);
        stream.Position = 0;
        return invalid == 0 || valid > 0 || undefined
            ? (Encoding.UTF8, null)
            : (CodePagesEncodingProvider.Instance.GetEncoding(1252)!,
                "not UTF-8, so it was read as Windows-1252; check names with accents");
    }

    /// <summary>Counts the letters beyond ASCII that are UTF-8 and the bytes that are not.</summary>
    private static (long Valid, long Invalid, bool Undefined) Survey(Stream stream)
    {
        var (valid, invalid, undefined, kept) = (0L, 0L, false, 0);
        var buffer = new byte[1 << 16];
        while (true)
        {
            var read = stream.Read(buffer, kept, buffer.Length - kept);
            var rest = buffer.AsSpan(0, kept + read);
            while (rest.IndexOfAnyExceptInRange((byte)0, (byte)127) is var at and >= 0)
            {
                rest = rest[at..];
                var status = Rune.DecodeFromUtf8(rest, out _, out var length);
                if (status == OperationStatus.NeedMoreData && read > 0) break;
                if (status == OperationStatus.Done)
                {
                    valid++;
                }
                else
                {
                    invalid++;
                    undefined |= rest[0] is 0x81 or 0x8D or 0x8F or 0x90 or 0x9D;
                }
                rest = rest[length..];
            }
            if (read == 0) return (valid, invalid, undefined);
            kept = rest.IndexOfAnyExceptInRange((byte)0, (byte)127) < 0 ? 0 : rest.Length;
            rest[..kept].CopyTo(buffer);
        }
    }
}
