using System.Text;

namespace JumpAnalytics;

/// <summary>
/// Codes in place of people: HMAC-SHA-256 of the person's normal name under the key of the base, cut to 50 bits and written as ten letters
/// (<c>h3xkt-9wq2m</c>). A person has one code whatever the role, so that a spotter who also jumps stays one. That two of n people share a
/// code has a probability of about n² / 2⁵¹ (for 1,000 people 4·10⁻¹⁰); within a log it is found and refused.
/// </summary>
internal sealed class Pseudonyms(PseudonymKey key)
{
    /// <summary>Thirty-two letters without those that are easily taken for another (l, o, 0, 1).</summary>
    private const string Letters = "abcdefghijkmnpqrstuvwxyz23456789";

    /// <summary>Parts these hashes from any other use of the key, and this way of making them from a later one.</summary>
    private const string Purpose = "JumpAnalytics person 1\n";

    private readonly Dictionary<string, string> _nameOf = [];

    /// <exception cref="InvalidOperationException">Another person of the log has the same code; neither is named.</exception>
    public string Of(string name)
    {
        var normal = PersonName.Normal(name);
        var code = Written(key.Hash(Encoding.UTF8.GetBytes(Purpose + normal)));
        return Kept(code, normal);
    }

    /// <summary>Keeps who has a code, and refuses a second one.</summary>
    internal string Kept(string code, string normal) => _nameOf.TryAdd(code, normal) || _nameOf[code] == normal ? code
        : throw new InvalidOperationException("Two people of this log get the same pseudonym, which happens about once in a thousand "
            + "million logs. Make a key for this log alone, and don't compare its codes with others.");

    private static string Written(byte[] hash)
    {
        var bits = System.Buffers.Binary.BinaryPrimitives.ReadUInt64BigEndian(hash) >> 14; // the first 50
        var code = new char[11];
        for (var i = 10; i >= 0; i--)
        {
            code[i] = i == 5 ? '-' : Letters[(int)(bits & 31)];
            if (i != 5) bits >>= 5;
        }
        return new string(code);
    }
}
