using System.Globalization;
using System.Text;
using static JumpAnalytics.Tests.CleanTable;

namespace JumpAnalytics.Tests;

/// <summary>
/// Twelve invented spreadsheets as bases might keep them, no two alike, each made from the clean table. Texts are texts, numbers are cells
/// of numbers; a date or a time in a cell of its own is a number with a format.
/// </summary>
internal static class MessyWorkbooks
{
    /// <summary>A spreadsheet.</summary>
    /// <param name="Name">What is special about it.</param>
    /// <param name="File">Name of the file.</param>
    /// <param name="Passes">The clean passes it holds.</param>
    /// <param name="Bytes">Its contents.</param>
    /// <param name="Answers">What a person fills in where the proposed map asks.</param>
    /// <param name="NoRecords">Rows in it that are no records.</param>
    /// <param name="HasTimes">Whether it holds times of day.</param>
    public sealed record Book(string Name, string File, IReadOnlyList<Pass> Passes, byte[] Bytes, (string Asked, string Answer)[] Answers,
        int NoRecords, bool HasTimes = true)
    {
        public override string ToString() => Name;
    }

    private sealed record DateCell(double Days);

    private static readonly (string, string)[] _none = [];

    public static IReadOnlyList<Book> All { get; } =
    [
        TitleAndUnits(), TwoPages(), Semicolons(), Serials(), From1904(), DaysAlone(), Open("month first", "M/d/yyyy"),
        Open("day first", "d/M/yy"), UnitsBehind(), Tabs(), Words(), Midnights(),
    ];

    /// <summary>A title, date and time cells in two columns, the unit in the field, comments, blank lines, a row of totals.</summary>
    private static Book TitleAndUnits()
    {
        var passes = Passes();
        List<object?[]> rows =
        [
            ["JUMP RECORD, SEASON 2031"], [],
            ["Load #", "Fire Name", "Date", "Time (local)", "Fuel Type", "Spot Radius (yds)", "Wind", "WDI Drift (yds)", "Drift Hdg (true)",
                "Sptr", "Jumper Name", "Dist to spot (yds)", "Brg from spot (true)"],
            ["Week 1 of the season"],
        ];
        foreach (var j in Jumps(passes))
        {
            rows.Add([j.Pass.Id, j.Pass.Mission, new DateCell(Serial(j.Pass.Time.Date)), j.Pass.Time.TimeOfDay.TotalDays, j.Pass.Terrain,
                j.Pass.Radius, $"{j.Pass.Wind} mph", j.Pass.Drift, j.Pass.To, j.Pass.Spotter, j.Jumper, j.Distance, j.Bearing]);
            if (j.Pass.Id == "L110") rows.AddRange([[], ["Checked against the load sheets"]]);
        }
        rows.Add(["TOTAL", null, null, null, null, null, null, null, null, null, 48]);
        return new("title, two columns, unit in the field", "jumps.xlsx", passes, Workbook(("Record", rows)), _none, 4);
    }

    /// <summary>Two lines above, a.m. and p.m., comment lines, the headers again on page two, a footer.</summary>
    private static Book TwoPages()
    {
        var passes = Passes();
        const string header = "DropID,MsnNo,Date,Time,TerrainClass,TgtRad_yd,WindSpd_mph,FcstDriftDist_yd,FcstDriftBrg_true,Spotter,"
            + "Jumper,Miss distance (yd),Miss bearing (true)";
        var rows = Jumps(passes).Select(j => $"{j.Pass.Id},{j.Pass.Mission},{j.Pass.Time.Text("M/d/yyyy")},{j.Pass.Time.Text("h:mm tt")},"
            + $"{Common(j.Pass)},{j.Pass.Spotter},{j.Jumper},{j.Distance},{j.Bearing}").ToList();
        return new("two pages, AM and PM", "jumps.csv", passes, Encoding.UTF8.GetBytes(TempLog.Lines(["Jump record 2031",
            "Printed,10/1/2031",
            header, "# below: June", .. rows[..20], header, .. rows[20..], "Prepared by: the loft"])), _none, 3);
    }

