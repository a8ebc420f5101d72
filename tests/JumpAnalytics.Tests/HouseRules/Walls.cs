namespace JumpAnalytics.Tests;

/// <summary>
/// The rooms of a project from the bottom up. A room is a folder and may use itself and the rooms before it; what a file uses is told by
/// the symbols in it. The folder of a wing is a room too, below the rooms in it, and has the name of the wing.
/// </summary>
/// <param name="Project">The project below lib.</param>
/// <param name="Rooms">The rooms in order; folders that can't be ordered share a room and are joined by a plus.</param>
internal sealed record Walls(string Project, params string[] Rooms)
{
    /// <summary>
    /// Points, clusters and raters. Values carry the attribute that names their rendering, and renderings know values: one room.
    /// </summary>
    public static Walls Statistics { get; } = new("JumpAnalytics.Statistics",
        "Numerics", "Estimates + Showing", "Plane", "Models", "Checking", "Directions", "Levels", "Resampling", "Limits", "RunLengths",
        "Scoring", "Shrinking");

    /// <summary>The trade: Records, Intake, Flight, Rates, Questions.</summary>
    public static Walls Trade { get; } = new("JumpAnalytics",
        "Records/Geometry", "Records/Units", "Records/Glossary", "Records",
        "Intake", "Intake/Mapping", "Intake/Tables", "Intake/Reading", "Intake/Parts", "Intake/Proposals", "Intake/Tracks", "Intake/Checks",
        "Intake/Privacy", "Intake/Writing",
        "Flight/Winds", "Flight/Drift", "Flight/Budget", "Flight/Descents/Smoothing", "Flight/Descents",
        "Rates/HitRates/Pooling", "Rates/HitRates", "Rates/HitRates/Intervals", "Rates/HitRates/Claims", "Rates/HitRates/Steering",
        "Rates/Forecasts", "Rates/Monitoring",
        "Questions/Cautions", "Questions/Margins/Ageing", "Questions/Debriefs",
        "Questions/Margins/Costs", "Questions/Margins/Shifts", "Questions/Margins/Clearings",
        "Questions/Margins/Radii", "Questions/Margins/WhatIfs", "Questions/Margins/Sticks", "Questions/Margins/Backtests",
        "Questions/Margins", "Questions/Margins/Cards",
        "Questions/Seasons/Backtests", "Questions/Seasons", "Questions/Spotters");

    /// <summary>Figures, frames, pages.</summary>
    public static Walls Notebooks { get; } = new("JumpAnalytics.Notebooks", "Frames", "Page", "Figures", "Kernel");

    /// <summary>Uses of what a higher room declares, as <c>file:line: Room -> Room: symbol</c>, and folders that are no room.</summary>
    public IEnumerable<string> Breaches(CompiledSources sources)
    {
        var homeless = sources.Files.Select(FolderOf).Distinct().Where(f => PlaceOf(f) < 0)
            .Select(f => $"{f}/: a folder without a place in the order");
        var upward = sources.Uses.All
            .Where(u => PlaceOf(FolderOf(u.DeclaredIn)) > PlaceOf(FolderOf(u.File)))
            .Select(u => $"{u.File}:{u.Line}: {RoomOf(u.File)} -> {RoomOf(u.DeclaredIn)}: {u.Name}");
        return homeless.Concat(upward);
    }

    /// <summary>Rooms that hold no file.</summary>
    public IEnumerable<string> Empty(CompiledSources sources)
    {
        var folders = sources.Files.Select(FolderOf).ToHashSet();
        return Rooms.SelectMany(r => r.Split(" + ")).Where(f => !folders.Contains(f));
    }

    /// <summary>How many different symbols a room uses of each room, a room a line; columns are numbered as the lines are.</summary>
    public IEnumerable<string> Matrix(CompiledSources sources)
    {
        var counts = sources.Uses.All
            .GroupBy(u => (From: PlaceOf(FolderOf(u.File)), To: PlaceOf(FolderOf(u.DeclaredIn))))
            .ToDictionary(g => g.Key, g => g.Select(u => u.Symbol).Distinct(Microsoft.CodeAnalysis.SymbolEqualityComparer.Default).Count());
        var width = Rooms.Max(r => r.Length);
        yield return new string(' ', width + 4) + string.Concat(Enumerable.Range(1, Rooms.Length).Select(n => $"{n,4}"));
        for (var from = 0; from < Rooms.Length; from++)
        {
            var cells = Enumerable.Range(0, Rooms.Length)
                .Select(to => counts.TryGetValue((from, to), out var n) ? $"{n,4}" : to < from ? "   ." : "    ");
            yield return $"{from + 1,3} {Rooms[from].PadRight(width)}{string.Concat(cells)}".TrimEnd();
        }
    }

    private string RoomOf(string file) => PlaceOf(FolderOf(file)) is >= 0 and var place ? Rooms[place] : FolderOf(file);

    private int PlaceOf(string folder) => Array.FindIndex(Rooms, r => r == folder || r.Split(" + ").Contains(folder));

    private static string FolderOf(string file) => Path.GetDirectoryName(file)!.Replace(Path.DirectorySeparatorChar, '/');
}
