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
        init => _confidence = value is > 0 and < 1 ? value
            : throw new ArgumentOutOfRangeException(nameof(Confidence), value, "Confidence is a share between 0 and 1, for instance 0.95.");
    }

    /// <summary>
    /// Highest chance that any test of any check flags sound records; 0.05 unless said otherwise. A finding is flagged when its probability,
    /// multiplied by the groups and the checks looked at, is below this.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public double FalseAlarms
    {
        get => _falseAlarms;
        init => _falseAlarms = value is > 0 and < 1 ? value
            : throw new ArgumentOutOfRangeException(nameof(FalseAlarms), value, "The share of false alarms lies between 0 and 1, for instance 0.05.");
    }
}
