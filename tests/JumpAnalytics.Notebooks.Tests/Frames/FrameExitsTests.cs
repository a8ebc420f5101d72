using Deedle;
using JumpAnalytics.Notebooks.Tests.Figures;
using Microsoft.Data.Analysis;

namespace JumpAnalytics.Notebooks.Tests.Frames;

public class FrameExitsTests
{
    private const int PastSingle = 16_777_217; // 2^24 + 1, the first whole number that single precision can't hold

    private static readonly TableView Table = new("toy", "Toy",
        [
            new("place", "place", CellFormat.Text, "Text."), new("line", "line", CellFormat.Text, "A number that is a name."),
            new("rows", "rows", CellFormat.Count, "Count."), new("miss_m", "miss", CellFormat.Number, "Number."),
            new("share", "share", CellFormat.Share, "Share."), new("rate", "rate", CellFormat.ShareRange, "Estimate."),
        ],
        [
            ["meadow", 7, PastSingle, 0.1234567890123, 0.25, Estimate.Of(0.8, new Interval(0.7, 0.9))],
            [null, null, null, null, null, null],
            ["a \"b\", <c>", 12, 0, -2.5, 0.0, Estimate.WithoutRange(0.5, "a single mission")],
        ]);

    private static readonly string[] Names = ["place", "line", "rows", "miss_m", "share", "rate", "rate_low", "rate_high"];

    [Fact]
    public void A_data_frame_has_explicit_types_and_keeps_what_is_absent_absent()
    {
        var frame = Table.ToDataFrame();
        Assert.Equal(Names, frame.Columns.Select(c => c.Name));
        Assert.Equal(
            [typeof(string), typeof(string), typeof(int), typeof(double), typeof(double), typeof(double), typeof(double), typeof(double)],
            frame.Columns.Select(c => c.DataType));
        // One row without anything; the limits lack the estimate without an interval as well.
        Assert.Equal([1, 1, 1, 1, 1, 1, 2, 2], frame.Columns.Select(c => c.NullCount));
        Assert.Equal<object?>(["meadow", "7", PastSingle, 0.1234567890123, 0.25, 0.8, 0.7, 0.9], frame.Rows[0]);
        Assert.Equal(Enumerable.Repeat<object?>(null, 8), frame.Rows[1]);
        Assert.Equal<object?>(["a \"b\", <c>", "12", 0, -2.5, 0.0, 0.5, null, null], frame.Rows[2]);
    }

    [Fact]
    public void A_Deedle_frame_has_the_same_columns_and_values_with_rows_counted_from_0()
    {
        var frame = Table.ToDeedle();
        Assert.Equal(Names, frame.ColumnKeys);
        Assert.Equal([0, 1, 2], frame.RowKeys);
        Assert.Equal([2, 2, 2, 2, 2, 2, 1, 1], frame.ColumnKeys.Select(c => frame.Columns[c].ValueCount));
        Assert.Equal(
            [typeof(string), typeof(string), typeof(int), typeof(double), typeof(double), typeof(double), typeof(double), typeof(double)],
            frame.ColumnTypes);
        Assert.Equal(PastSingle, frame.GetColumn<int>("rows")[0]);
        Assert.Equal(0.1234567890123, frame.GetColumn<double>("miss_m")[0]);
        Assert.Equal("12", frame.GetColumn<string>("line")[2]);
        Assert.Equal(0.7, frame.GetColumn<double>("rate_low")[0]);
        Assert.False(frame.GetColumn<double>("rate_low").TryGet(2).HasValue);
        Assert.False(frame.GetColumn<string>("place").TryGet(1).HasValue);
    }

    [Fact]
    public void Whole_numbers_may_stand_in_a_column_of_numbers()
    {
        var table = new TableView("t", "T", [new("x", "x", CellFormat.Number, "X.")], [[3], [0.5]]);
        Assert.Equal<object?>([3.0, 0.5], ((DoubleDataFrameColumn)table.ToDataFrame()["x"]).Cast<object?>());
        Assert.Equal([3.0, 0.5], table.ToDeedle().GetColumn<double>("x").Values);
    }

    [Fact]
    public void A_table_without_rows_keeps_its_columns()
    {
        var empty = new TableView("t", "T", Table.Columns, []);
        Assert.Equal(Names, empty.ToDataFrame().Columns.Select(c => c.Name));
        Assert.Equal(0, empty.ToDataFrame().Rows.Count);
        Assert.Equal(Names, empty.ToDeedle().ColumnKeys);
        Assert.Equal(0, empty.ToDeedle().RowCount);
    }

    [Fact]
    public void Every_table_of_an_analysis_has_both_exits()
    {
        // The demo season has rows in every table, refused rows included.
        var accuracy = SeasonAccuracy.Of(JumpLog.Read(Path.Combine(Runner.Workshop.Root, "data-demo")),
            new AccuracyOptions { Replicates = 200 });
        var intake = accuracy.Log.Intake;
        ShownResult[] results =
        [
            accuracy.Glance, accuracy.Rates, accuracy.Changes, intake, intake.QuarantineTable, intake.SetAsideTable,
            intake.DropsWithoutLandingsTable, accuracy.LandingsTable, accuracy.Settings, LandingScatter.Of(accuracy),
        ];
        foreach (var table in results.SelectMany(r => r.Tables))
        {
            Assert.NotEmpty(table.Rows);
            var header = table.ToCsv().Split('\n')[0].Split(',');
            Assert.Equal(header, table.ToDataFrame().Columns.Select(c => c.Name));
            Assert.Equal(table.Rows.Count, table.ToDataFrame().Rows.Count);
            Assert.Equal(header, table.ToDeedle().ColumnKeys);
            Assert.Equal(table.Rows.Count, table.ToDeedle().RowCount);
        }
    }

    [Fact]
    public void Rates_pivot_in_Deedle()
    {
        var rates = HandMadeLog.Season().Analyse().Rates.Tables[0].ToDeedle();
        var pivot = rates.PivotTable<int, string, string, string, double>("terrain", "wind_band",
            cell => cell.GetColumn<double>("rate").Mean());
        Assert.Equal(0.75, pivot["0-5", "meadow"]); // 6 of 8 by hand
        Assert.Equal(0.25, pivot["0-5", "timber"]); // 1 of 4
        Assert.Equal(0.7, pivot["all", "meadow"]); // 7 of 10
        Assert.False(pivot.GetColumn<double>("5+").TryGet("timber").HasValue); // no landing there
    }
}
