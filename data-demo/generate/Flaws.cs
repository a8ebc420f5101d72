using System.Globalization;

namespace JumpAnalytics.Demo;

/// <summary>Plants the flaws of the record, one a row, spread over the seasons.</summary>
sealed class Flaws(List<Row> drops, List<Row> landings, Dice dice)
{
    public const string Optional = "optional value unreadable", Undecidable = "beyond less than the target radius";
    public const string Magnetic = "magnetic bearing", NoDistance = "hang-up without a distance";
    public static bool Refuses(string? flaw) => flaw is not (null or Optional or Undecidable or Magnetic);
    public HashSet<string> RefusedDrops { get; } = [];
    public HashSet<string> EmptyDrops { get; } = [];

    public void Plant()
    {
        foreach (var row in Sound(drops, r => StickOf(r) == 2).Take(2)) EmptyDrops.Add(row["drop_id"]);
        landings.RemoveAll(r => EmptyDrops.Contains(r["Drop_ID"]));

        InDrops("word in a number field", r => r["wind_speed_mph"] = "light");
        InDrops("required field blank", r => r["terrain"] = "");
        InDrops("negative radius", r => r["target_radius_yd"] = "-" + r["target_radius_yd"]);
        InDrops("bearing 400", r => r["forecast_to_deg"] = "400");
        InDrops("time unreadable", r => r["time"] = r["time"][..11] + "25:70");
        SecondRow("repeat of a drop - same values", r => { });
        SecondRow("repeat of a drop - other values", r => r["target_radius_yd"] = Recorder.Text(r.Drop.Mission.RadiusYd + 10));
        CalledOff(9, "required field blank", r => r["forecast_drift_yd"] = r["forecast_to_deg"] = "");
        CalledOff(3, "word in a number field", r => r["forecast_drift_yd"] = "none");
        CalledOff(2, "time unreadable", r => r["time"] = "after lunch");
        CalledOff(2, "too few fields", r => r.Cells.RemoveRange(14, r.Cells.Count - 14));
        CalledOff(2, "too many fields", r => Unquoted(r, "pass called off, nobody left"));
        Spoil(drops, 1, Optional, HasLandings, r => r["streamer_minutes"] = "-300");
        Spoil(drops, 1, Optional, HasLandings, r => r["exit_height_ft"] = "n/a");
        Spoil(drops, 1, Optional, HasLandings, r => r["ground_speed_kt"] = "fast");

        bool Hung(Row r) => r.Touchdown!.HungUp;
        double Miss(Row r) => r.Touchdown!.Miss.Length;
        Spoil(landings, 9, NoDistance, Hung, r => KeepOnly(r, "", ""));
        Spoil(landings, 4, Undecidable, r => Hung(r) && Miss(r) > 30, r => KeepOnly(r, "Landing_Beyond_yd", "20"));
        foreach (var r in Sound(landings, r => Hung(r) && Miss(r) > r.Drop.Mission.RadiusYd + 15).Take(14).ToList())
            KeepOnly(r, "Landing_Beyond_yd", Recorder.Text(Math.Max(Math.Floor(Miss(r) * 0.95 / 25) * 25, r.Drop.Mission.RadiusYd)));
        MagneticStretch(new DateTime(2025, 7, 20), atLeast: 20);
        Spoil(landings, 5, "word in a number field", ByDistance, r => r["Landing_Distance_yd"] = dice.Of("close", "on it", "far"));
        Spoil(landings, 4, "required field blank", r => ByDistance(r) && StickOf(r) > 1, r => r["Drop_ID"] = "");
        Spoil(landings, 3, "negative distance", ByDistance, r => r["Landing_Distance_yd"] = "-" + r["Landing_Distance_yd"]);
        Spoil(landings, 3, "bearing 400", ByDistance, r => r["Landing_Bearing_deg"] = "400");
        Spoil(landings, 4, "distance without bearing", ByDistance, r => r["Landing_Bearing_deg"] = "");
        Spoil(landings, 4, "drop not in the log", r => ByDistance(r) && StickOf(r) > 1, r => r["Drop_ID"] = r["Drop_ID"][..^1] + "8");
        Spoil(landings, 2, "latitude 95", r => r["Landing_Lat"] != "", r => r["Landing_Lat"] = "95" + r["Landing_Lat"][2..]);
        Spoil(landings, 2, "too few fields", ByDistance, r => r.Cells.RemoveRange(5, r.Cells.Count - 5));
        Spoil(landings, 2, "too many fields", ByDistance, r => Unquoted(r, "slid, no harm"));
        Spoil(landings, 1, Optional, ByDistance, r => r["Hung_Up"] = "maybe");
        Spoil(landings, 1, Optional, r => r["Measured_SD_m"] != "", r => r["Measured_SD_m"] = "??");
    }

