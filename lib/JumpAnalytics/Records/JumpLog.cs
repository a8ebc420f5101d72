namespace JumpAnalytics;

/// <summary>
/// The usable records of one or more seasons: drops, the landings that belong to them, and the account of how they were read.
/// </summary>
public sealed partial class JumpLog : ShownResult
{
    private readonly Func<RowSource, Drop, RowOrigin>? _origins;
    private readonly IReadOnlyList<Drop> _drops;
    private readonly IReadOnlyList<Landing> _landings;

    internal JumpLog(string name, string? notice, IReadOnlyList<Drop> drops, IReadOnlyList<Landing> landings, IntakeReport intake,
        Func<RowSource, Drop, RowOrigin>? origins = null) =>
        (Name, Notice, _drops, _landings, Intake, _origins) = (name, notice, drops, landings, intake, origins);

    /// <summary>Name of the folder or file it was read from, without the folders above, and of the part where it is one.</summary>
    public string Name { get; }

    /// <summary>
    /// The text of a file <c>notice.txt</c> beside the tables, which every report of the log repeats; null when there is none.
    /// </summary>
    public string? Notice { get; }

    /// <summary>The drops, in the order of the files.</summary>
    /// <exception cref="InvalidOperationException">The log is for sharing.</exception>
    public IReadOnlyList<Drop> Drops => Sharing is null ? _drops : throw LogSharing.Refusal();

    /// <summary>The landings, in the order of the files.</summary>
    /// <exception cref="InvalidOperationException">The log is for sharing.</exception>
    public IReadOnlyList<Landing> Landings => Sharing is null ? _landings : throw LogSharing.Refusal();

    /// <summary>That the log is for sharing; null for one that is not.</summary>
    public LogSharing? Sharing { get; internal init; }

    /// <summary>
    /// The landings also of a log for sharing, for who counts them and withholds what rests on few people. Nothing else may ask for them.
    /// </summary>
    internal IReadOnlyList<Landing> LandingsToCount => _landings;

    /// <summary>Whether all landings of a log for sharing come from so few people that not even their number is told.</summary>
    internal bool IsOfFewPeople => Sharing is { } sharing && LogSharing.LeastPeople(_landings) < sharing.FewestPeople;

    /// <summary>What was read and what was refused.</summary>
    public IntakeReport Intake { get; }

    /// <summary>The seasons that have a drop, in rising order.</summary>
    public IReadOnlyList<string> Seasons => [.. _drops.Select(d => d.Season).Distinct().Order(StringComparer.Ordinal)];

    /// <summary>Where the values of a drop come from: file, line, text as written and conversions. Reads the file again.</summary>
    /// <param name="drop">A drop of this log.</param>
    /// <exception cref="InvalidOperationException">The log was not read from files, or had people or remarks taken out of it.</exception>
    /// <exception cref="LogFormatException">The file no longer has the row.</exception>
    public RowOrigin OriginOf(Drop drop) => FilesOrThrow()(drop.Source, drop);

    /// <summary>Where the values of a landing come from; those of its drop are asked for by its drop.</summary>
    /// <param name="landing">A landing of this log.</param>
    /// <exception cref="InvalidOperationException">The log was not read from files, or had people or remarks taken out of it.</exception>
    /// <exception cref="LogFormatException">The file no longer has the row.</exception>
    public RowOrigin OriginOf(Landing landing) => FilesOrThrow()(landing.Source, landing.Drop);

    private Func<RowSource, Drop, RowOrigin> FilesOrThrow() => _origins ?? throw new InvalidOperationException(
        "This log does not lead back to its files: it was not read from any, or people or remarks were taken out of it. "
        + "Ask the log as it was read.");

    /// <summary>
    /// The folder it was read from, for the files that its rows name; shown nowhere. Null for a log that had people taken out of
    /// it: tracks lead back to them.
    /// </summary>
    internal string? Folder { get; private set; }
}
