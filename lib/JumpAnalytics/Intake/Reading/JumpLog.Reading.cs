namespace JumpAnalytics;

/// <summary>How a log is read.</summary>
public sealed partial class JumpLog
{
    /// <summary>
    /// Reads a log from a folder (files whose names begin with drops and landings) or from one flat table. Formats may be mixed: CSV, TSV,
    /// Excel (.xlsx, .xlsm), Parquet, GeoJSON, and GPX for landings.
    /// </summary>
    /// <param name="path">Folder or file. A folder may also hold a short <c>notice.txt</c> that readers of every report should see.</param>
    /// <param name="map">
    /// The base's own headers, units and codes; without one, a file <c>columns.json</c> in the folder is used, if there is any.
    /// </param>
    /// <exception cref="LogFormatException">
    /// There is no log there, a required column is missing, or the map does not fit. Trouble in single rows does not
    /// throw: see <see cref="Intake"/>.
    /// </exception>
    public static JumpLog Read(string path, ColumnMap? map = null)
    {
        var log = LogReader.Read(LogFiles.Find(path), map ?? ColumnMap.Beside(path));
        log.Folder = Directory.Exists(path) ? path : Path.GetDirectoryName(Path.GetFullPath(path));
        return log;
    }
}
