using MathNet.Numerics.Distributions;

namespace JumpAnalytics.Tests;

/// <summary>
/// How often the interval of the counted rate holds the true rate, when missions differ. Missions have their own hit probability, drawn
/// from a beta distribution with the true rate as its mean and the given likeness; sticks are of 1 to 8 jumpers.
/// </summary>
public sealed class RateCoverageTests
{
    /// <summary>
    /// 4,000 seasons at each setting: for a true coverage of 0.94 or more the chance of counting less than 0.93 is below 5e-3 at a
    /// setting (a standard deviation is 0.0037), and below 3e-5 for one of 0.945. The seed is fixed.
    /// </summary>
    [Theory]
    [InlineData(30, 0.7, 0.1)]
    [InlineData(30, 0.7, 0.4)]
    [InlineData(30, 0.85, 0.1)]
    [InlineData(30, 0.85, 0.3)]
    [InlineData(60, 0.85, 0.3)]
    [InlineData(30, 0.5, 0.2)]
    public void A_95_percent_interval_covers_at_least_93(int missions, double rate, double likeness) =>
        Assert.InRange(Coverage(missions, rate, likeness, seasons: 4000), 0.93, 0.99);

    /// <summary>
    /// The same over a grid, 8,000 seasons at each of 36 settings. From 30 missions on: for a true coverage of 0.94 the chance of
    /// counting less than 0.93 is below 1e-4 each (a standard deviation is 0.0027). With fewer, the poorest setting (20 missions, a rate
    /// of 0.85, a likeness of 0.4) covers about 0.928, and less than 0.915 is counted with a chance below 1e-5. The seed is fixed.
    /// </summary>
    [Fact]
    [Trait("Category", "Long")]
    public void A_95_percent_interval_covers_over_a_grid_of_missions_rates_and_likeness()
    {
        var astray = new List<string>();
        foreach (var missions in new[] { 10, 20, 30, 60 })
        {
            foreach (var rate in new[] { 0.5, 0.7, 0.85 })
            {
                foreach (var likeness in new[] { 0.05, 0.2, 0.4 })
                {
                    var coverage = Coverage(missions, rate, likeness, seasons: 8000);
                    if (coverage < (missions < 30 ? 0.915 : 0.93) || coverage > 0.985)
                        astray.Add($"{missions} missions, rate {rate}, likeness {likeness}: {coverage}");
                }
            }
        }
        Assert.Empty(astray);
    }

    private static double Coverage(int missions, double rate, double likeness, int seasons)
    {
        var random = SeedStream.For(2031, $"{missions} {rate} {likeness}");
        var scale = (1 - likeness) / likeness;
        var (hits, landings) = (new int[missions], new int[missions]);
        var covered = 0;
        for (var s = 0; s < seasons; s++)
        {
            for (var m = 0; m < missions; m++)
            {
                landings[m] = random.Next(1, 9);
                hits[m] = Binomial.Sample(random, Beta.Sample(random, rate * scale, (1 - rate) * scale), landings[m]);
            }
            if (ClusteredProportion.Of(hits, landings, 0.95).Rate.Range!.Value.Contains(rate)) covered++;
        }
        return (double)covered / seasons;
    }
}
