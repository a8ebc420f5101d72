namespace JumpAnalytics;

/// <summary>The margins as pages to print.</summary>
public sealed partial class SpottingMargins
{
    /// <summary>One page to print for each base.</summary>
    public IReadOnlyList<MarginCard> Cards => MarginCards.Of(this);
}
