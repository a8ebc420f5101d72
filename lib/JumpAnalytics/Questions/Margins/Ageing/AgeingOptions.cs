namespace JumpAnalytics;

/// <summary>What an analysis of the age of the forecast is asked for. Changed with <c>with</c>.</summary>
[TypeFormatterSource]
public sealed record AgeingOptions
{
    private readonly IReadOnlyList<double> _ages = [300, 600, 900, 1200, 1800];
    private readonly IReadOnlyList<double> _edges = [0, 360, 600, 900];
    private readonly double _lossPoints = 2;

    /// <summary>
    /// Seconds; ages that are told, rising. The first is the one that the others are compared with. 5, 10, 15, 20 and
    /// 30 min unless said otherwise.
    /// </summary>
    /// <exception cref="ArgumentException">Fewer than two ages, one not above zero, or ages that do not rise.</exception>
    public IReadOnlyList<double> Ages { get => _ages; init => _ages =
        value.Count >= 2 && value[0] > 0 ? Rising(value, nameof(Ages)) : throw Bad(value, nameof(Ages), "two or more, from above zero"); }

    /// <summary>Seconds; lower edges of the classes of age, rising. 0, 6, 10 and 15 min unless said otherwise.</summary>
    /// <exception cref="ArgumentException">No edge, a negative one, or edges that do not rise.</exception>
    public IReadOnlyList<double> ClassEdges { get => _edges; init => _edges = value.Count >= 1 && value[0] >= 0
        ? Rising(value, nameof(ClassEdges)) : throw Bad(value, nameof(ClassEdges), "one or more, from zero"); }

    /// <summary>Points of landing rate whose loss is asked about; the reader's own number, 2 as an example and not as a limit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 and below 100.</exception>
    public double LossPoints
    {
        get => _lossPoints;
        init => _lossPoints = Guard.Between(value, 0, 100, nameof(LossPoints), "for instance 2 points of landing rate");
    }

    private static IReadOnlyList<double> Rising(IReadOnlyList<double> value, string name) =>
        value.All(double.IsFinite) && value.Zip(value.Skip(1)).All(p => p.First < p.Second) ? [.. value] : throw Bad(value, name, "rising");

    private static ArgumentException Bad(IReadOnlyList<double> value, string name, string expected) =>
        new($"{name} are seconds, {expected}; found {string.Join(", ", value)}.", name);
}
