using System.Globalization;

namespace JumpAnalytics.Statistics;

/// <summary>
/// What the things that a sample consists of are called in the texts that users read: singular, in lower case, beginning with a
/// consonant. The defaults are those of this library; a trade gives its own.
/// </summary>
[TypeFormatterSource]
public sealed record SampleNouns
{
    /// <summary>The names of this library: a point of a cluster, seen by a rater from the origin.</summary>
    public static SampleNouns Default { get; } = new();

    /// <summary>One observation.</summary>
    public string Point { get; init; } = "point";

    /// <summary>The place of an observation as seen from the origin.</summary>
    public string Place { get; init; } = "point";

    /// <summary>Observations that have something in common.</summary>
    public string Cluster { get; init; } = "cluster";

    /// <summary>Whoever several clusters have in common.</summary>
    public string Rater { get; init; } = "rater";

    /// <summary>Whose the part of an observation is that it shares with no other.</summary>
    public string Own { get; init; } = "point";

    /// <summary>Where distances are measured from.</summary>
    public string Origin { get; init; } = "origin";

    /// <summary>All observations of one study.</summary>
    public string Sample { get; init; } = "sample";

    /// <summary>The direction of the first axis.</summary>
    public string Along { get; init; } = "along";

    /// <summary>The direction of the second axis.</summary>
    public string Across { get; init; } = "across";

    /// <summary>Several of <see cref="Point"/>.</summary>
    internal string Points => Plural(Point);

    /// <summary>Several of <see cref="Place"/>.</summary>
    internal string Places => Plural(Place);

    /// <summary>Several of <see cref="Cluster"/>.</summary>
    internal string Clusters => Plural(Cluster);

    /// <summary>Several of <see cref="Rater"/>.</summary>
    internal string Raters => Plural(Rater);

    /// <summary>Several of <see cref="Sample"/>.</summary>
    internal string Samples => Plural(Sample);

    /// <summary>A number of <see cref="Point"/>, for instance <c>1 point</c> or <c>2,000 points</c>.</summary>
    internal string CountedPoints(int n) => Counted(n, Point);

    /// <summary>A number of <see cref="Cluster"/>.</summary>
    internal string CountedClusters(int n) => Counted(n, Cluster);

    private static string Counted(int n, string noun) =>
        string.Create(CultureInfo.InvariantCulture, $"{n:#,0} {(n == 1 ? noun : Plural(noun))}");

    private static string Plural(string noun) => noun.EndsWith('s') ? noun + "es" : noun + "s";
}
