namespace JumpAnalytics.Benchmarks;

/// <summary>One piece of work done by the library and by what people would use instead, on the same input.</summary>
/// <param name="Name">A word to ask for it by.</param>
/// <param name="What">The work in a few words.</param>
/// <param name="Size">The size of the full work.</param>
/// <param name="Prepare">Writes the input of a size into a folder and gives our work: it returns figures to compare.</param>
/// <param name="Peers">What it is held against.</param>
internal sealed record Comparison(string Name, string What, int Size,
    Func<string, int, Func<IReadOnlyDictionary<string, double>>> Prepare, params Peer[] Peers);

/// <summary>A script of another tool.</summary>
/// <param name="Script">File in the folder <c>peers</c>.</param>
/// <param name="Packages">What it needs beyond R or Python.</param>
/// <param name="Wanted">How many times faster we want to be.</param>
/// <param name="Tolerance">Relative difference that its figures may have from ours.</param>
internal sealed record Peer(string Script, string[] Packages, double Wanted, double Tolerance);
