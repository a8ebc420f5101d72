using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Log-likelihoods of readings against tests/reference/radial/readings.csv: mpmath 1.3.0 at 60 digits, mostly in other forms than the library's.</summary>
public sealed class RadialReadingsTests
{
    private static readonly Dictionary<string, Func<double, double, IRadialModel>> _models = new()
    {
        ["Rayleigh"] = (sd, _) => new RayleighDistance(sd),
        ["Rice"] = (bias, sd) => new RiceDistance(bias, sd),
        ["Hoyt"] = (larger, smaller) => new HoytDistance(larger, smaller),
        ["Weibull"] = (scale, shape) => new WeibullDistance(scale, shape),
        ["gamma"] = (mean, shape) => new GammaDistance(mean, shape),
        ["lognormal"] = (median, spread) => new LognormalDistance(median, spread),
    };

    /// <summary>Shares down to exp(-50000), rings down to 1e-9 of a distance: the logarithm to 1e-13 of itself, or of 1 where it is less.</summary>
    [Theory]
    [InlineData("Rayleigh", 76)]
    [InlineData("Rice", 228)]
    [InlineData("Hoyt", 228)]
    [InlineData("Weibull", 152)]
    [InlineData("gamma", 266)]
    [InlineData("lognormal", 114)]
    public void Readings(string name, int count)
    {
        var rows = ReferenceFiles.Rows("radial/readings.csv").Where(r => r["model"] == name).ToList();
        Assert.Equal(count, rows.Count);
        foreach (var row in rows)
        {
            var (low, high, expected) = (Number(row["low"]), Number(row["high"]), Number(row["log_likelihood"]));
            var model = _models[name](Number(row["first"]), Number(row["second"]));
            Assert.Equal(name, model.Name);
            var found = low == high ? model.LogDensity(low) : model.LogBetween(low, high);
            Close.Absolute(expected, found, 1e-13 * Math.Max(1, Math.Abs(expected)), $"{model}, {low:R} to {high:R}");
            if (low < high) Close.Absolute(Math.Exp(expected), model.ProbabilityBetween(low, high), 1e-13 * Math.Exp(expected) * Math.Max(1, Math.Abs(expected)), $"{model}, {low:R} to {high:R}");
        }
    }

    private static double Number(string text) => text == "inf" ? double.PositiveInfinity : double.Parse(text, CultureInfo.InvariantCulture);
}
