using System.Globalization;

namespace JumpAnalytics.Tests;

/// <summary>Every unit suffix of every measured column, by the factors of NIST Special Publication 811 (2008), appendix B.</summary>
public sealed class UnitSuffixTests
{
    private static readonly Dictionary<string, double> _distances = new()
    {
        ["m"] = 1, ["km"] = 1000, ["ft"] = 0.3048, ["yd"] = 0.9144, ["ch"] = 20.1168, ["mi"] = 1609.344, ["nm"] = 1852,
    };

    private static readonly Dictionary<string, double> _speeds = new() { ["mps"] = 1, ["mph"] = 0.44704, ["kt"] = 1852.0 / 3600 };

    public static TheoryData<string, string> DropColumns { get; } = All(
        ("target_radius", "d"), ("spot_elevation", "d"), ("exit_height", "d"), ("exit_distance", "d"), ("wind_speed", "s"),
        ("surface_wind_speed", "s"), ("ground_speed", "s"), ("forecast_drift", "d"),
        ("exit_spacing", "t"));

    public static TheoryData<string, string> LandingColumns { get; } =
        All(("landing_distance", "d"), ("landing_beyond", "d"), ("measured_sd", "d"));

    public static TheoryData<string, string> EastNorth { get; } = All(("forecast", "d"), ("exit", "d"), ("landing", "d"));

    private static TheoryData<string, string> All(params (string Column, string Kind)[] columns)
    {
        var data = new TheoryData<string, string>();
        foreach (var (column, kind) in columns)
        {
            foreach (var suffix in kind switch { "d" => _distances.Keys, "s" => _speeds.Keys, _ => (IEnumerable<string>)["s", "min"] })
                data.Add(column, suffix);
        }
        return data;
    }

    private static double Factor(string suffix) => suffix switch
    {
        "s" => 1,
        "min" => 60,
        _ => _distances.TryGetValue(suffix, out var metres) ? metres : _speeds[suffix],
    };

    [Theory]
    [MemberData(nameof(DropColumns))]
    public void Measures_of_a_drop(string column, string suffix)
    {
        var header = TempLog.DropsHeader + ",exit_bearing_deg";
        var row = TempLog.Drop1 + ",0";
        var plain = header.Split(',').FirstOrDefault(h => h.StartsWith(column + "_", StringComparison.Ordinal));
        if (plain is null)
        {
            (header, row) = ($"{header},{column}_{suffix}", row + ",7.25");
        }
        else
        {
            var fields = row.Split(',');
            fields[Array.IndexOf(header.Split(','), plain)] = "7.25";
            (header, row) = (header.Replace(plain, $"{column}_{suffix}", StringComparison.Ordinal), string.Join(',', fields));
        }
        using var log = TempLog.Of(TempLog.Lines(header, row), TempLog.LandingsHeader);
        var drop = Assert.Single(log.Read().Drops);
        var found = column switch
        {
            "target_radius" => drop.TargetRadius,
            "spot_elevation" => drop.SpotElevation!.Value,
            "exit_height" => drop.ExitHeight!.Value,
            "exit_distance" => drop.ActualExit!.Value.North,
            "wind_speed" => drop.WindSpeed,
            "surface_wind_speed" => drop.SurfaceWindSpeed!.Value,
            "ground_speed" => drop.GroundSpeed!.Value,
            "forecast_drift" => drop.ForecastDrift.East, // to 90°
            "exit_spacing" => drop.ExitSpacing!.Value,
            _ => throw new ArgumentException(column),
        };
        Close.Relative(7.25 * Factor(suffix), found, 1e-14);
    }

    [Fact]
    public void The_age_of_the_streamers_is_in_minutes()
    {
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader + ",streamer_minutes", TempLog.Drop1 + ",7.5"),
            TempLog.LandingsHeader);
        Assert.Equal(450, log.Read().Drops[0].StreamerAge);
    }

    [Theory]
    [MemberData(nameof(LandingColumns))]
    public void Measures_of_a_landing(string column, string suffix)
    {
        var header = column switch
        {
            "landing_distance" => $"drop_id,landing_distance_{suffix},landing_bearing_deg",
            "landing_beyond" => $"drop_id,landing_beyond_{suffix},jumper",
            _ => $"drop_id,measured_sd_{suffix},landing_east_m,landing_north_m",
        };
        using var log = TempLog.Of(TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1),
            TempLog.Lines(header, column == "measured_sd" ? "d1,7.25,3,4" : "d1,7.25,0"));
        var landing = Assert.Single(log.Read().Landings);
        Close.Relative(7.25 * Factor(suffix), (column switch { "landing_distance" => landing.Miss!.Value.North, "landing_beyond" =>
            landing.Beyond, _ => landing.MeasuredSd })!.Value, 1e-14);
        if (column == "landing_distance") Assert.Equal(landing.MissDistance!.Value, MeasureUnit.Distance(suffix).ToSi(7.25));
    }

    [Theory]
    [MemberData(nameof(EastNorth))]
    public void East_and_north(string column, string suffix)
    {
        var drops = (TempLog.DropsHeader, TempLog.Drop1);
        var landings = (TempLog.LandingsHeader, TempLog.Landing1);
        var names = $"{column}_east_{suffix},{column}_north_{suffix}";
        switch (column)
        {
            case "forecast":
                drops = ("drop_id,mission,time,terrain,target_radius_yd,wind_speed_mph," + names,
                    "d1,m1,2031-07-14T15:20,timber,25,8,-3,4.05");
                break;
            case "exit": drops = ($"{TempLog.DropsHeader},{names}", TempLog.Drop1 + ",-3,4.05"); break;
            default: landings = ("drop_id," + names, "d1,-3,4.05"); break;
        }
        using var files = TempLog.Of(TempLog.Lines(drops.Item1, drops.Item2), TempLog.Lines(landings.Item1, landings.Item2));
        var log = files.Read();
        var found = column switch { "forecast" => log.Drops[0].ForecastDrift, "exit" => log.Drops[0].ActualExit!.Value, _ =>
            log.Landings[0].Miss!.Value };
        Close.Relative(-3 * Factor(suffix), found.East, 1e-14);
        Close.Relative(4.05 * Factor(suffix), found.North, 1e-14);
    }

    [Fact]
    public void Every_measured_column_of_the_log_is_tried_here()
    {
        var tried = DropColumns.Concat(LandingColumns).Select(row => row.Data.Item1).ToHashSet();
        tried.UnionWith(EastNorth.SelectMany(row => new[] { row.Data.Item1 + "_east", row.Data.Item1 + "_north" }));
        var measured = LogColumns.Drops.Concat(LogColumns.Landings)
            .Where(c => c.Kind is ColumnKind.Distance or ColumnKind.Speed or ColumnKind.Duration);
        Assert.Equal(measured.Select(c => c.Name).Where(n => n != "streamer_minutes").Distinct().Order(StringComparer.Ordinal),
            tried.Order(StringComparer.Ordinal));
        Assert.Equal("1,234.5", 1234.5.ToString("#,0.0", CultureInfo.CurrentCulture)); // the culture is invariant whatever the machine's
    }
}
