using System.Buffers;
using System.Security.Cryptography;

namespace JumpAnalytics;

/// <summary>
/// The secret of a base from which pseudonyms are made. Who has it can test whether a code belongs to a name: it stays at the base, and no
/// output, error or text of this library holds it. A lost key can't be made again, and codes made with another one don't match.
/// </summary>
[TypeFormatterSource]
public sealed class PseudonymKey
{
    /// <summary>Least bytes of a key: the length of the hash.</summary>
    private const int Least = HMACSHA256.HashSizeInBytes;

    /// <summary>Letters of a key file; a longer file is something else.</summary>
    private const int LongestFile = 4096;

    private readonly byte[] _secret;

    private PseudonymKey(byte[] secret) => _secret = secret;

    /// <summary>
    /// Makes a new key of 32 random bytes and writes it to a file as hexadecimal digits, readable by its owner alone
    /// where the system can say so.
    /// </summary>
    /// <param name="file">The file; it must not be there yet.</param>
    /// <exception cref="IOException">The file is already there (a key is never overwritten), or can't be written.</exception>
    public static PseudonymKey Create(string file)
    {
        var secret = RandomNumberGenerator.GetBytes(Least);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        if (File.Exists(file))
            throw new IOException($"{Path.GetFileName(file)} is already there; a key is never overwritten, since the codes made with it "
                + "could not be made again. Load it, or choose another name.");
        using var writer = new StreamWriter(file, options);
        writer.Write(Convert.ToHexStringLower(secret) + "\n");
        return new PseudonymKey(secret);
    }

    /// <summary>Reads a key from a file: 32 bytes or more, as hexadecimal digits or base64.</summary>
    /// <param name="file">The file.</param>
    /// <exception cref="FormatException">
    /// The file is not there, can't be read, or holds no key. The message names the file and never what is in it.
    /// </exception>
    public static PseudonymKey Load(string file)
    {
        var name = Path.GetFileName(file);
        if (!File.Exists(file))
            throw new FormatException($"There is no key file '{name}'. Make one with PseudonymKey.Create, once, and keep it.");
        string text;
        try
        {
            if (new FileInfo(file).Length > LongestFile) throw new FormatException($"'{name}' is too long for a key file.");
            text = File.ReadAllText(file).Trim();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new FormatException($"The key file '{name}' can't be read: {e.GetType().Name}.");
        }
        if (Bytes(text) is not { } secret)
            throw new FormatException(
                $"'{name}' holds no key: a key is hexadecimal digits (two for each byte) or base64, and nothing else.");
        if (secret.Length < Least)
            throw new FormatException($"The key in '{name}' has {secret.Length} bytes; "
                + $"at least {Least} are needed, so that it can't be guessed.");
        if (secret.Distinct().Count() < Least / 4)
            throw new FormatException($"The key in '{name}' repeats itself and is not random. Make one with PseudonymKey.Create.");
        return new PseudonymKey(secret);
    }

    /// <summary>Says that it is a key, and nothing of it.</summary>
    public override string ToString() => "pseudonym key (not shown)";

    internal byte[] Hash(ReadOnlySpan<byte> message) => HMACSHA256.HashData(_secret, message);

    private static byte[]? Bytes(string text)
    {
        var bytes = new byte[text.Length];
        if (text.Length > 0 && text.All(char.IsAsciiHexDigit))
            return Convert.FromHexString(text, bytes, out _, out var written) == OperationStatus.Done ? bytes[..written] : null;
        return Convert.TryFromBase64String(text, bytes, out var count) && count > 0 ? bytes[..count] : null;
    }
}
