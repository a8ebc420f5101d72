namespace JumpAnalytics.Mutants;

/// <summary>A room whose tests are asked: folders of its sources and of the tests that are to find a fault in them.</summary>
internal sealed record Room(string Name, string Project, string[] Sources, string[] Tests, double Wanted = 0.90)
{
    private const string Trade = "JumpAnalytics";
    private const string Statistics = "JumpAnalytics.Statistics";

    public static IReadOnlyList<Room> All { get; } =
    [
        new("Geometry", Trade, ["Records/Geometry"], ["Records"]),
        new("Units", Trade, ["Records/Units"], ["Records", "Intake/Reading", "Intake/Mapping"]),
        new("Records", Trade, ["Records/*"], ["Records", "Intake/Parts", "Intake/Reading", "Rates/HitRates"]),
        new("Intake", Trade, ["Intake/Reading", "Intake/Tables", "Intake/Mapping"], ["Intake", "Reference"], 0.95),
        new("Privacy", Trade, ["Intake/Privacy"], ["Intake/Privacy", "Intake/Parts", "Questions/SharedLogTests.cs"], 0.95),
        new("Tracks", Trade, ["Intake/Tracks"], ["Intake/Tracks", "Flight/Descents"]),
        new("Budget", Trade, ["Flight/Budget"], ["Flight/Budget", "Questions/Debriefs"], 0.95),
        new("Drift", Trade, ["Flight/Drift", "Flight/Winds"], ["Flight"]),
        new("Descents", Trade, ["Flight/Descents"], ["Flight/Descents"]),
        new("HitRates", Trade, ["Rates/HitRates"], ["Rates/HitRates", "Rates/SharedRates", "Questions/Seasons"]),
        new("Monitoring", Trade, ["Rates/Monitoring"], ["Rates/Monitoring", "Statistics/RunLengths"]),
        new("Margins", Trade, ["Questions/Margins"], ["Questions/Margins"]),
        new("Spotters", Trade, ["Questions/Spotters"], ["Questions/Spotters"]),
        new("Fits", Statistics, ["Models", "Levels"], ["Statistics", "Reference"]),
    ];

    /// <summary>The source files, relative to the project. A folder that ends in "/*" has no rooms below it.</summary>
    public IEnumerable<string> Files(string project) => Sources.SelectMany(s => s.EndsWith("/*", StringComparison.Ordinal)
        ? Directory.EnumerateFiles(Path.Combine(project, s[..^2]), "*.cs")
        : Directory.EnumerateFiles(Path.Combine(project, s), "*.cs", SearchOption.AllDirectories))
        .Order(StringComparer.Ordinal);
}
