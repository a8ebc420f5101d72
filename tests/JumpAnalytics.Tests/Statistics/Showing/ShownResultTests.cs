using System.Text.Json;
using System.Text.RegularExpressions;

namespace JumpAnalytics.Tests;

/// <summary>One contract for every result that can be shown.</summary>
public sealed partial class ShownResultTests(HostileLog hostile) : IClassFixture<HostileLog>
{
    private readonly HostileLog _hostile = hostile;

    private IEnumerable<ShownResult> All => _hostile.Results.Concat(_hostile.Wholes);

    private static string Html(ShownResult result)
    {
        using var writer = new StringWriter();
        result.WriteHtml(writer);
        return writer.ToString();
    }

    [Fact]
    public void Every_kind_of_result_of_the_core_is_tried_here()
    {
        var kinds = new[] { typeof(ShownResult), typeof(JumpLog) }.SelectMany(t => t.Assembly.GetTypes())
            .Where(t => t.IsSubclassOf(typeof(ShownResult)) && !t.IsAbstract);
        Assert.Equal(kinds.Select(t => t.Name).Order(StringComparer.Ordinal),
            All.Select(r => r.GetType().Name).Distinct().Order(StringComparer.Ordinal));
    }

    /// <summary>The hostile texts reach the results: where they didn't, the tests of escaping would pass for nothing.</summary>
    [Fact]
    public void Texts_from_the_records_are_in_the_results()
    {
        Assert.Contains("<script>", _hostile.Log.Intake.ToString(), StringComparison.Ordinal); // header nobody knows, value, id
        Assert.Contains("drops<img src=x>.csv", _hostile.Log.Intake.ToString(), StringComparison.Ordinal);
        foreach (var result in new ShownResult[] { _hostile.Accuracy.Glance, _hostile.Accuracy.Rates, _hostile.Accuracy.Changes,
            _hostile.Log.Intake.QuarantineTable, _hostile.Log.Intake.SetAsideTable })
            Assert.Contains("<script>", result.ToString(), StringComparison.Ordinal);
        Assert.Contains("lonely<b>", _hostile.Log.Intake.DropsWithoutLandingsTable.ToString(), StringComparison.Ordinal);
        Assert.Contains("<script>", string.Join(' ', _hostile.Log.Intake.Points), StringComparison.Ordinal);
    }

    /// <summary>Only tags and attributes that the renderer itself writes; everything else would have come from a record.</summary>
    [Fact]
    public void No_text_from_the_records_becomes_markup()
    {
        string[] tags = ["p", "ul", "li", "div", "table", "caption", "thead", "tbody", "tr", "th", "td", "details", "summary"];
        foreach (var result in All)
        {
            var html = Html(result);
            var found = Tag().Matches(html);
            Assert.NotEmpty(found);
            Assert.All(found, m => Assert.Contains(m.Groups["name"].Value, tags));
            Assert.Equal(html.Count(c => c == '<'), found.Count);
            Assert.Equal(html.Count(c => c == '>'), found.Count);
            foreach (Match tag in found)
            {
                var rest = Attribute().Replace(tag.Groups["attributes"].Value, "");
                Assert.True(rest.Trim().Length == 0, $"{result.GetType().Name}: {tag.Value}");
            }
            Assert.All(Ampersand().Matches(html), m => Assert.Matches("^&(lt|gt|amp|quot|#[0-9]+);", html[m.Index..]));
        }
    }

    [GeneratedRegex("<(?<close>/?)(?<name>[a-z]+)(?<attributes>[^<>]*)>")]
    private static partial Regex Tag();

    [GeneratedRegex("\\s(class|role|tabindex|aria-label|scope|title|colspan)=\"[^\"<>]*\"")]
    private static partial Regex Attribute();

    [GeneratedRegex("&")]
    private static partial Regex Ampersand();

    [Fact]
    public void Tags_are_closed_in_order()
    {
        foreach (var result in All)
        {
            var open = new Stack<string>();
            foreach (Match tag in Tag().Matches(Html(result)))
            {
                if (tag.Groups["close"].Length == 0) open.Push(tag.Groups["name"].Value);
                else Assert.Equal(open.Pop(), tag.Groups["name"].Value);
            }
            Assert.Empty(open);
        }
    }

