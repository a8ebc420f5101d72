namespace JumpAnalytics;

/// <summary>
/// A log that can't be read at all: a file or a required column is missing. The message says what was found and what is accepted.
/// </summary>
public sealed class LogFormatException : FormatException
{
    /// <summary>Makes the error.</summary>
    /// <param name="message">What was found, where, what was expected, what to try.</param>
    public LogFormatException(string message) : base(message)
    {
    }

    /// <summary>Makes the error with its cause.</summary>
    /// <param name="message">What was found, where, what was expected, what to try.</param>
    /// <param name="inner">The error underneath.</param>
    public LogFormatException(string message, Exception inner) : base(message, inner)
    {
    }
}
