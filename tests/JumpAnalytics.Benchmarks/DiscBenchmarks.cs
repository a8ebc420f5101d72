using BenchmarkDotNet.Attributes;

namespace JumpAnalytics.Benchmarks;

/// <summary>Probabilities of a circle and radii that hold a probability: time of one, over the same 1,000 cases each time.</summary>
public class DiscBenchmarks
{
    private const int Cases = 1000;
    private const int Seed = 7;

    // Metres: larger sigma 20 to 80, radius 0.3 to 3 of it.
    private static readonly Case[] _ordinary = Make(leastRatio: 0.3, offset: 2, turned: true);
    private static readonly Case[] _uncorrelated = Make(leastRatio: 0.3, offset: 2, turned: false);
    private static readonly Case[] _centred = Make(leastRatio: 0.3, offset: 0, turned: true);
    private static readonly Case[] _round = Make(leastRatio: 1, offset: 2, turned: false);
    private static readonly Case[] _far = Make(leastRatio: 0.3, offset: 6, turned: true);
    private static readonly Case[] _narrow = Make(leastRatio: 0.01, offset: 2, turned: true, greatestRatio: 0.03);

    [Benchmark(OperationsPerInvoke = Cases, Baseline = true)]
    public double InsideOrdinary() => Inside(_ordinary);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double InsideUncorrelated() => Inside(_uncorrelated);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double InsideCentred() => Inside(_centred);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double InsideEqualVariance() => Inside(_round);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double InsideFarOffset() => Inside(_far);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double InsideNarrow() => Inside(_narrow);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double OutsideOrdinary()
    {
        var sum = 0.0;
        foreach (var c in _ordinary)
            sum += DiscProbability.Outside(c.Radius, c.Mean1, c.Mean2, c.Variance1, c.Variance2, c.Covariance);
        return sum;
    }

    [Benchmark(OperationsPerInvoke = Cases)]
    public double RadiusOf50() => Radius(0.5);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double RadiusOf90() => Radius(0.9);

    [Benchmark(OperationsPerInvoke = Cases)]
    public double RadiusOf99() => Radius(0.99);

    private static double Inside(Case[] cases)
    {
        var sum = 0.0;
        foreach (var c in cases)
            sum += DiscProbability.Inside(c.Radius, c.Mean1, c.Mean2, c.Variance1, c.Variance2, c.Covariance);
        return sum;
    }

    private static double Radius(double probability)
    {
        var sum = 0.0;
        foreach (var c in _ordinary)
            sum += DiscProbability.Radius(probability, c.Mean1, c.Mean2, c.Variance1, c.Variance2, c.Covariance);
        return sum;
    }

    private static Case[] Make(double leastRatio, double offset, bool turned, double greatestRatio = 1)
    {
        var random = new Random(Seed);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        return [.. Enumerable.Range(0, Cases).Select(_ =>
        {
            var sigma = Between(20, 80);
            double major = sigma * sigma, minor = major * Math.Pow(Between(leastRatio, greatestRatio), 2);
            var (sin, cos) = Math.SinCos(turned ? Between(0, Math.PI) : 0);
            var (across, along) = Math.SinCos(Between(0, Math.Tau));
            var distance = sigma * Between(0, offset);
            return new Case(
                sigma * Between(0.3, 3),
                distance * along,
                distance * across,
                cos * cos * major + sin * sin * minor,
                sin * sin * major + cos * cos * minor,
                sin * cos * (major - minor));
        })];
    }

    private readonly record struct Case(
        double Radius, double Mean1, double Mean2, double Variance1, double Variance2, double Covariance);
}
