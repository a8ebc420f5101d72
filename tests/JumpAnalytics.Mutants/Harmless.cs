namespace JumpAnalytics.Mutants;

/// <summary>Faults that change nothing a test could see, each with its reason: not counted.</summary>
internal sealed class Harmless
{
    private readonly HashSet<string> keys;

    private Harmless(HashSet<string> keys) => this.keys = keys;

    /// <summary>Reads lines "file | code | old -> new | reason"; a line without a reason is an error.</summary>
    public static Harmless Read(string file)
    {
        var keys = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in File.ReadAllLines(file).Where(l => l.Length > 0 && l[0] != '#'))
        {
            var cut = line.LastIndexOf(" | ", StringComparison.Ordinal);
            if (cut < 0 || cut + 3 == line.Length || line.Split(" | ").Length < 4)
            {
                throw new FormatException($"harmless.txt wants 'file | code | old -> new | reason': {line}");
            }
            keys.Add(line[..cut]);
        }
        return new(keys);
    }

    public bool Holds(Mutant fault) => keys.Contains(fault.Key);
}
