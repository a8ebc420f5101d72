namespace JumpAnalytics;

public sealed partial class JumpLog
{
    /// <summary>
    /// Writes the drops and landings into a folder, in metres, m/s and degrees true, so that reading it gives the same records,
    /// their sources apart. Numbers have all their digits, places are metres east and north, and times are ISO 8601. In CSV and
    /// workbooks a text that begins with <c>= + - @</c> or an apostrophe gets an apostrophe before it, lest a spreadsheet take it
    /// for a formula; reading takes it off.
    /// </summary>
    /// <param name="folder">Made when it is not there.</param>
    /// <param name="format">
    /// The files that are written, see <see cref="LogFileFormat"/>; beside them <c>notice.txt</c> when the log has one.
    /// </param>
    /// <exception cref="IOException">The folder can't be written to, or already holds files of a log: nothing is overwritten.</exception>
    public void Write(string folder, LogFileFormat format)
    {
        Directory.CreateDirectory(folder);
        if (Directory.EnumerateFiles(folder).Select(f => Path.GetFileName(f)!)
            .FirstOrDefault(f => TableFormats.RoleOf(f) is not null || f == "notice.txt") is { } there)
            throw new IOException($"The folder already holds {there}: a log is written into a folder that has "
                + "none, and nothing is overwritten.");
        WrittenTable[] tables = [WrittenTable.OfDrops(Drops), WrittenTable.OfLandings(Landings)];
        switch (format)
        {
            case LogFileFormat.Csv:
                foreach (var table in tables) CsvWriting.Write(Path.Combine(folder, table.Name + ".csv"), table);
                break;
            case LogFileFormat.Xlsx:
                WorkbookWriting.Write(Path.Combine(folder, "drops-landings.xlsx"), tables);
                break;
            case LogFileFormat.Parquet:
                foreach (var table in tables) ParquetWriting.Write(Path.Combine(folder, table.Name + ".parquet"), table);
                break;
            default:
                throw Guard.Refused(nameof(format), format, "Csv, Xlsx or Parquet");
        }
        if (Notice is { } notice) File.WriteAllText(Path.Combine(folder, "notice.txt"), notice + "\n");
    }
}
