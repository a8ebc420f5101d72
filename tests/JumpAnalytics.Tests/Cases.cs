using System.Globalization;
using CsCheck;

namespace JumpAnalytics.Tests;

/// <summary>
/// Generated cases that are the same in every run. CsCheck's own Sample fixes only the first case by its seed; here every
/// case comes from one stream, and a failure names the state that reproduces its case.
/// </summary>
internal static class Cases
{
    public static void Each<T>(Gen<T> generator, int count, ulong seed, Action<T> check)
    {
        var random = new PCG(101, seed);
        for (var i = 0; i < count; i++)
        {
            var state = random.ToString();
            var value = generator.Generate(random, null, out _);
            try
            {
                check(value);
            }
            catch (Exception e)
            {
                throw new InvalidOperationException($"Case {i.ToString(CultureInfo.InvariantCulture)} (CsCheck seed \"{state}\"): "
                    + $"{(value is System.Collections.IEnumerable many ? string.Join("; ", many.Cast<object>()) : value)}", e);
            }
        }
    }
}

/// <summary>Assertions with a stated tolerance.</summary>
internal static class Close
{
    public static void Relative(double expected, double actual, double tolerance, string what = "")
    {
        if (!(Math.Abs(actual - expected) <= tolerance * Math.Abs(expected)))
            Assert.Fail(string.Create(CultureInfo.InvariantCulture,
                $"{what}: expected {expected:R}, found {actual:R}, tolerance {tolerance:R} relative."));
    }

    public static void Absolute(double expected, double actual, double tolerance, string what = "")
    {
        if (!(Math.Abs(actual - expected) <= tolerance))
            Assert.Fail(string.Create(CultureInfo.InvariantCulture,
                $"{what}: expected {expected:R}, found {actual:R}, tolerance {tolerance:R}."));
    }

    public static void Absolute(LocalVector expected, LocalVector actual, double tolerance, string what = "")
    {
        Absolute(expected.East, actual.East, tolerance, what + " east");
        Absolute(expected.North, actual.North, tolerance, what + " north");
    }
}
