using System.Globalization;
using System.Numerics;
using System.Runtime.CompilerServices;

namespace JumpAnalytics.Statistics;

/// <summary>
/// Checks of arguments. Each returns the argument or throws an <see cref="ArgumentOutOfRangeException"/> that says what was found, what was
/// expected, and, where that helps, a value to try. A NaN passes none.
/// </summary>
internal static class Guard
{
    /// <summary>A share above 0 and below 1.</summary>
    public static double Share(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value is > 0 and < 1 ? value : throw Refused(name, value, "above 0 and below 1, for instance 0.9");

    /// <summary>The coverage of an interval, above 0 and below 1.</summary>
    public static double Confidence(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value is > 0 and < 1 ? value : throw Refused(name, value, "above 0 and below 1, for instance 0.95");

    /// <summary>A probability from 0 to 1, both included.</summary>
    public static double Probability(double value, [CallerArgumentExpression(nameof(value))] string name = "") => Within(value, 0, 1, name);

    /// <summary>A finite number.</summary>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) ? value : throw Refused(name, value, "a finite number");

    /// <summary>A finite number above zero.</summary>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value > 0 && double.IsFinite(value) ? value : throw Refused(name, value, "a finite number above zero");

    /// <summary>A finite number of zero or more.</summary>
    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= 0 && double.IsFinite(value) ? value : throw Refused(name, value, "a finite number of zero or more");

    /// <summary>A number not below another; it may be infinite.</summary>
    public static T AtLeast<T>(T value, T least, [CallerArgumentExpression(nameof(value))] string name = "") where T : INumber<T> =>
        value >= least ? value : throw Refused(name, value, $"{Text(least)} or more");

    /// <summary>A number above another; it may be infinite.</summary>
    public static T Above<T>(T value, T bound, [CallerArgumentExpression(nameof(value))] string name = "") where T : INumber<T> =>
        value > bound ? value : throw Refused(name, value, $"above {Text(bound)}");

    /// <summary>A number from one to another, both included.</summary>
    public static T Within<T>(T value, T low, T high, [CallerArgumentExpression(nameof(value))] string name = "") where T : INumber<T> =>
        value >= low && value <= high ? value : throw Refused(name, value, $"from {Text(low)} to {Text(high)}");

    /// <summary>One of the values of an enumeration.</summary>
    public static T Defined<T>(T value, [CallerArgumentExpression(nameof(value))] string name = "") where T : struct, Enum =>
        Enum.IsDefined(value) ? value : throw Refused(name, value, $"one of {string.Join(", ", Enum.GetNames<T>())}");

    /// <summary>What is thrown for an argument.</summary>
    public static ArgumentOutOfRangeException Refused<T>(string name, T value, string expected) where T : notnull =>
        new(name, value, $"{name} is {Text(value)}; it must be {expected}.");

    private static string Text<T>(T value) where T : notnull => value switch
    {
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        IFormattable plain => plain.ToString(null, CultureInfo.InvariantCulture),
        _ => $"{value}",
    };
}
