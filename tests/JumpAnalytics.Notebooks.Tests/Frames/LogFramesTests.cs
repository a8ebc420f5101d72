using JumpAnalytics.Tests;
using Deedle;
using JumpAnalytics.Notebooks.Tests.Runner;
using Microsoft.Data.Analysis;

namespace JumpAnalytics.Notebooks.Tests.Frames;

/// <summary>A log as frames of either package, and back through the intake.</summary>
public class LogFramesTests
{
    private static readonly JumpLog _demo = JumpLog.Read(Path.Combine(Workshop.Root, "data-demo"));

    [Fact]
    public void Landings_have_a_row_each_with_the_columns_of_the_log_and_units_in_their_names()
    {
        var frame = _demo.ToDataFrame();
        Assert.Equal(_demo.Landings.Count, frame.Rows.Count);
        Assert.Equal(frame.Columns.Count, frame.Columns.Select(c => c.Name).Distinct().Count());
        Assert.All(["landing", "drop_id", "target_radius_m", "wind_speed_mps", "streamer_minutes", "landing_east_m", "miss_m", "downwind_m",
            "hit"], name => Assert.NotNull(frame[name]));
        Assert.Equal(_demo.Landings.Count(l => l.MissDistance is null), frame["miss_m"].NullCount);
        Assert.Equal(_demo.Landings.Count(l => l.Outcome == LandingOutcome.Hit), frame["hit"].Cast<double?>().Sum()!.Value);
        Assert.Equal([typeof(double), typeof(bool), typeof(int), typeof(DateTime), typeof(string)],
            new[] { "miss_m", "hung_up", "exit_order", "day", "drop_id" }.Select(n => frame[n].DataType));
    }

    [Fact]
    public void Deedle_keys_are_landings_and_missions_and_missions_stand_in_order_of_time()
    {
        var landings = _demo.ToDeedle();
        Assert.Equal(_demo.Landings.Count, landings.RowKeys.Distinct().Count());
        Assert.Contains($"{_demo.Landings[0].Drop.Id}/1", landings.RowKeys);
        var missions = _demo.MissionsToDeedle();
        Assert.Equal(_demo.Landings.Select(l => l.Drop.Mission).Distinct().Count(), missions.RowCount);
        var days = missions.GetColumn<DateTime>("day").Values.ToList();
        Assert.Equal(days.Order(), days);
        var first = missions.GetColumn<string>("mission")[1];
        var one = _demo.Landings.Where(l => l.Drop.Mission == first).ToList();
        Assert.Equal(one.Count(l => l.Outcome == LandingOutcome.Hit), missions.GetColumn<int>("hits")[1]);
        Assert.Equal(one.Select(l => l.MissDistance).Average()!.Value,
            missions.GetColumn<double>("mean_miss_m")[1], 1e-9);
        Assert.Equal(_demo.MissionsToDataFrame()["mission"].Cast<string>(), missions.GetColumn<string>("mission").Values);
        var moving = missions.GetColumn<double>("mean_miss_m").Window(30).Select(w => w.Value.Median());
        Assert.Equal(missions.GetColumn<double>("mean_miss_m").ValueCount - 29, moving.KeyCount);
        Assert.Equal(30, moving.Keys.First());
    }

    /// <summary>A moving window needs no ids whose text rises in time.</summary>
    [Theory]
    [InlineData("ids that sort oddly")]
    [InlineData("ids that fall in time")]
    public void Windows_move_over_missions_of_any_ids(string odd) =>
        Assert.Equal(20, OddLogs.Named(odd).Read().MissionsToDeedle().GetColumn<double>("mean_miss_m").Window(5).KeyCount);

    [Fact]
    public void A_frame_reads_back_as_the_same_log_from_either_package()
    {
        var frame = _demo.ToDataFrame();
        AssertSame(frame, frame.ToLog().ToDataFrame());
        AssertSame(frame, _demo.ToDeedle().ToLog().ToDataFrame());
        AssertSame(frame, frame.ToDeedle("landing").ToLog().ToDataFrame());
        var again = frame.ToLog("again");
        Assert.Equal("again", again.Name);
        Assert.Equal(0, again.Intake.RowsQuarantined);
        Assert.Empty(again.Intake.Files.SelectMany(f => f.UnknownColumns));
        Assert.Equal(SeasonGlance.Of(_demo.Landings, new AccuracyOptions { Replicates = 200 }).Tables[0].ToCsv(),
            SeasonGlance.Of(again.Landings, new AccuracyOptions { Replicates = 200 }).Tables[0].ToCsv());

        static void AssertSame(DataFrame expected, DataFrame actual)
        {
            Assert.Equal(expected.Columns.Select(c => (c.Name, c.DataType)), actual.Columns.Select(c => (c.Name, c.DataType)));
            foreach (var (a, b) in expected.Columns.Zip(actual.Columns))
                Assert.Equal(Enumerable.Range(0, (int)a.Length).Select(i => a[i]), Enumerable.Range(0, (int)b.Length).Select(i => b[i]));
        }
    }

