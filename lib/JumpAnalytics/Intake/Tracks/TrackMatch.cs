namespace JumpAnalytics;

/// <summary>How a track came to its landing.</summary>
public enum TrackMatch
{
    /// <summary>The landing's row names the file.</summary>
    Named,

    /// <summary>No row names it; it fits by time and place.</summary>
    TimeAndPlace,
}