    /// <summary>Semicolons, decimal commas, days first, times in four figures, a title without any separator.</summary>
    private static Book Semicolons()
    {
        var passes = Passes();
        return new("semicolons, days first, decimal commas", "jumps.csv", passes, Encoding.UTF8.GetBytes(TempLog.Lines([
            "Season 2031, all fires", "Load no.;Incident;Jump date;Jump time;Cover type;Target radius (yd);Wind speed (mph);"
                + "Forecast drift (yd);Forecast bearing (true);Spotter code;Jumper;Distance from spot (yd);Bearing from spot (true)",
            .. Jumps(passes).Select(j => $"{j.Pass.Id};{j.Pass.Mission};{j.Pass.Time.Text("d.M.yyyy")};{j.Pass.Time.Text("HHmm")};"
                + $"{j.Pass.Terrain};25,0;{j.Pass.Wind},0"
                + $";{j.Pass.Drift},0;{j.Pass.To};{j.Pass.Spotter};{j.Jumper};{j.Distance},0;{j.Bearing}"),
            "Grand total;;;;;;;;;;;2031,5;"])), _none, 1);
    }

    /// <summary>Day and time as one number without a format, units asked for.</summary>
    private static Book Serials()
    {
        var passes = Passes();
        List<object?[]> rows = [["Pass #", "Fire", "Drop date/time", "Fuel", "Spot radius", "Wind (mph)", "Streamer drift",
            "Streamer bearing",
            "Spotter", "Jumper #", "Off spot", "Landing bearing"]];
        rows.AddRange(Jumps(passes).Select(j => new object?[] { j.Pass.Id, j.Pass.Mission, Serial(j.Pass.Time), j.Pass.Terrain,
            j.Pass.Radius,
            j.Pass.Wind, j.Pass.Drift, j.Pass.To, j.Pass.Spotter, j.Jumper, j.Distance, j.Bearing }));
        rows.AddRange([["Average", null, null, null, null, null, 300, null, null, null, 31.5], ["Max", null, null, null, null, 11, 511]]);
        return new("counts of days, no unit stated", "season.xlsx", passes, Workbook(("Sheet1", rows)),
            [("target_radius_unit?", "target_radius_yd"), ("forecast_drift_unit?", "forecast_drift_yd"), ("forecast_to_unit?",
                "forecast_to_deg"),
                ("landing_distance_unit?", "landing_distance_yd"), ("landing_bearing_unit?", "landing_bearing_deg")], 2);
    }

    /// <summary>A calendar from 1904, days without a format, times as numbers.</summary>
    private static Book From1904()
    {
        var passes = Passes();
        List<object?[]> rows = [["Load number", "Flight", "Date jumped", "Time", "Ground cover", "Spot radius ft", "Wind kts", "Drift yds",
            "Drift to (true)", "Spotter", "Smokejumper", "Miss (yds)", "Miss bearing (true)"]];
        rows.AddRange(Jumps(passes).Select(j => new object?[] { j.Pass.Id, j.Pass.Mission, Serial(j.Pass.Time.Date) - 1462,
            j.Pass.Time.Hour * 100 + j.Pass.Time.Minute, j.Pass.Terrain, 3 * j.Pass.Radius, $"{j.Pass.Wind} mph", j.Pass.Drift, j.Pass.To,
            j.Pass.Spotter, j.Jumper, j.Distance, j.Bearing }));
        return new("a calendar from 1904, mph under knots", "season.xlsx", passes, Workbook(true, ("Jumps", rows)), _none, 0);
    }

