namespace JumpAnalytics;

/// <summary>A format that a log is written in.</summary>
public enum LogFileFormat
{
    /// <summary><c>drops.csv</c> and <c>landings.csv</c>, UTF-8, parted by commas.</summary>
    Csv,

    /// <summary><c>drops-landings.xlsx</c> with the sheets drops and landings.</summary>
    Xlsx,

    /// <summary><c>drops.parquet</c> and <c>landings.parquet</c>.</summary>
    Parquet,
}
