namespace JumpAnalytics.Statistics;

/// <summary>The answer of a report on one screen: a sentence, and what to know beside it.</summary>
public sealed class Brief : ShownResult
{
    internal Brief(string reading, IReadOnlyList<string> points) => (Reading, Points) = (reading, points);

    /// <inheritdoc/>
    public override string Reading { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points { get; }
}
