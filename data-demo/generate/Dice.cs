namespace JumpAnalytics.Demo;

/// <summary>xoshiro256** (Blackman and Vigna) seeded by splitmix64; normals by Box and Muller.</summary>
sealed class Dice
{
    private ulong _a, _b, _c, _d;
    private double? _spare;

    public Dice(ulong seed, ulong stream)
    {
        var state = seed * 1_000_003 + stream;
        _a = Next(); _b = Next(); _c = Next(); _d = Next();
        ulong Next()
        {
            var z = state += 0x9E3779B97F4A7C15;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }

    private ulong Bits()
    {
        var result = ulong.RotateLeft(_b * 5, 7) * 9;
        var t = _b << 17;
        _c ^= _a; _d ^= _b; _b ^= _c; _a ^= _d; _c ^= t;
        _d = ulong.RotateLeft(_d, 45);
        return result;
    }

    public double Share() => (Bits() >> 11) * (1.0 / (1UL << 53));
    public bool Chance(double p) => Share() < p;
    public int Below(int n) => (int)(Share() * n);
    public double Between(double low, double high) => low + (high - low) * Share();
    public T Of<T>(params T[] items) => items[Below(items.Length)];
    public double Weibull(double shape, double scale) => scale * Math.Pow(-Math.Log(1 - Share()), 1 / shape);

    public double Normal()
    {
        if (_spare is { } spare) { _spare = null; return spare; }
        var radius = Math.Sqrt(-2 * Math.Log(1 - Share()));
        var (sin, cos) = Math.SinCos(2 * Math.PI * Share());
        _spare = radius * sin;
        return radius * cos;
    }

    public T Weighted<T>(IEnumerable<(double Weight, T Item)> items)
    {
        var left = Share();
        foreach (var (weight, item) in items) if ((left -= weight) < 0) return item;
        return items.Last().Item;
    }

    public T[] Shuffled<T>(IEnumerable<T> items)
    {
        var all = items.ToArray();
        for (var i = all.Length - 1; i > 0; i--) { var j = Below(i + 1); (all[i], all[j]) = (all[j], all[i]); }
        return all;
    }
}
