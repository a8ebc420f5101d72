namespace JumpAnalytics.Tests.Worlds;

/// <summary>Random numbers of a world: SplitMix64 by Steele, Lea and Flood (2014), the same on every machine.</summary>
internal sealed class Dice(ulong seed)
{
    private ulong _state = seed * 0xD1B54A32D192ED03UL;

    /// <summary>Above 0 and below 1.</summary>
    public double Share()
    {
        _state += 0x9E3779B97F4A7C15UL;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return (((z ^ (z >> 31)) >> 11) + 0.5) / (1UL << 53);
    }

    /// <summary>A whole number from zero, below <paramref name="count"/>.</summary>
    public int Below(int count) => (int)(Share() * count);

    /// <summary>A standard normal (Box and Muller, 1958).</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(Share())) * Math.Cos(2 * Math.PI * Share());

    /// <summary>A gamma of scale 1 (Marsaglia and Tsang, 2000).</summary>
    /// <param name="shape">1 or more.</param>
    public double Gamma(double shape)
    {
        var d = shape - (1.0 / 3);
        var c = 1 / Math.Sqrt(9 * d);
        while (true)
        {
            var x = Normal();
            var v = Math.Pow(1 + (c * x), 3);
            if (v > 0 && Math.Log(Share()) < (x * x / 2) + d - (d * v) + (d * Math.Log(v))) return d * v;
        }
    }
}
