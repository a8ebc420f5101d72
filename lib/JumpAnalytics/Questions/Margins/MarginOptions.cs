namespace JumpAnalytics;

/// <summary>What spotting margins are asked for, beside the options every analysis has. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record MarginOptions
{
    private readonly double _upperConfidence = 0.9;
    private readonly IReadOnlyList<double> _shares = RadiusMargins.UsualShares;

    /// <summary>Shares of landings that radii are given for, each between 0 and 1; a half, 85, 90 and 95 % unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">None, or one that is not between 0 and 1.</exception>
    public IReadOnlyList<double> Shares
    {
        get => _shares;
        init => _shares = value.Count > 0 && value.All(s => s > 0 && s < 1) ? value
            : throw new ArgumentOutOfRangeException(nameof(Shares), string.Join(", ", value),
                "One or more shares between 0 and 1, for instance 0.9.");
    }

    /// <summary>One-sided confidence of the upper limits of radii; 0.9 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double UpperConfidence
    {
        get => _upperConfidence;
        init => _upperConfidence = Guard.Share(value, nameof(UpperConfidence));
    }

    /// <summary>How sticks are looked at.</summary>
    public StickOptions Sticks { get; init; } = new();

    /// <summary>How the age of the forecast is looked at.</summary>
    public AgeingOptions Ageing { get; init; } = new();

    /// <summary>What is asked of the records; none unless said otherwise.</summary>
    public IReadOnlyList<Scenario> Scenarios { get; init; } = [];
}
