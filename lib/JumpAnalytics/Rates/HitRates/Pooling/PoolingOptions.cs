namespace JumpAnalytics;

/// <summary>How hit rates are pooled. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record PoolingOptions
{
    private readonly double _confidence = 0.95;
    private readonly int _nodes = 15;

    /// <summary>Nodes below which the curvature of a quadrature does not serve for cell effects.</summary>
    internal const int FewNodes = 9;

    /// <summary>
    /// Whether the fixed part has a level for each cell, and not only for each band and each terrain; no unless said otherwise.
    /// </summary>
    public bool Interaction { get; init; }

    /// <summary>
    /// Whether cells differ by chance from what band and terrain say; yes unless said otherwise. Not with
    /// <see cref="Interaction"/>, which leaves nothing to it.
    /// </summary>
    public bool CellEffect { get; init; } = true;

    /// <summary>
    /// Nodes of the adaptive Gauss-Hermite quadrature over mission effects; 15 unless said otherwise. From 9 on they are doubled until
    /// twice as many change the log-likelihood by no more than 0.001, as a wide spread needs; a warning says where 100 do not do. 1 is
    /// Laplace's approximation for mission and cell effects at once, as lme4 makes it: with cell effects and many missions of few landings
    /// its rates lie too near one half, by more than their intervals allow. With cell effects, 2 to 8 are refused when the model is fitted.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 1 to 100.</exception>
    public int Nodes
    {
        get => _nodes;
        init => _nodes = Guard.Within(value, 1, GaussHermite.MostNodes, nameof(Nodes), "for instance 15");
    }

    /// <summary>Coverage of every interval; 0.95 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double Confidence
    {
        get => _confidence;
        init => _confidence = Guard.Confidence(value, nameof(Confidence));
    }
}
