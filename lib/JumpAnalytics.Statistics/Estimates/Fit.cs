using System.Diagnostics.CodeAnalysis;

namespace JumpAnalytics.Statistics;

/// <summary>What a fit came to: a value, or the reason why it could not be made. Never a NaN.</summary>
/// <typeparam name="T">What was to be fitted.</typeparam>
[TypeFormatterSource]
public sealed record Fit<T> : IAnyFit where T : class
{
    object? IAnyFit.Made => Value;

    private Fit(T? value, string? reason) => (Value, Reason) = (value, reason);

    /// <summary>What was fitted; null when it could not be.</summary>
    public T? Value { get; }

    /// <summary>Why it could not be fitted; null when it could.</summary>
    public string? Reason { get; }

    /// <summary>Whether there is a value.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Reason))]
    public bool Success => Value is not null;

    /// <summary>The value in words, or the reason why there is none.</summary>
    public override string ToString() => Success ? Value.ToString()! : $"not to be had: {Reason}";

    internal static Fit<T> Made(T value) => new(value, null);

    internal static Fit<T> Refused(string reason) => new(null, reason);
}

/// <summary>A fit whose type is not known.</summary>
internal interface IAnyFit
{
    /// <summary>What was fitted; null when it could not be.</summary>
    object? Made { get; }

    /// <summary>Why it could not be fitted; null when it could.</summary>
    string? Reason { get; }
}