    /// <summary>Two files, no time of day at all.</summary>
    private static Book DaysAlone()
    {
        var passes = Passes();
        List<object?[]> drops = [["Drops of 2031"], ["Load #", "Fire Name", "Jump date", "Fuel Type", "Spot Radius (yds)", "Wind (mph)",
            "WDI Drift (yds)", "Drift Hdg (true)", "Sptr"]];
        drops.AddRange(passes.Select(p => new object?[] { p.Id, p.Mission, p.Time.Text("d-MMM-yyyy"), p.Terrain, p.Radius, p.Wind,
            p.Drift, p.To,
            p.Spotter }));
        List<object?[]> landings = [["Load #", "Jumper Name", "Dist to spot (yds)", "Brg from spot (true)"]];
        landings.AddRange(Jumps(passes).Select(j => new object?[] { j.Pass.Id, j.Jumper, j.Distance, j.Bearing }));
        landings.AddRange([[], ["Total jumps", null, 48]]);
        return new("two sheets, days alone", "log.xlsx", passes, Workbook(("Drops", drops), ("Landings", landings)), _none, 1,
            HasTimes: false);
    }

    /// <summary>No day above 12: which of day and month comes first is asked.</summary>
    private static Book Open(string answer, string format)
    {
        var passes = Passes(lastDay: 12);
        return new("an open order, " + answer, "jumps.csv", passes, Encoding.UTF8.GetBytes(TempLog.Lines([
            "Load #,Fire Name,Date/Time,Fuel Type,Spot Radius (yds),Wind (mph),WDI Drift (yds),Drift Hdg (true),Sptr,Jumper Name,"
                + "Dist to spot (yds),Brg from spot (true)",
            .. Jumps(passes).Select(j =>
                $"{j.Pass.Id},{j.Pass.Mission},{j.Pass.Time.Text(format + " H:mm")},{Common(j.Pass)},{j.Pass.Spotter},"
                + $"{j.Jumper},{j.Distance},{j.Bearing}"), answer == "day first" ? "Sum,,,,,,,,,,1500," : ""])),
            [("\"dates\": \"?\"", $"\"dates\": \"{answer}\"")], answer == "day first" ? 1 : 0);
    }

    /// <summary>Every measure with its unit behind it and none in the headers.</summary>
    private static Book UnitsBehind()
    {
        var passes = Passes();
        List<object?[]> drops = [["Load #", "Fire Name", "Date", "Time", "Fuel Type", "Spot Radius", "Wind", "WDI Drift", "Drift Hdg",
            "Sptr"]];
        drops.AddRange(passes.Select(p => new object?[] { p.Id, p.Mission, new DateCell(Serial(p.Time.Date)), p.Time.Text("HH:mm:ss"),
            p.Terrain,
            $"{3 * p.Radius}'", $"{p.Wind} mph", $"{p.Drift}yds", $"{p.To}° true", p.Spotter }));
        List<object?[]> landings = [["Landings of 2031"], [], ["Load #", "Jumper Name", "Dist to spot", "Brg"]];
        landings.AddRange(Jumps(passes).Select(j => new object?[] { j.Pass.Id, j.Jumper, $"{3 * j.Distance} feet", $"{j.Bearing}°T" }));
        landings.Add(["* paced where no tape was at hand"]);
        return new("units behind every number", "log.xlsx", passes, Workbook(("drops", drops), ("landings", landings)), _none, 1);
    }

    /// <summary>Tabs, year first with strokes, some winds in knots under miles an hour, three rows of statistics.</summary>
    private static Book Tabs()
    {
        var passes = Passes();
        string Wind(Pass p) => p.Wind % 2 == 0 ? (p.Wind * 0.44704 / (1852 / 3600.0)).ToString("R", CultureInfo.InvariantCulture) + " kt"
            : $"{p.Wind}";
        return new("tabs, knots here and there", "jumps.tsv", passes, Encoding.UTF8.GetBytes(TempLog.Lines([
            "Load #\tFire Name\tDay flown\tDate\tExit time\tFuel Type\tSpot Radius (yds)\tWind (mph)"
                + "\tWDI Drift (yds)\tDrift Hdg (true)\tSptr\t"
                + "Jumper Name\tDist to spot (yds)\tBrg from spot (true)",
            .. Jumps(passes).Select(j => $"{j.Pass.Id}\t{j.Pass.Mission}\t{j.Pass.Time.Text("dddd")}\t{j.Pass.Time.Text("yyyy/M/d")}\t"
                + $"{j.Pass.Time.Text("HHmm")}L\t{j.Pass.Terrain}\t{j.Pass.Radius}\t{Wind(j.Pass)}"
                + $"\t{j.Pass.Drift}\t{j.Pass.To}\t{j.Pass.Spotter}\t"
                + $"{j.Jumper}\t{j.Distance}\t{j.Bearing}"),
            "Mean\t\t\t\t\t\t25\t6.5\t\t\t\t\t31.2\t", "Min\t\t\t\t\t\t25\t3\t\t\t\t\t3\t", "Max\t\t\t\t\t\t25\t11\t\t\t\t\t62\t"])),
                _none, 3);
    }

