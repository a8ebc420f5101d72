namespace JumpAnalytics;

/// <summary>The reference to a descent track: a file in the log's folder or below it, and no way out of there.</summary>
internal static class TrackReference
{
    /// <summary>The reference, or null with the value set aside when it leads anywhere else.</summary>
    public static string? Read(RowReader row)
    {
        if (row.Text(LogColumns.Track) is not { } text) return null;
        if (WhyRefused(text) is not { } why) return text;
        row.Leave(LogColumns.Track, "unsafe track", why,
            "write the name of a file in the log's folder or below it, for instance tracks/j1.gpx");
        return null;
    }

    /// <summary>Judged alike on every system, since a log made on one is read on another.</summary>
    private static string? WhyRefused(string text)
    {
        if (text.Any(char.IsControl)) return "holds a control character";
        if (text.Length > 255) return "is longer than 255 letters";
        if (text[0] is '/' or '\\') return "is an absolute path";
        if (text[0] == '~') return "leads to a home folder";
        if (text.Contains(':', StringComparison.Ordinal)) return "names a drive, an address or a stream";
        return text.Split('/', '\\').Any(part => part.Trim().Trim('.').Length == 0)
            ? "has an empty part, or one of dots alone that leads out of the folder" : null;
    }
}