    private int StickOf(Row row) => row.Drop.Jumpers.Length;
    private bool HasLandings(Row row) => !EmptyDrops.Contains(row.Drop.Id);
    /// <summary>At a distance of 0 a bearing says nothing: trouble with it would be no flaw.</summary>
    private static bool HasBearing(Row row) => row["Landing_Distance_yd"] is not ("" or "0") && row["Landing_Bearing_deg"] != "";
    private static bool ByDistance(Row row) => HasBearing(row) && row["Hung_Up"] == "no";
    private IEnumerable<Row> Sound(List<Row> rows, Func<Row, bool> where) =>
        dice.Shuffled(rows.Where(r => r.Flaw is null && !RefusedDrops.Contains(r.Drop.Id) && where(r)));

    private void Spoil(List<Row> rows, int count, string flaw, Func<Row, bool> where, Action<Row> spoil)
    {
        foreach (var row in Sound(rows, where).Take(count)) { spoil(row); row.Flaw = flaw; }
    }

    /// <summary>A refused drop takes its landings along, so these are few and their sticks small.</summary>
    private void InDrops(string flaw, Action<Row> spoil) =>
        Spoil(drops, 1, flaw, r => StickOf(r) <= 2 && HasLandings(r), r => { RefusedDrops.Add(r.Drop.Id); spoil(r); });

    private void SecondRow(string flaw, Action<Row> change) =>
        InsertAfter(Sound(drops, r => StickOf(r) == 1 && HasLandings(r)).First(), flaw, change);

    /// <summary>A further row of a mission for a pass on which nobody left.</summary>
    private void CalledOff(int count, string flaw, Action<Row> spoil)
    {
        bool IsLast(Row r) => drops.All(o => o.Drop.Mission != r.Drop.Mission || (o.Flaw is null && o.Drop.Pass <= r.Drop.Pass));
        foreach (var last in Sound(drops, IsLast).Take(count))
            InsertAfter(last, flaw, r =>
            {
                r["drop_id"] = $"{r.Drop.Mission.Id}-{r.Drop.Pass + 1}";
                r["time"] = $"{r.Drop.Time.AddMinutes(5):yyyy-MM-ddTHH:mm}-10:00";
                r["exit_distance_yd"] = r["exit_bearing_deg"] = "";
                r["remarks"] = "pass called off, nobody left";
                spoil(r);
            });
    }

    private void InsertAfter(Row row, string flaw, Action<Row> change)
    {
        var copy = row.Copy();
        change(copy);
        copy.Flaw = flaw;
        drops.Insert(drops.IndexOf(row) + 1, copy);
    }

    private void MagneticStretch(DateTime from, int atLeast)
    {
        var done = 0;
        foreach (var mission in landings.Where(r => r.Drop.Mission.Start >= from).GroupBy(r => r.Drop.Mission))
        {
            if (done >= atLeast) return;
            foreach (var row in mission.Where(r => r.Flaw is null && HasBearing(r) && !RefusedDrops.Contains(r.Drop.Id)))
            {
                var magnetic = int.Parse(row["Landing_Bearing_deg"], CultureInfo.InvariantCulture) - Planted.DeclinationEastDeg;
                (row["Landing_Bearing_degm"], row["Landing_Bearing_deg"], row.Flaw) =
                    (Recorder.Text(Seasons.Bearing(magnetic, 1)), "", Magnetic);
                done++;
            }
        }
    }

    /// <summary>A remark whose comma splits it, because nobody quoted it.</summary>
    private static void Unquoted(Row row, string remark)
    {
        row.Cells.RemoveAt(row.Cells.Count - 1);
        row.Cells.AddRange(remark.Split(','));
    }

    private static void KeepOnly(Row row, string column, string value)
    {
        foreach (var c in Recorder.LandingColumns[5..13]) row[c] = "";    // how, how well and where it was measured
        if (column != "") row[column] = value;
    }
}