    /// <summary>Months in words, a subtotal after every twelve rows.</summary>
    private static Book Words()
    {
        var passes = Passes();
        List<object?[]> rows = [["Load #", "Fire Name", "Date & time", "Fuel Type", "Spot Radius (yds)", "Wind (mph)", "WDI Drift (yds)",
            "Drift Hdg (true)", "Sptr", "Jumper Name", "Dist to spot (yds)", "Brg from spot (true)"]];
        foreach (var (j, i) in Jumps(passes).Select((j, i) => (j, i)))
        {
            rows.Add([j.Pass.Id, j.Pass.Mission, j.Pass.Time.Text("MMMM d, yyyy h:mm tt"), j.Pass.Terrain, j.Pass.Radius, j.Pass.Wind,
                j.Pass.Drift,
                j.Pass.To, j.Pass.Spotter, j.Jumper, j.Distance, j.Bearing]);
            if (i % 12 == 11) rows.Add(["Subtotal", null, null, null, null, null, null, null, null, 12, 345.5]);
        }
        return new("months in words, subtotals", "season.xlsx", passes, Workbook(("June", rows)), _none, 4);
    }

    /// <summary>Days with midnight behind them beside a time in words, and a legend at the end.</summary>
    private static Book Midnights()
    {
        var passes = Passes();
        return new("midnights, a legend", "jumps.csv", passes, Encoding.UTF8.GetBytes(TempLog.Lines([
            "\"Jump log, kept by the loft\"", "",
            "Load #,Fire Name,Drop date,Drop time,Fuel Type,Spot Radius (yds),Wind (mph),WDI Drift (yds),Drift Hdg (true),Sptr,Jumper Name,"
                + "Dist to spot (yds),Brg from spot (true)",
            .. Jumps(passes).Select(j =>
                $"{j.Pass.Id},{j.Pass.Mission},{j.Pass.Time.Text("yyyy-MM-dd")} 00:00:00,{j.Pass.Time.Text("HHmm")} hrs,"
                + $"{Common(j.Pass)},{j.Pass.Spotter},{j.Jumper},{j.Distance},{j.Bearing}"),
            "", "timber = trees over 30 ft", "grass = all else", "End of record:"])), _none, 3);
    }

    private static string Common(Pass p) => $"{p.Terrain},{p.Radius},{p.Wind},{p.Drift},{p.To}";

    private static byte[] Workbook(params (string Sheet, List<object?[]> Rows)[] sheets) => Workbook(false, sheets);

    private static byte[] Workbook(bool from1904, params (string Sheet, List<object?[]> Rows)[] sheets)
    {
        var book = new MadeWorkbook { Date1904 = from1904 };
        foreach (var (sheet, rows) in sheets)
            book.With(sheet, string.Concat(rows.Select((r, i) => MadeWorkbook.Row(i + 1, [.. r.Select((c, k) =>
                Cell($"{(char)('A' + k)}{i + 1}", c))]))));
        return book.ToBytes();
    }

    private static string Cell(string at, object? value) => value switch
    {
        null => "",
        DateCell date => MadeWorkbook.Cell(at, date.Days.ToString("R", CultureInfo.InvariantCulture), style: 3),
        string text => $"<c r=\"{at}\" t=\"inlineStr\">"
            + $"<is><t xml:space=\"preserve\">{System.Security.SecurityElement.Escape(text)}</t></is></c>",
        IFormattable number => MadeWorkbook.Cell(at, number.ToString(null, CultureInfo.InvariantCulture)),
        _ => throw new ArgumentException("not a cell"),
    };
}
