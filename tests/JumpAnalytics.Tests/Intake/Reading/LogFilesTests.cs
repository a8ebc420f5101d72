namespace JumpAnalytics.Tests;

public sealed class LogFilesTests
{
    private static readonly string _drops = TempLog.Lines(TempLog.DropsHeader, TempLog.Drop1);
    private static readonly string _landings = TempLog.Lines(TempLog.LandingsHeader, TempLog.Landing1);

    [Fact]
    public void A_place_that_is_not_there_is_told_with_what_to_give()
    {
        var error = Assert.Throws<LogFormatException>(() => JumpLog.Read("no-such-folder"));
        Assert.Contains("'no-such-folder'", error.Message, StringComparison.Ordinal);
        Assert.Contains("drops.csv and landings.csv", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_a_log_is_told_with_what_was_found()
    {
        using var empty = new TempLog();
        Assert.Contains("There is no table in it", Assert.Throws<LogFormatException>(empty.Read).Message, StringComparison.Ordinal);

        using var half = new TempLog().With("drops.csv", _drops).With("winds.csv", "x\n");
        var message = Assert.Throws<LogFormatException>(half.Read).Message;
        Assert.Contains("Found: drops.csv, winds.csv", message, StringComparison.Ordinal);
        Assert.Contains("drops*.csv and landings*.csv", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_files_of_each_table_are_one_log()
    {
        using var files = TempLog.Of(_drops, _landings)
            .With("drops-2032.csv", TempLog.Lines("mission,drop_id,time,terrain,target_radius_ft,wind_speed_kt,"
                + "forecast_east_ft,forecast_north_ft", "m9,d9,2032-07-14T10:00,grass,75,7,100,-200"))
            .With("landings-2032.csv", TempLog.Lines("landing_east_ft,landing_north_ft,drop_id", "10,-20,d9", "1,2,d1"));
        var log = files.Read();
        Assert.Equal(["drops-2032.csv", "drops.csv", "landings-2032.csv", "landings.csv"], log.Intake.Files.Select(f => f.File));
        Assert.Equal(["drops", "drops", "landings", "landings"], log.Intake.Files.Select(f => f.Holds));
        Assert.Equal(["d9", "d1"], log.Drops.Select(d => d.Id));
        Assert.Equal(["d9", "d1", "d1"], log.Landings.Select(l => l.Drop.Id));
        Assert.Equal(5, log.Intake.RowsRead);
        Assert.Empty(log.Intake.Quarantine);
    }

    /// <summary>File names are matched in any case on every machine, as the start of the name already is.</summary>
    [Fact]
    public void File_names_match_in_any_case()
    {
        using var files = new TempLog().With("Drops.CSV", _drops).With("LANDINGS 2031.Csv", _landings);
        Assert.Single(files.Read().Landings);
    }

    private const string FlatHeader = TempLog.DropsHeader + ",landing_distance_yd,landing_bearing_deg,jumper,remarks";

    [Theory]
    [InlineData("jumps.csv", true)]
    [InlineData("drops.txt", false)]
    public void One_flat_table_holds_both(string name, bool asFolder)
    {
        using var files = new TempLog().With(name, TempLog.Lines(FlatHeader,
            TempLog.Drop1 + ",12,45,j1,first", TempLog.Drop1 + ",40,50,j2,second",
            "d2,m1,2031-07-14T15:40-06:00,timber,25,8,300,90,,,,nobody out"));
        var log = asFolder ? files.Read() : JumpLog.Read(Path.Combine(files.Folder, name));
        Assert.Equal(["d1", "d2"], log.Drops.Select(d => d.Id));
        Assert.Equal(["j1", "j2"], log.Landings.Select(l => l.Jumper));
        Assert.Same(log.Landings[0].Drop, log.Landings[1].Drop);
        Assert.Equal("d2", Assert.Single(log.Intake.DropsWithoutLandings).Id);
        var file = Assert.Single(log.Intake.Files);
        Assert.Equal(("drops and landings", 3, 3, 0), (file.Holds, file.RowsRead, file.RowsAccepted, file.RowsQuarantined));
    }

    [Fact]
    public void A_flat_row_that_gives_its_drop_other_values_is_set_apart()
    {
        using var files = new TempLog().With("jumps.csv", TempLog.Lines(FlatHeader, TempLog.Drop1 + ",12,45,j1,",
            TempLog.Drop1.Replace(",25,", ",26,", StringComparison.Ordinal) + ",40,50,j2,"));
        var problem = Assert.Single(Assert.Single(files.Read().Intake.Quarantine).Problems);
        Assert.Equal(("columns disagree", "drop_id", "d1"), (problem.Kind, problem.Column, problem.Value));
        Assert.Contains("jumps.csv:2", problem.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_flat_row_whose_landing_is_refused_is_set_apart_and_counted()
    {
        using var files = new TempLog().With("jumps.csv", TempLog.Lines(FlatHeader + ",hung_up",
            TempLog.Drop1 + ",12,45,j1,,no", TempLog.Drop1 + ",,,j2,,yes", TempLog.Drop1 + ",15,20,j1,,no"));
        var log = files.Read();
        Assert.Equal(["hang-up without distance", "repeated landing"], log.Intake.Quarantine.Select(q => q.Problems[0].Kind));
        Assert.True(Assert.Single(log.Intake.RefusedLandings(log.Seasons)).IsHangUpWithoutDistance);
        Assert.Equal(3, log.Intake.RowsRead);
        Assert.Equal(1, log.Intake.RowsAccepted);
    }

    [Fact]
    public void Missing_columns_are_told_at_once_with_what_was_found_and_what_is_accepted()
    {
        using var files = TempLog.Of(
            TempLog.Lines("drop_id,mission,tiem,terrain,target_radius,wind_speed_kph,forecast_drift_yd", "d1,m,x,t,1,2,3"), _landings);
        var message = Assert.Throws<LogFormatException>(files.Read).Message;
        Assert.StartsWith("drops.csv lacks 4 required columns. Missing:", message, StringComparison.Ordinal);
        foreach (var line in new[]
        {
            "\n  time, or date\n",
            "\n  target_radius_ch|ft|km|m|mi|nm|yd\n",
            "\n  wind_speed_kt|mph|mps\n",
            "\n  forecast_drift_ch|ft|km|m|mi|nm|yd + forecast_to_deg|degm, or forecast_east_ch|ft|km|m|mi|nm|yd + "
                + "forecast_north_ch|ft|km|m|mi|nm|yd\n",
            "\nFound: drop_id, mission, tiem, terrain, target_radius, wind_speed_kph, forecast_drift_yd.\n",
            "'tiem' did you mean time?",
            "'target_radius' needs its unit in the header: target_radius_ch|ft|km|m|mi|nm|yd",
            "'wind_speed_kph' accepted are wind_speed_kt|mph|mps",
        })
        {
            Assert.Contains(line, message, StringComparison.Ordinal);
        }

        using var noPlace = TempLog.Of(_drops, "drop_id,jumper\n");
        Assert.Contains("landing_distance_ch|ft|km|m|mi|nm|yd + landing_bearing_deg|degm, or landing_east_",
            Assert.Throws<LogFormatException>(noPlace.Read).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Columns_nobody_knows_are_told_and_not_read()
    {
        using var files = TempLog.Of(
            TempLog.Lines(TempLog.DropsHeader + ",exit_height,spoter,sky,ground_speed_fps", TempLog.Drop1 + ",1500,ab,clear,100"),
            _landings);
        var intake = files.Read().Intake;
        Assert.Equal(
            [
                new("exit_height", "needs its unit in the header: exit_height_ch|ft|km|m|mi|nm|yd"), new("spoter", "did you mean spotter?"),
                new("sky", null), new("ground_speed_fps", "accepted are ground_speed_kt|mph|mps"),
            ], intake.Files[0].UnknownColumns);
        Assert.Contains(intake.Points, p => p.Contains("spoter (did you mean spotter?), sky,", StringComparison.Ordinal));
        Assert.Equal(8, intake.Files[0].Columns.Count);
        Assert.Contains(new ReadColumn("target_radius_yd", "target_radius", MeasureUnit.Distance("yd")), intake.Files[0].Columns);
    }
}