    [Fact]
    public void What_a_frame_spoils_is_refused_like_a_row_of_a_file()
    {
        var frame = _demo.ToDataFrame();
        frame["wind_speed_mps"][0] = -4.0;
        var log = frame.ToLog();
        var refused = Assert.Single(log.Intake.Quarantine);
        Assert.Equal(("frame", 2), (refused.Source.Table, refused.Source.Line));
        Assert.Equal("wind_speed_mps", refused.Problems[0].Column);
        Assert.Equal(_demo.Landings.Count - 1, log.Landings.Count);

        frame.Columns.Remove("terrain");
        var error = Assert.Throws<LogFormatException>(() => frame.ToLog());
        Assert.Contains("terrain", error.Message);
    }

    [Fact]
    public void Filtering_in_a_frame_filters_the_log()
    {
        var frame = _demo.ToDataFrame();
        var measured = frame.Filter(frame["measured_by"].ElementwiseEquals("gps")).ToLog();
        Assert.Equal(_demo.Landings.Count(l => l.MeasuredBy == "gps"), measured.Landings.Count);
        Assert.All(measured.Landings, l => Assert.Equal("gps", l.MeasuredBy));
    }

    [Fact]
    public void The_landings_of_a_frame_are_a_part_of_the_log_with_its_tracks_and_origins()
    {
        var frame = _demo.ToDataFrame();
        var part = _demo.Where(frame.Filter(frame["measured_by"].ElementwiseEquals("gps")), "measured by gps");
        Assert.Equal(_demo.Landings.Where(l => l.MeasuredBy == "gps"), part.Landings);
        Assert.Equal(LogTracks.Of(_demo).Tracked.Count(l => l.MeasuredBy == "gps"), LogTracks.Of(part).Tracked.Count());
        Assert.Equal("measured by gps", part.Part);
        Assert.Equal(part.Landings, _demo.Where(part.ToDeedle()).Landings);
        Assert.Equal(part.Landings, part.Where(part.ToDataFrame()).Landings);

        frame.Columns.Remove("landing");
        Assert.Contains("no column 'landing'", Assert.Throws<ArgumentException>(() => _demo.Where(frame)).Message);
        var landing = Assert.Single(part.Landings.Take(1));
        var others = _demo.Where(l => l != landing, "others").ToDeedle();
        Assert.Contains("is no landing of", Assert.Throws<ArgumentException>(() => part.Where(others)).Message);
    }

    [Fact]
    public void Frames_pass_from_one_package_to_the_other_with_what_is_absent_absent()
    {
        var frame = new DataFrame(new StringDataFrameColumn("id", ["a", "b", "c"]), new SingleDataFrameColumn("x", [1.5f, null, 2.5f]),
            new Int64DataFrameColumn("n", [1L, 2L, long.MaxValue]), new DoubleDataFrameColumn("nan", [double.NaN, 1, null]));
        var deedle = frame.ToDeedle("id");
        Assert.Equal(["a", "b", "c"], deedle.RowKeys);
        Assert.False(deedle.GetColumn<double>("x").TryGet("b").HasValue);
        Assert.Equal((double)long.MaxValue, deedle.GetColumn<double>("n")["c"]);
        Assert.Equal(1, deedle.GetColumn<double>("nan").ValueCount);
        var back = deedle.ToDataFrame("id");
        Assert.Equal(["id", "x", "n", "nan"], back.Columns.Select(c => c.Name));
        Assert.Equal([0, 1, 0, 2], back.Columns.Select(c => c.NullCount));

        Assert.Contains("no column 'key'; there are id, x, n, nan", Assert.Throws<ArgumentException>(() => frame.ToDeedle("key")).Message);
        Assert.Contains("is missing in row 1", Assert.Throws<ArgumentException>(() => frame.ToDeedle("x")).Message);
        frame["id"][1] = "a";
        Assert.Contains("is a in 2 rows", Assert.Throws<ArgumentException>(() => frame.ToDeedle("id")).Message);
        Assert.Equal(["0", "1", "2"], frame.ToDeedle().RowKeys);
        Assert.Contains("'when' holds TimeSpan", Assert.Throws<ArgumentException>(() =>
            new DataFrame(new PrimitiveDataFrameColumn<TimeSpan>("when", [TimeSpan.Zero])).ToDeedle()).Message);
    }
}