    [Fact]
    public void Every_column_of_every_table_is_in_the_glossary()
    {
        var fixedColumns = Columns.All.ToHashSet();
        Assert.True(fixedColumns.Count > 30);
        foreach (var table in Tables())
        {
            foreach (var column in table.Columns)
            {
                // A wind band's heading names its unit; columns with a unit are made by the glossary's own functions.
                var known = fixedColumns.Contains(column) || fixedColumns.Contains(column with { Label = "wind band" })
                    || MeasureUnit.Distances.Values.Any(u =>
                        column == Columns.TargetRadii(u) || IsMeasure(column, u) || column == Columns.BiasDownwind(u)
                        || column == Columns.BiasRight(u) || column == Columns.BetweenSd(u) || column == Columns.WithinSd(u)
                        || column == Columns.MissQuantile(90, u) || column == Columns.ModelRadius(90, u)
                        || IsRange(column, u)
                        || MissSummary.Percents.Any(p => column == Columns.MissQuantile(p, u) || column == Columns.ModelRadius(p, u)));
                known |= MeasureUnit.Speeds.Values.Append(MeasureUnit.FeetPerSecond)
                    .Any(u => IsMeasure(column, u) || IsSpeedRange(column, u));
                Assert.True(known, $"{table.Name}: {column.Name} is not in the glossary.");
                Assert.Matches("^[a-z][a-z0-9_]*$", column.Name);
                Assert.NotEqual("", column.Meaning);
                Assert.EndsWith(".", column.Meaning, StringComparison.Ordinal);
            }
        }
    }

    private static bool IsRange(TableColumn column, MeasureUnit unit)
    {
        var (tail, mark) = ("_" + unit.Suffix, $" ({unit.Suffix})");
        return column.Name.EndsWith(tail, StringComparison.Ordinal) && column.Label.EndsWith(mark, StringComparison.Ordinal)
            && (column == Columns.SignedDistance(column.Name[..^tail.Length], column.Label[..^mark.Length], unit, column.Meaning)
                || column == Columns.DistanceRange(column.Name[..^tail.Length], column.Label[..^mark.Length], unit, column.Meaning));
    }

    private static bool IsSpeedRange(TableColumn column, MeasureUnit unit)
    {
        var (tail, mark) = ("_" + unit.Suffix, $" ({unit.Suffix})");
        return column.Name.EndsWith(tail, StringComparison.Ordinal) && column.Label.EndsWith(mark, StringComparison.Ordinal)
            && column == Columns.SpeedRange(column.Name[..^tail.Length], column.Label[..^mark.Length], unit, column.Meaning);
    }

    private static bool IsMeasure(TableColumn column, MeasureUnit unit)
    {
        var (tail, mark) = ("_" + unit.Suffix, $" ({unit.Suffix})");
        return column.Name.EndsWith(tail, StringComparison.Ordinal) && column.Label.EndsWith(mark, StringComparison.Ordinal)
            && column == Columns.Measure(column.Name[..^tail.Length], column.Label[..^mark.Length], unit, column.Meaning);
    }

