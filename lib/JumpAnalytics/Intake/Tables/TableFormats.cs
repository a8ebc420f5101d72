namespace JumpAnalytics;

/// <summary>What a table of the log holds.</summary>
internal enum TableRole
{
    Drops, Landings, Flat,
}

/// <summary>A table and what it holds.</summary>
internal sealed record RoleTable(TableRole Role, ILogTable Table);

/// <summary>The file formats of the log, by the ending of the name.</summary>
internal static class TableFormats
{
    /// <summary>Endings that are read when the name begins with drops or landings.</summary>
    public static IReadOnlyList<string> Endings { get; } =
        [".csv", ".tsv", ".txt", ".xlsx", ".xlsm", ".parquet", ".gpx", ".geojson", ".json"];

    /// <summary>Endings that make a file of any name the table of a folder, if it is the only one.</summary>
    public static IReadOnlyList<string> TableEndings { get; } = [".csv", ".tsv", ".xlsx", ".xlsm", ".parquet"];

    /// <summary>What a file or a sheet says it holds by how its name begins; null when it does not.</summary>
    public static TableRole? RoleOf(string name) =>
        name.StartsWith("drops", StringComparison.OrdinalIgnoreCase) ? TableRole.Drops
        : name.StartsWith("landings", StringComparison.OrdinalIgnoreCase) ? TableRole.Landings : null;

    public static bool HasEnding(string path, IReadOnlyList<string> endings) =>
        endings.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase);

    /// <summary>The tables of a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="named">What it holds by its name; null for a file that must tell by its headers.</param>
    /// <exception cref="LogFormatException">The file can't be read as what its ending says.</exception>
    public static IReadOnlyList<RoleTable> Open(string path, TableRole? named)
    {
        var role = named ?? TableRole.Flat;
        switch (Path.GetExtension(path).ToLowerInvariant())
        {
            case ".xlsx" or ".xlsm":
                return WorkbookTables.Of(new WorkbookFile(path), named);
            case ".parquet":
                return [new RoleTable(role, ParquetFile.Open(path))];
            case ".geojson" or ".json":
                return [new RoleTable(role, role == TableRole.Drops ? GeoJsonFile.OfDrops(path) : GeoJsonFile.OfLandings(path))];
            case ".gpx" when role == TableRole.Drops:
                throw new LogFormatException($"{Path.GetFileName(path)}: a GPX file holds landings, not drops. "
                    + "Give the drops as a table, for instance drops.csv.");
            case ".gpx":
                return [new RoleTable(TableRole.Landings, GpxFile.Open(path))];
            default:
                return [new RoleTable(role, CsvFile.Open(path))];
        }
    }
}
