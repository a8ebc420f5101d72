namespace JumpAnalytics;

/// <summary>What the record checks are asked for. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record RecordCheckOptions
{
    private readonly double _falseAlarms = 0.05;
    private readonly double _confidence = 0.95;

    /// <summary>The units of tables and readings.</summary>
    public ReportUnits Units { get; init; } = ReportUnits.FireLine;

    /// <summary>Coverage of every interval; 0.95 unless said otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double Confidence
    {
        get => _confidence;
        init => _confidence = Guard.Confidence(value, nameof(Confidence));
    }

    /// <summary>
    /// Highest chance that any test of any check flags sound records; 0.05 unless said otherwise. A finding is flagged when its
    /// probability, multiplied by the groups and the checks looked at, is below this.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double FalseAlarms
    {
        get => _falseAlarms;
        init => _falseAlarms = Guard.Share(value, nameof(FalseAlarms), "for instance 0.05");
    }
}
