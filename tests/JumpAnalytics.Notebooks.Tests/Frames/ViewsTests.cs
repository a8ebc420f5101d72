using Deedle;
using JumpAnalytics.Notebooks.Tests.Figures;

namespace JumpAnalytics.Notebooks.Tests.Frames;

public class ViewsTests
{
    [Fact]
    public void A_frame_is_a_small_table_with_escaped_text_and_dashes_for_what_is_absent()
    {
        var frame = new FrameBuilder.Columns<string, string>
        {
            { "<b>x</b>", new SeriesBuilder<string, double> { { "a", 1.5 }, { "b", double.NaN } }.Series }, // Deedle takes NaN for missing
            { "y", new SeriesBuilder<string, string> { { "a", "<script>alert(1)</script>" }, { "b", "plain" } }.Series },
        }.Frame;
        var view = Views.OfFrame(frame);
        Assert.Equal("Frame of 2 rows and 2 columns", view.Title);
        Assert.Equal(["key", "<b>x</b>", "y"], view.Columns.Select(c => c.Label));
        Assert.Equal<object?>(["a", "1.5", "<script>alert(1)</script>"], view.Rows[0]);
        Assert.Equal<object?>(["b", null, "plain"], view.Rows[1]);

        var html = view.Html();
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt;", html);
        Assert.DoesNotContain("<script", html);
        Assert.DoesNotContain("<b>", html);
        Assert.Contains(">–</td>", html);
        Assert.InRange(html.Length, 200, 2000); // the object tree of such a frame has two million letters
    }

    [Fact]
    public void A_long_frame_shows_its_first_rows_and_says_so()
    {
        var frame = new FrameBuilder.Columns<int, string>
        { { "x", new Series<int, int>(Enumerable.Range(0, 201), Enumerable.Range(0, 201)) }
        }.Frame;
        var view = Views.OfFrame(frame);
        Assert.Equal(200, view.Rows.Count);
        Assert.Equal("Frame of 201 rows and 1 column", view.Title);
        Assert.Equal("The first 200 rows.", view.Note);
    }

    [Fact]
    public void A_series_and_a_data_frame_are_tables_too()
    {
        var series = Views.OfSeries(new SeriesBuilder<string, double> { { "a", 1.5 }, { "<b>", double.NaN } }.Series);
        Assert.Equal("Series of 2 values", series.Title);
        Assert.Equal<object?>(["a", "1.5", "<b>", null], series.Rows.SelectMany(r => r));

        var table = new TableView("t", "T", [new("x", "x", CellFormat.Count, "X."), new("y", "y", CellFormat.Text, "Y.")],
            [[7, null], [null, "<i>"]]);
        var frame = Views.OfFrame(table.ToDataFrame());
        Assert.Equal("Frame of 2 rows and 2 columns", frame.Title);
        Assert.Equal(["row", "x", "y"], frame.Columns.Select(c => c.Label));
        Assert.Equal<object?>(["0", "7", null, "1", null, "<i>"], frame.Rows.SelectMany(r => r));
    }

    [Fact]
    public void A_frame_without_rows_is_shown_too() =>
        Assert.Contains("none", Views.OfFrame(new TableView("t", "T", [new("x", "x", CellFormat.Count, "X.")], []).ToDeedle()).Html());
}
