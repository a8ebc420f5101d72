namespace JumpAnalytics;

/// <summary>One look at the records: whose, at what, and how likely as much is by chance.</summary>
/// <param name="Whose">Code of a spotter, or <see cref="JumpLog.All"/>.</param>
/// <param name="What">What is looked at.</param>
/// <param name="P">Chance of as much or more if nothing differed and nothing changed.</param>
internal readonly record struct Look(string Whose, string What, double P);

/// <summary>
/// All looks of a report held together by Holm's rule: one or more false findings among them all have at most the chance stated, however
/// many looks there are and however they go together. What stays above that chance is no finding, and no name is given for it.
/// </summary>
internal sealed class Looks
{
    private readonly Dictionary<(string, string), double> _adjusted;

    public Looks(IReadOnlyList<Look> looks) => _adjusted =
        looks.Zip(HolmAdjustment.Of([.. looks.Select(l => l.P)])).ToDictionary(p => (p.First.Whose, p.First.What), p => p.Second);

    /// <summary>How many looks.</summary>
    public int Count => _adjusted.Count;

    /// <summary>P of a look after all looks; null where there is none.</summary>
    public double? Of(string whose, string what) => _adjusted.TryGetValue((whose, what), out var p) ? p : null;

    /// <summary>Whether a look is a finding at a confidence.</summary>
    public bool Found(string whose, string what, double confidence) => Of(whose, what) <= 1 - confidence;
}
