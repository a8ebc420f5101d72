namespace JumpAnalytics.Tests;

/// <summary>The folders of the core are rooms in an order: a room may name types of the rooms it stands on and of no other.</summary>
public sealed class RoomTests
{
    /// <summary>What each room stands on. Reporting may be used by all.</summary>
    private static readonly Dictionary<string, string[]> _standsOn = new()
    {
        ["Internals"] = [],
        ["Units"] = [],
        ["Results"] = [],
        ["Geometry"] = ["Results"],
        ["Resampling"] = ["Results", "Internals"],
        ["Records"] = ["Geometry", "Units", "Internals"],
        ["Fits"] = ["Results", "Resampling", "Geometry", "Units", "Internals"],
        ["Intake"] = ["Results", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Budget"] = ["Results", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Winds"] = ["Geometry", "Units", "Internals", "Results", "Reporting"],
        ["Tracks"] = ["Results", "Intake", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Forecasts"] = ["Results", "Resampling", "HitRates", "Fits", "Budget", "Records", "Winds", "Geometry", "Units", "Internals", "Reporting"],
        ["Drift"] = ["Results", "Winds", "Tracks", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Descents"] = ["Results", "Tracks", "Winds", "Budget", "Intake", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Debriefs"] = ["Results", "Forecasts", "Drift", "Descents", "Tracks", "Winds", "Resampling", "HitRates", "Fits", "Budget", "Intake", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["HitRates"] = ["Results", "Resampling", "Fits", "Budget", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Margins"] = ["Results", "Resampling", "HitRates", "Fits", "Budget", "Intake", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Monitoring"] = ["Results", "Resampling", "HitRates", "Fits", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Spotters"] = ["Results", "Monitoring", "Resampling", "HitRates", "Fits", "Budget", "Intake", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Scoring"] = ["Results", "Resampling", "Fits", "Geometry", "Internals"],
        ["Seasons"] = ["Results", "Scoring", "Resampling", "HitRates", "Fits", "Intake", "Records", "Geometry", "Units", "Internals", "Reporting"],
        ["Checks"] = ["Results", "Intake", "Records", "Geometry", "Units", "Reporting"],
        ["Privacy"] = ["Results", "HitRates", "Intake", "Records", "Internals", "Reporting"],
        ["Reporting"] = ["Units", "Results", "Internals"],
    };

    /// <summary>The exceptions, by name: file of the room, and the type of another room it names.</summary>
    private static readonly string[] _exceptions =
    [
        // The cautions carry the numbers of the log.
        "Reporting/Cautions.cs: JumpLog (Intake)",
        "Reporting/Cautions.cs: Landing (Records)",
    ];

    private static readonly string _core = Path.Combine(SourceFiles.Lib, "JumpAnalytics");

    private static string RoomOf(string file) => Path.GetRelativePath(_core, file).Split(Path.DirectorySeparatorChar) is [var room, _, ..] ? room : "";

    [Fact]
    public void Every_source_file_stands_in_a_known_room() =>
        Assert.Equal(_standsOn.Keys.Order(StringComparer.Ordinal), SourceFiles.Below(_core, "*.cs").Select(RoomOf).Distinct().Order(StringComparer.Ordinal));

    [Fact]
    public void The_order_of_the_rooms_has_no_circle()
    {
        var left = _standsOn.ToDictionary(r => r.Key, r => r.Value.ToList());
        while (left.Count > 0)
        {
            var free = left.Where(r => r.Value.Count == 0).Select(r => r.Key).ToList();
            Assert.NotEmpty(free);
            foreach (var room in free) left.Remove(room);
            foreach (var below in left.Values) below.RemoveAll(free.Contains);
        }
    }

    [Fact]
    public void A_room_names_only_types_of_the_rooms_it_stands_on()
    {
        var files = SourceFiles.Below(_core, "*.cs").Select(f => (Path: f, Room: RoomOf(f), Code: SourceFiles.Code(f))).ToList();
        var homes = files.SelectMany(f => SourceFiles.Declared(f.Code).Select(t => (Type: t, f.Room))).Distinct().ToLookup(t => t.Type, t => t.Room);
        Assert.True(homes.Count > 60);
        var found = new List<string>();
        foreach (var file in files)
        {
            foreach (var type in SourceFiles.Words(file.Code).Where(homes.Contains))
            {
                var rooms = homes[type].ToList();
                if (!rooms.Contains(file.Room) && !rooms.Any(_standsOn[file.Room].Contains))
                    found.Add($"{file.Room}/{Path.GetFileName(file.Path)}: {type} ({string.Join(", ", rooms)})");
            }
        }
        Assert.True(found.All(_exceptions.Contains), string.Join("; ", found.Except(_exceptions)));
        Assert.True(_exceptions.All(found.Contains), "An exception is no longer needed.");
    }
}
