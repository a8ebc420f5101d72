namespace JumpAnalytics;

/// <summary>A map that the library proposes.</summary>
public sealed partial class ColumnMap
{
    /// <summary>Proposes a map for a log with headers of its own. Nothing is read through it; it is for a person to check.</summary>
    /// <param name="path">Folder or file, as for <see cref="JumpLog.Read"/>.</param>
    /// <exception cref="LogFormatException">There is no log there.</exception>
    public static MapProposal Propose(string path) => MapProposal.Of(path);
}
