namespace JumpAnalytics.Tests;

/// <summary>Whatever a cell ends with can be read: every public value has a rendering.</summary>
public sealed class ShowingTests
{
    private static IEnumerable<Type> Values => new[] { typeof(ShownResult), typeof(JumpLog) }.SelectMany(t => t.Assembly.GetExportedTypes())
        .Where(t => !t.IsEnum && !t.IsInterface && !(t.IsAbstract && t.IsSealed) && !t.IsSubclassOf(typeof(Exception))
            && !t.IsSubclassOf(typeof(Attribute)));

    [Fact]
    public void Every_public_value_tells_a_notebook_how_to_show_it()
    {
        Assert.True(Values.Count() > 200);
        Assert.Empty(Values.Where(t => !t.IsSubclassOf(typeof(Attribute))
            && t.GetCustomAttributes(inherit: true).All(a => a.GetType().Name != "TypeFormatterSourceAttribute")).Select(t => t.Name));
    }

    [Fact]
    public void A_value_shows_its_parts_with_their_meaning()
    {
        var shown = Showing.Of(new AccuracyOptions { Confidence = 0.9 });
        var table = shown.Tables[0];
        Assert.Equal("Accuracy options", table.Title);
        var row = Assert.Single(table.Rows, r => (string?)r[0] == "Confidence");
        Assert.Equal("0.9", row[1]);
        Assert.Contains("interval", (string?)row[2]);
        Assert.All(table.Rows, r => Assert.DoesNotContain("`", $"{r[1]}{r[2]}"));
    }

    [Fact]
    public void A_value_with_a_text_of_its_own_shows_that_and_a_key_keeps_its_secret()
    {
        Assert.Equal("12 m east, 0 m north\n", Showing.Of(new LocalVector(12, 0)).ToString());
        Assert.Equal("5 m/s from 270° true\n", Showing.Of(new WindVector(5, 0)).ToString());
        Assert.Equal("3 m along, −2 m to the right\n", Showing.Of(new PlaneVector(3, -2)).ToString().Replace('-', '−'));
        Assert.Equal("0.84 (0.80 to 0.90)\n", Showing.Of(Estimate.Of(0.84, new Interval(0.8, 0.9))).ToString());
        Assert.Equal("0.84 (no interval: one mission)\n", Showing.Of(Estimate.WithoutRange(0.84, "one mission")).ToString());
        var folder = Directory.CreateTempSubdirectory("jump-key-");
        try
        {
            var key = PseudonymKey.Create(Path.Combine(folder.FullName, "base.key"));
            Assert.Equal("pseudonym key (not shown)\n", Showing.Of(key).ToString());
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void A_fit_shows_its_value_or_its_reason()
    {
        Assert.Equal("not to be had: too few missions\n", Showing.Of(Fit<BivariateNormal>.Refused("too few missions")).ToString());
        var made = Showing.Of(Fit<BivariateNormal>.Made(new BivariateNormal(1, 2, 3, 4, 0)));
        Assert.Equal("Bivariate normal", made.Tables[0].Title);
        Assert.Same(made.GetType(), Showing.Of(new BivariateNormal(1, 2, 3, 4, 0)).GetType());
        Assert.Equal("Nothing.\n", Showing.Of(null).ToString());
        var result = new Brief("It is.", []);
        Assert.Same(result, Showing.Of(result));
    }

    [Fact]
    public void A_list_has_a_line_for_each_item_and_says_where_it_stops()
    {
        var log = Demo.DemoLog.Log;
        var landings = Assert.Single(Showing.Of(log.Landings).Tables);
        Assert.Equal("Landing: 1,487 items", landings.Title);
        Assert.Equal((300, "The first 300 of 1,487."), (landings.Rows.Count, landings.Note));
        Assert.Contains(landings.Columns,
            c => c.Label == "Exit order" && c.Meaning.StartsWith("Place in the stick", StringComparison.Ordinal));
        Assert.Equal(log.Landings[0].Drop.Id, landings.Rows[0][landings.Columns.Select(c => c.Name).ToList().IndexOf("Drop")]);
        Assert.Equal([["1"], ["2.5"], ["–"]], Showing.Of(new object?[] { 1, 2.5, null }).Tables[0].Rows);
        Assert.Equal("Three: 3 items", Showing.Of(new[] { 1, 2, 3 }, "Three").Tables[0].Title);
        Assert.Equal("Asked for", Showing.Of(new AccuracyOptions(), "Asked for").Tables[0].Title);
        Assert.Equal("List: 0 items", Showing.Of(Array.Empty<Landing>()).Tables[0].Title);
    }

    [Fact]
    public void Lists_inside_a_value_become_tables_of_their_own()
    {
        var rates = SeasonAccuracy.Of(Demo.DemoLog.Log, new AccuracyOptions { Replicates = 200 }).Rates;
        var shown = Showing.Of(rates.Cell("5-10", "ridge lee"));
        Assert.Contains(shown.Tables[0].Rows,
            r => (string?)r[0] == "Hits" && (string?)r[1] == rates.Cell("5-10", "ridge lee").Hits.ToString());
        var pooled = Showing.Of(PooledRates.Of([.. Enumerable.Range(0, 12).SelectMany(i =>
            new[] { new PooledCount($"m{i}", i % 2 == 0 ? "0-5" : "5-10", "meadow", 2 + i % 2, 4) })], new PoolingOptions()));
        Assert.True(pooled.Tables.Count > 1);
    }

    [Fact]
    public void Numbers_without_a_unit_keep_five_digits()
    {
        Assert.Equal(["0.001235", "12.346", "−3", "123,457", "1E+20"],
            new[] { 0.00123500, 12.34567, -3, 123456.7, 1e20 }.Select(ResultText.Number));
    }
}
