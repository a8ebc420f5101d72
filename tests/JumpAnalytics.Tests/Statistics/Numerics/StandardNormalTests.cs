namespace JumpAnalytics.Tests;

public sealed class StandardNormalTests
{
    /// <summary>The fast filling against the plain pairs on the same uniform draws, for lengths that leave lanes over.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(14)]
    [InlineData(64)]
    [InlineData(2306)]
    public void Filling_is_what_pairs_give(int length)
    {
        var values = new double[length];
        StandardNormal.Fill(new Random(length), values);
        var uniform = new Random(length);
        var draws = Enumerable.Range(0, length).Select(_ => uniform.NextDouble()).ToArray();
        for (var i = 0; i < length / 2; i++)
        {
            var (first, second) = StandardNormal.Pair(new Two(draws[i], draws[length / 2 + i]));
            Close.Absolute(first, values[i], 2e-15 * (1 + Math.Abs(first)));
            Close.Absolute(second, values[length / 2 + i], 2e-15 * (1 + Math.Abs(second)));
        }
    }

    private sealed class Two(double first, double second) : Random
    {
        private int _asked;

        public override double NextDouble() => _asked++ == 0 ? first : second;
    }
}
