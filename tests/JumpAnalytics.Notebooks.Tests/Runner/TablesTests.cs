using System.Text.Json.Nodes;
using JumpAnalytics.Runner;

namespace JumpAnalytics.Notebooks.Tests.Runner;

public class TablesTests
{
    [Fact]
    public void Tables_are_collected_from_all_outputs_and_equal_ones_once()
    {
        var tables = Tables.Of(Toy.Notebook(
            Toy.Code("1", null, Toy.Display("text/html", "<p>"), Table("rates-by-cell", "a,b\n1,2\n")),
            Toy.Code("2", null, Table("budget", "x\n"), Table("rates-by-cell", "a,b\n1,2\n"))));
        Assert.Equal(["budget", "rates-by-cell"], tables.Keys);
        Assert.Equal("a,b\n1,2\n", tables["rates-by-cell"]);
    }

    [Fact]
    public void A_second_table_of_one_name_keeps_both()
    {
        var tables = Tables.Of(Toy.Notebook(Toy.Code("1", null, Table("rates", "1")), Toy.Code("2"),
            Toy.Code("3", null, Table("rates", "2"), Table("rates", "1")), Toy.Code("4", null, Table("rates", "3"), Table("rates", "2"))));
        Assert.Equal([("rates", "1"), ("rates-2", "2"), ("rates-3", "3")], tables.Select(t => (t.Key, t.Value)));
    }

    [Fact]
    public void A_text_as_Jupyter_keeps_it_is_read_too()
    {
        var text = """{"tables":[{"name":"rates","csv":"1\n"}]}""";
        Assert.Equal("1\n", Tables.Of(Toy.Notebook(Toy.Code("1", null, Toy.Display(Tables.MimeType, text))))["rates"]);
        Assert.Equal("1\n", Tables.Of(Toy.Notebook(Toy.Code("1", null, Toy.Display(Tables.MimeType, new JsonArray(text)))))["rates"]);
    }

    [Theory]
    [InlineData("""{"tables":[{"name":"../up","csv":""}]}""", "cell 1: the table name '../up'")]
    [InlineData("""{"tables":[{"name":"Rates","csv":""}]}""", "cell 1: the table name 'Rates'")]
    [InlineData("""{"tables":[{"name":"rates\n","csv":""}]}""", "cell 1: the table name")]
    [InlineData("""{"tables":[{"name":"rates"}]}""", "needs the texts 'name' and 'csv'")]
    [InlineData("""{"tables":[{"name":"rates","csv":5}]}""", "needs the texts 'name' and 'csv'")]
    [InlineData("""{"tables":[7]}""", "needs the texts 'name' and 'csv'")]
    [InlineData("""{"table":[]}""", "has no list 'tables'")]
    [InlineData("\"text\"", "has no list 'tables'")]
    public void Against_the_contract_is_an_error_with_its_cell(string content, string message)
    {
        var notebook = Toy.Notebook(Toy.Code("1", null, Toy.Display(Tables.MimeType, JsonNode.Parse(content)!)));
        Assert.Contains(message, Assert.Throws<NotebookException>(() => Tables.Of(notebook)).Message);
    }

    [Fact]
    public void Files_are_collected_beside_the_tables()
    {
        var notebook = Toy.Notebook(Toy.Code("1", null, Table("rates", "1")),
            Toy.Code("2", null, File("column-map.json", "{}\n"), File("column-map.json", "{}\n")));
        Assert.Equal("{}\n", Assert.Single(Tables.FilesOf(notebook)).Value);
        Assert.Equal(["rates"], Tables.Of(notebook).Keys);

        var error = Assert.Throws<NotebookException>(() =>
            Tables.FilesOf(Toy.Notebook(Toy.Code("1", null, File("a.json", "1"), File("a.json", "2")))));
        Assert.Equal("cells 1 and 1 give different files named 'a.json'.", error.Message);
    }

    [Theory]
    [InlineData("../up.json")]
    [InlineData("map.exe")]
    [InlineData("card.htm")]
    [InlineData("Map.json")]
    [InlineData("map.json\n")]
    [InlineData(".json")]
    public void A_file_name_that_could_go_astray_is_refused(string name)
    {
        var notebook = Toy.Notebook(Toy.Code("1", null, File(name, "")));
        Assert.Contains("cell 1: the file name", Assert.Throws<NotebookException>(() => Tables.FilesOf(notebook)).Message);
    }

    [Theory]
    [InlineData("""{"tables":[],"files":5}""", "has no list 'files'")]
    [InlineData("""{"tables":[],"files":[{"name":"a.json"}]}""", "a file needs the texts 'name' and 'text'")]
    public void Files_against_the_contract_are_an_error(string content, string message)
    {
        var notebook = Toy.Notebook(Toy.Code("1", null, Toy.Display(Tables.MimeType, JsonNode.Parse(content)!)));
        Assert.Contains(message, Assert.Throws<NotebookException>(() => Tables.FilesOf(notebook)).Message);
    }

    private static JsonObject File(string name, string text) => Toy.Display(Tables.MimeType,
        new JsonObject { ["tables"] = new JsonArray(), ["files"] = new JsonArray(new JsonObject { ["name"] = name, ["text"] = text }) });

    private static JsonObject Table(string name, string csv) => Toy.Display(Tables.MimeType,
        new JsonObject { ["tables"] = new JsonArray(new JsonObject { ["name"] = name, ["csv"] = csv }) });
}
