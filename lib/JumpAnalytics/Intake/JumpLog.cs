namespace JumpAnalytics;

/// <summary>The usable records of one or more seasons: drops, the landings that belong to them, and the account of how they were read.</summary>
public sealed class JumpLog
{
    internal JumpLog(string name, string? notice, IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings, IntakeReport intake) =>
        (Name, Notice, Drops, Landings, Intake) = (name, notice, drops, landings, intake);

    /// <summary>Name of the folder or file it was read from, without the folders above.</summary>
    public string Name { get; }

    /// <summary>The text of a file <c>notice.txt</c> beside the tables, which every report of the log repeats; null when there is none.</summary>
    public string? Notice { get; }

    /// <summary>The drops, in the order of the files.</summary>
    public IReadOnlyList<Drop> Drops { get; }

    /// <summary>The landings, in the order of the files.</summary>
    public IReadOnlyList<Landing> Landings { get; }

    /// <summary>What was read and what was refused.</summary>
    public IntakeReport Intake { get; }

    /// <summary>The seasons that have a drop, in rising order.</summary>
    public IReadOnlyList<string> Seasons => [.. Drops.Select(d => d.Season).Distinct().Order(StringComparer.Ordinal)];

    /// <summary>Reads a log from a folder (<c>drops*.csv</c> and <c>landings*.csv</c>) or from one flat table.</summary>
    /// <param name="path">Folder or file. A folder may also hold a short <c>notice.txt</c> that readers of every report should see.</param>
    /// <param name="map">The base's own headers, units and codes; without one, a file <c>columns.json</c> in the folder is used, if there is any.</param>
    /// <exception cref="LogFormatException">
    /// There is no log there, a required column is missing, or the map does not fit. Trouble in single rows does not throw: see <see cref="Intake"/>.
    /// </exception>
    public static JumpLog Read(string path, ColumnMap? map = null) => LogReader.Read(LogFiles.Find(path), map ?? ColumnMap.Beside(path));
}
