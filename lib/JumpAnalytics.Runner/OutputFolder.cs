using System.Text;

namespace JumpAnalytics.Runner;

/// <summary>Where the files of one notebook's run go.</summary>
internal sealed class OutputFolder(string path, string name)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    public string Report => Path.Combine(path, name + ".html");

    public string Executed => Path.Combine(path, name + ".ipynb");

    public string Failed => Path.Combine(path, name + ".failed.ipynb");

    /// <summary>Removes what an earlier run of this notebook left, with the tables that its executed notebook carries.</summary>
    public void Clear()
    {
        Directory.CreateDirectory(path);
        foreach (var file in (string[])[.. EarlierTables(), Report, Executed, Failed])
        {
            if (File.Exists(file))
                File.Delete(file);
        }
    }

    /// <summary>Writes report, executed notebook and tables.</summary>
    public void WriteSuccess(Notebook notebook, string report, IReadOnlyDictionary<string, string> tables)
    {
        foreach (var (table, csv) in tables)
            Write(TablePath(table), csv);
        Write(Executed, notebook.ToString());
        Write(Report, report);
    }

    /// <summary>Writes the notebook up to the failure, and nothing that could pass for a result.</summary>
    public void WriteFailure(Notebook notebook) => Write(Failed, notebook.ToString());

    private IEnumerable<string> EarlierTables()
    {
        try
        {
            return File.Exists(Executed) ? Tables.Of(Notebook.Read(Executed)).Keys.Select(TablePath) : [];
        }
        catch (NotebookException)
        {
            return [];
        }
    }

    private string TablePath(string table) => Path.Combine(path, "tables", table + ".csv");

    private static void Write(string file, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(file))!);
        File.WriteAllText(file, text, Utf8);
    }
}
