namespace JumpAnalytics.Tests;

public sealed class HalvesSortTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(49_999)]
    [InlineData(50_000)]
    [InlineData(100_001)]
    public void Sorts_as_one_core_does(int length)
    {
        var random = new Random(length);
        var values = Enumerable.Range(0, length).Select(_ => Math.Round(1000 * random.NextDouble())).ToArray(); // with ties
        var expected = values.Order().ToArray();
        HalvesSort.Sort(values);
        Assert.Equal(expected, values);
    }

    [Fact]
    public void Halves_that_do_not_overlap_are_merged_either_way()
    {
        var rising = Enumerable.Range(0, 60_000).Select(i => (double)i).ToArray();
        foreach (var values in new[] { rising.ToArray(), [.. rising.Reverse()], [.. rising.Skip(30_000), .. rising.Take(30_000)] })
        {
            HalvesSort.Sort(values);
            Assert.Equal(rising, values);
        }
    }
}
