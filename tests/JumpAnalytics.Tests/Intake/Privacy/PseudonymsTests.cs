using System.Text;

namespace JumpAnalytics.Tests;

/// <summary>Keys, codes, and a log in which nobody's code is left.</summary>
public sealed class PseudonymsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("jump-key-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string At(string name) => Path.Combine(_folder, name);

    private PseudonymKey KeyOf(string text)
    {
        File.WriteAllText(At("key"), text);
        return PseudonymKey.Load(At("key"));
    }

    private static readonly string _hex = string.Concat(
        Enumerable.Range(0, 32).Select(i => (7 * i + 3).ToString("x2", System.Globalization.CultureInfo.InvariantCulture)[^2..]));

    [Fact]
    public void A_key_is_made_once_and_loads_as_the_same()
    {
        var made = PseudonymKey.Create(At("base.key"));
        Assert.Equal(new Pseudonyms(made).Of("J27"), new Pseudonyms(PseudonymKey.Load(At("base.key"))).Of("J27"));
        var before = File.ReadAllText(At("base.key"));
        Assert.Contains("never overwritten", Assert.Throws<IOException>(() => PseudonymKey.Create(At("base.key"))).Message,
            StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(At("base.key")));
        Assert.NotEqual(new Pseudonyms(made).Of("J27"), new Pseudonyms(PseudonymKey.Create(At("other.key"))).Of("J27"));
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(At("base.key")));
    }

    [Fact]
    public void Hexadecimal_and_base64_are_one_key()
    {
        var base64 = Convert.ToBase64String(Convert.FromHexString(_hex));
        Assert.Equal(new Pseudonyms(KeyOf(_hex)).Of("x"), new Pseudonyms(KeyOf(base64 + "\n")).Of("x"));
        Assert.Equal(new Pseudonyms(KeyOf(_hex)).Of("x"), new Pseudonyms(KeyOf("\uFEFF" + _hex.ToUpperInvariant() + "\r\n")).Of("x"));
    }

    [Theory]
    [InlineData("", "holds no key")]
    [InlineData("c2VjcmV0", "has 6 bytes")]
    [InlineData("00112233445566778899aabbccddeeff", "has 16 bytes")]
    [InlineData("0000000000000000000000000000000000000000000000000000000000000000", "not random")]
    [InlineData("abc", "holds no key")]
    [InlineData("my secret pass phrase, which is long enough for all", "holds no key")]
    public void A_file_without_a_key_is_told_and_not_quoted(string text, string message)
    {
        var error = Assert.Throws<FormatException>(() => KeyOf(text));
        Assert.Contains(message, error.Message, StringComparison.Ordinal);
        if (text.Length > 4) Assert.DoesNotContain(text, error.ToString(), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void A_file_that_is_not_there_or_too_long_is_told()
    {
        Assert.Contains("There is no key file 'none'", Assert.Throws<FormatException>(() => PseudonymKey.Load(At("none"))).Message,
            StringComparison.Ordinal);
        Assert.Contains("too long", Assert.Throws<FormatException>(() => KeyOf(new string('a', 5000))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_that_can_be_seen_of_a_key_is_the_key()
    {
        var key = KeyOf(_hex);
        Assert.Equal("pseudonym key (not shown)", key.ToString());
        Assert.Empty(typeof(PseudonymKey).GetProperties());
        Assert.Equal("{}", System.Text.Json.JsonSerializer.Serialize(key));
    }

    /// <summary>HMAC-SHA-256 by Python 3 (hmac, hashlib), its first 50 bits in the letters of the codes.</summary>
    [Theory]
    [InlineData("J27", "gbv46-6cg6w")]
    [InlineData("ÅSA BERG", "vfedn-67x6d")]
    public void The_code_is_the_hash_computed_elsewhere(string name, string code) =>
        Assert.Equal(code, new Pseudonyms(KeyOf(_hex)).Of(name));

    [Theory]
    [InlineData("j27", "J27")]
    [InlineData(" J27\t", "J27")]
    [InlineData("åsa   berg", "ÅSA BERG")]
    [InlineData("Åsa\u00A0Berg", "ÅSA BERG")]
    [InlineData("ｊ２７", "J27")]
    [InlineData("Nguyễn 田中", "NGUYỄN 田中")]
    public void Spellings_of_one_person_have_one_code(string spelling, string name)
    {
        Assert.Equal(name, PersonName.Normal(spelling));
        Assert.Equal(new Pseudonyms(KeyOf(_hex)).Of(name), new Pseudonyms(KeyOf(_hex)).Of(spelling));
    }

    [Fact]
    public void Other_people_have_other_codes() =>
        Assert.Equal(20_000, Enumerable.Range(0, 20_000).Select(i => $"J{i}").Select(new Pseudonyms(KeyOf(_hex)).Of).Distinct().Count());

    /// <summary>
    /// With Unicode's tables an accent written apart is the composed letter; without them, as here, the code would differ, and is refused.
    /// </summary>
    [Fact]
    public void A_letter_that_can_not_be_told_is_refused_and_not_quoted()
    {
        Assert.NotEqual("\u00E9", "e\u0301".Normalize(NormalizationForm.FormKC)); // the tests run as the library does
        Assert.Null(PersonName.TryNormal("e\u0301"));
        var message = Assert.Throws<NotSupportedException>(() => PersonName.Normal("Zoe\u0301")).Message;
        Assert.DoesNotContain("e\u0301", message, StringComparison.Ordinal);
        Assert.DoesNotContain("Zo", message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_code_shared_by_two_people_is_refused()
    {
        var pseudonyms = new Pseudonyms(KeyOf(_hex));
        Assert.Equal("abc", pseudonyms.Kept("abc", "X"));
        Assert.Equal("abc", pseudonyms.Kept("abc", "X"));
        var error = Assert.Throws<InvalidOperationException>(() => pseudonyms.Kept("abc", "SECRET"));
        Assert.DoesNotContain("SECRET", error.Message, StringComparison.Ordinal);
    }
}
