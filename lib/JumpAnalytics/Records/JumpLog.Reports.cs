namespace JumpAnalytics;

/// <summary>What every front door asks of a log.</summary>
public sealed partial class JumpLog
{
    /// <summary>The word for everything together where a season, a spotter or a group is asked for or named.</summary>
    public const string All = Cell.Any;

    /// <inheritdoc/>
    public override string Reading =>
        $"{Name}: {Words(Seasons)}{(IsOfFewPeople ? ", few people" : Size())}. {Intake.Reading}";

    private string Size() => $", {Rounding.Count(_drops.Select(d => d.Mission).Distinct().Count(), "mission")}, "
        + $"{Rounding.Count(_drops.Count, "drop")}, {Rounding.Count(_landings.Count, "landing")}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Points => Intake.Points;

    /// <inheritdoc/>
    public override IReadOnlyList<TableView> Tables => Intake.Tables;

    /// <summary>The seasons that a text asks for: <see cref="All"/>, or some, separated by commas.</summary>
    /// <exception cref="ArgumentException">One is not in the log; the message lists those there are.</exception>
    internal IReadOnlyList<string> SeasonsOf(string text)
    {
        if (text == All) return Seasons;
        var wanted = text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return wanted.Length > 0 && wanted.All(Seasons.Contains) ? [.. Seasons.Intersect(wanted)]
            : throw new ArgumentException(
                $"'{text}' names a season that is not in the log; there are {string.Join(", ", Seasons)}, and {All}.");
    }

    /// <summary>Seasons in words: <c>season 2031</c>, <c>seasons 2030, 2031</c>.</summary>
    internal static string Words(IReadOnlyList<string> seasons) => seasons.Count switch
    {
        0 => "no season",
        1 => $"season {seasons[0]}",
        <= 4 => $"seasons {string.Join(", ", seasons)}",
        _ => $"{seasons.Count} seasons from {seasons[0]} to {seasons[^1]}",
    };

    private string? PartSize() =>
        Sharing is not null ? null : $"{Rounding.Count(_drops.Count)} of {Rounding.Count(Whole._drops.Count, "drop")}, "
            + $"{Rounding.Count(_landings.Count)} of {Rounding.Count(Whole._landings.Count, "landing")}";

    /// <summary>What was read and asked for, so that a printed report can be traced.</summary>
    /// <param name="name">Name of the table.</param>
    /// <param name="seasons">The seasons asked for.</param>
    /// <param name="asked">What else was set.</param>
    internal TableView SettingsTable(string name, IReadOnlyList<string> seasons, IEnumerable<Setting> asked)
    {
        var others = $"the log also has {string.Join(", ", Seasons.Except(seasons))}; they stand in the sections by season";
        Setting[] rows =
        [
            new("log", Name, string.Join("; ", Intake.Files.Select(f => $"{f.File}: {Rounding.Count(f.RowsRead, "row")}"))),
            .. Part is null ? [] : new Setting[] { new("part", Part, PartSize()) },
            new("seasons", Words(seasons), seasons.Count == Seasons.Count ? "all there are" : others),
            .. asked,
            new("library", "JumpAnalytics " + typeof(JumpLog).Assembly.GetName().Version!.ToString(3)),
        ];
        return new TableOf<Setting>(name, "What was read and asked for", rows)
        {
            { Columns.Setting, s => s.Name },
            { Columns.Value, s => s.Value },
            { Columns.Note, s => s.Note },
        };
    }
}