    [Fact]
    public void The_glossary_names_a_column_once_and_measured_ones_end_in_their_unit()
    {
        var names = Columns.All.Select(c => c.Name).ToList();
        Assert.Equal(names.Count, names.Distinct().Count());
        foreach (var unit in MeasureUnit.Distances.Values)
        {
            Assert.All([Columns.BiasDownwind(unit), Columns.BiasRight(unit), Columns.MissQuantile(85, unit),
                Columns.Measure("miss", "miss", unit, "Length.")],
                c => Assert.EndsWith("_" + unit.Suffix, c.Name, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Table_names_are_file_names_and_told_apart()
    {
        var names = Tables().Select(t => t.Name).Distinct().ToList();
        Assert.All(names, n => Assert.Matches("^[a-z0-9]+(-[a-z0-9]+)*$", n));
        Assert.Equal(
            ["against-history", "age-classes", "age-effects", "age-growth", "age-law", "as-planned", "backtest",
                "chart-points", "chart-signals", "charts", "claim", "claim-planning", "clearing", "column-map", "cost-shift", "coverage",
                "debrief-settings", "descent-tracks", "drops-without-landings", "exit-shifts",
                "fair-comparison", "files-read", "forecast-check", "forecast-rate-by-steering", "forecast-review-settings",
                "forecast-share", "landings", "landings-by-group", "largest-stick",
                "learning-curve", "log-columns", "margin-backtest", "margin-settings", "margins", "miss-budget",
                "miss-model-parameters", "miss-models", "misses-by-season",
                "mission-landings", "quarantine", "quarantine-by-reason", "rate-difference", "rate-readings",
                "rates-by-cell", "rates-by-cell-shared",
                "reach-by-height", "record-flag-rows", "record-flags",
                "reliability", "review-questions", "review-settings", "row-origin", "season-changes", "season-drift", "season-trend",
                "seasons", "settings", "spotter-bias",
                "spotter-chart-points", "spotter-chart-signals", "spotter-charts", "spotter-directions", "spotter-drift-slope",
                "spotter-frames", "spotter-influence",
                "spotter-learning", "spotter-scatter", "spotter-spread", "stick-calibration", "stick-model", "stick-sizes",
                "streamer-drifts", "streamer-winds", "table-columns", "three-rates", "track-inventory",
                "track-oddities", "values-noted", "values-set-aside", "what-if"],
            names.Order(StringComparer.Ordinal));
        Assert.All(Tables().GroupBy(t => t.Name), same => Assert.Single(same.Select(t => t.ToCsv()).Distinct()));
    }

    private List<TableView> Tables() => [.. _hostile.Results.SelectMany(r => r.Tables)];

    /// <summary>
    /// What .NET Interactive looks for, by names alone: it can't be referenced here, so a change of a name would go unseen.
    /// </summary>
    [Fact]
    public void Notebooks_find_the_formatter_by_its_names()
    {
        foreach (var result in All)
        {
            var attribute = result.GetType().GetCustomAttributes(inherit: true)
                .Single(a => a.GetType().Name == "TypeFormatterSourceAttribute");
            var mimeTypes = (string[])attribute.GetType().GetProperty("PreferredMimeTypes")!.GetValue(attribute)!;
            Assert.Equal(["text/html", "application/vnd.jumpanalytics.table+json", "text/plain"], mimeTypes);

            var source = Activator.CreateInstance((Type)attribute.GetType().GetProperty("FormatterSourceType")!.GetValue(attribute)!)!;
            var formatters = ((IEnumerable<object>)source.GetType().GetMethod("CreateTypeFormatters")!.Invoke(source, [])!).ToList();
            Assert.Equal(mimeTypes, formatters.Select(f => (string)f.GetType().GetProperty("MimeType")!.GetValue(f)!));
            var shown = formatters.Select(f =>
            {
                using var writer = new StringWriter();
                var format = f.GetType().GetMethod("Format", [typeof(object), typeof(TextWriter)])!;
                Assert.True((bool)format.Invoke(f, [result, writer])!);
                Assert.False((bool)format.Invoke(f, ["another thing", writer])!);
                return writer.ToString();
            }).ToList();
            Assert.Equal([Html(result), result.TablesAsJson(), result.ToString()], shown);
        }
    }

    [Fact]
    public void The_tables_parse_as_json_and_hold_the_files()
    {
        foreach (var result in All)
        {
            using var json = JsonDocument.Parse(result.TablesAsJson());
            var tables = json.RootElement.GetProperty("tables").EnumerateArray().ToList();
            Assert.Equal(result.Tables.Select(t => t.Name), tables.Select(t => t.GetProperty("name").GetString()));
            Assert.Equal(result.Tables.Select(t => t.ToCsv()), tables.Select(t => t.GetProperty("csv").GetString()!));
        }
    }

    /// <summary>Text and page say the same: every point, every note and the reading are in both.</summary>
    [Fact]
    public void Text_and_page_say_the_same()
    {
        foreach (var result in All)
        {
            var (text, html) = (result.ToString(), System.Net.WebUtility.HtmlDecode(Html(result)));
            foreach (var line in result.Points.Append(result.Reading)
                .Concat(result.Tables.SelectMany(t => new[] { t.Title, t.Note ?? "" })))
            {
                Assert.Contains(line, text, StringComparison.Ordinal);
                Assert.Contains(line, html, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Hostile_values_come_back_from_the_files_as_they_were_read()
    {
        using var folder = new TempLog();
        foreach (var table in Tables())
        {
            folder.With("t.csv", table.ToCsv());
            var file = CsvFile.Open(Path.Combine(folder.Folder, "t.csv"));
            Assert.Equal(table.Columns.SelectMany(c => c.FileNames), file.Header);
            var rows = file.Rows().ToList();
            Assert.Equal(table.Rows.Count, rows.Count);
            foreach (var (cells, row) in table.Rows.Zip(rows))
            {
                Assert.Equal(file.Header.Count, row.Fields.Length);
                var at = 0;
                for (var i = 0; i < table.Columns.Count; i++)
                {
                    if (cells[i] is string s) Assert.Equal(s, row.Fields[at]);
                    at += table.Columns[i].FileNames.Count;
                }
            }
        }
    }
}
