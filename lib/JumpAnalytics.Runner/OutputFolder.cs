using System.Text;

namespace JumpAnalytics.Runner;

/// <summary>Where the files of one notebook's run go.</summary>
internal sealed class OutputFolder(string path, string name)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    public string Report => Path.Combine(path, name + ".html");

    public string Executed => Path.Combine(path, name + ".ipynb");

    public string Failed => Path.Combine(path, name + ".failed.ipynb");

    /// <summary>Where a file that the notebook gives goes: beside the report.</summary>
    public string FilePath(string file) => Path.Combine(path, file);

    /// <summary>Removes what an earlier run of this notebook left, with the tables and files that its executed notebook carries.</summary>
    public void Clear()
    {
        Directory.CreateDirectory(path);
        foreach (var file in (string[])[.. EarlierFiles(), Report, Executed, Failed])
        {
            if (File.Exists(file))
                File.Delete(file);
        }
    }

    /// <summary>Writes report, executed notebook, tables and files.</summary>
    public void WriteSuccess(Notebook notebook, string report, IReadOnlyDictionary<string, string> tables,
        IReadOnlyDictionary<string, string> files)
    {
        foreach (var (table, csv) in tables)
            Write(TablePath(table), csv);
        foreach (var (file, text) in files)
            Write(FilePath(file), text);
        Write(Executed, notebook.ToString());
        Write(Report, report);
    }

    /// <summary>Writes the notebook up to the failure, and nothing that could pass for a result.</summary>
    public void WriteFailure(Notebook notebook) => Write(Failed, notebook.ToString());

    private IEnumerable<string> EarlierFiles()
    {
        try
        {
            if (!File.Exists(Executed)) return [];
            var earlier = Notebook.Read(Executed);
            return [.. Tables.Of(earlier).Keys.Select(TablePath), .. Tables.FilesOf(earlier).Keys.Select(FilePath)];
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
