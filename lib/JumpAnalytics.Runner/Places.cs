namespace JumpAnalytics.Runner;

/// <summary>Where notebooks lie, and where a new one goes.</summary>
/// <param name="Home">The notebooks that come with the program: beside the solution above it, or packed with it.</param>
/// <param name="IsCheckout">Whether that is the folder of the sources rather than an installed program.</param>
/// <param name="Own">The folder <c>notebooks</c> of where the program is called, when it is another one and there.</param>
internal sealed record Places(string Home, bool IsCheckout, string? Own)
{
    private const string Folder = "notebooks";

    /// <summary>Every notebook; one of the caller's own goes before one of the same name that came with the program.</summary>
    public IReadOnlyList<string> Notebooks =>
        [.. Files(Own).Concat(Files(Home)).DistinctBy(Path.GetFileName).OrderBy(Path.GetFileName, StringComparer.Ordinal)];

    /// <summary>Where a new notebook goes.</summary>
    public string ForNew => IsCheckout ? Home : Path.GetFullPath(Folder);

    /// <summary>The folder of the library that the notebooks load, as their first cell names it.</summary>
    public static string LibraryOf(string notebooks) => Path.GetFullPath(Path.Combine(notebooks, "..", "lib", "notebook-bin"));

    /// <summary>The places as seen from the current folder.</summary>
    /// <param name="asked">A folder of notebooks to use instead.</param>
    /// <exception cref="NotebookException">There are no notebooks.</exception>
    public static Places Find(string? asked)
    {
        if (asked is not null) return new Places(Path.GetFullPath(asked), true, null);
        var (home, isCheckout) = FindHome();
        var here = Path.GetFullPath(Folder);
        return new Places(home, isCheckout, here != home && Directory.Exists(here) ? here : null);
    }

    private static (string Folder, bool IsCheckout) FindHome()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            var notebooks = Path.Combine(at.FullName, Folder);
            if (!Directory.Exists(notebooks)) continue;
            if (File.Exists(Path.Combine(at.FullName, "JumpAnalytics.sln"))) return (notebooks, true);
            if (Directory.Exists(LibraryOf(notebooks))) return (notebooks, false);
        }

        throw new NotebookException($"No folder '{Folder}' beside a JumpAnalytics.sln above {AppContext.BaseDirectory}.");
    }

    private static string[] Files(string? folder) =>
        folder is null || !Directory.Exists(folder) ? [] : Directory.GetFiles(folder, "*.ipynb");
}
