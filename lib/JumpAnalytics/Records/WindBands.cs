using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// Classes of the drift wind speed. A band holds its lower edge and not its upper one; the last band has no upper edge.
/// </summary>
[TypeFormatterSource]
public sealed class WindBands
{
    private readonly double[] _edges;

    private WindBands(double[] edges, IReadOnlyList<string> labels, MeasureUnit unit) => (_edges, Labels, Unit) = (edges, labels, unit);

    /// <summary>The bands' labels in rising order, in <see cref="Unit"/>: for instance <c>0-5</c>, <c>5-10</c>, <c>10+</c>.</summary>
    public IReadOnlyList<string> Labels { get; }

    /// <summary>The unit of the labels.</summary>
    public MeasureUnit Unit { get; }

    /// <summary>Makes bands from their lower edges.</summary>
    /// <param name="lowerEdges">
    /// Rising, not negative. When the first is above zero, winds below it form a band of their own (<c>under 5</c>).
    /// </param>
    /// <param name="unit">The unit of the edges and of the labels.</param>
    /// <exception cref="ArgumentException">No edge, a negative or non-finite edge, or edges that do not rise.</exception>
    public static WindBands FromLowerEdges(IReadOnlyList<double> lowerEdges, MeasureUnit unit)
    {
        if (lowerEdges.Count == 0)
            throw new ArgumentException("Wind bands need at least one edge; try 0,5,10,15.");
        for (var i = 0; i < lowerEdges.Count; i++)
        {
            if (!double.IsFinite(lowerEdges[i]) || lowerEdges[i] < 0 || (i > 0 && lowerEdges[i] <= lowerEdges[i - 1]))
                throw new ArgumentException(
                    $"Wind band edges rise from zero or more; found {string.Join(", ", lowerEdges.Select(Text))}. Try 0,5,10,15.");
        }
        var labels = new List<string>();
        if (lowerEdges[0] > 0) labels.Add($"under {Text(lowerEdges[0])}");
        labels.AddRange(lowerEdges.Zip(lowerEdges.Skip(1), (low, high) => $"{Text(low)}-{Text(high)}"));
        labels.Add($"{Text(lowerEdges[^1])}+");
        var edges = lowerEdges.Where(e => e > 0).Select(unit.ToSi).ToArray();
        return new WindBands(edges, labels, unit);
    }

    /// <summary>Makes bands from a text such as <c>0,5,10,15</c>.</summary>
    /// <param name="lowerEdges">Lower edges parted by commas.</param>
    /// <param name="unit">The unit of the edges and of the labels.</param>
    /// <exception cref="ArgumentException">A part is not a number, or the edges do not rise.</exception>
    public static WindBands Parse(string lowerEdges, MeasureUnit unit)
    {
        var parts = lowerEdges.Split(',', StringSplitOptions.TrimEntries);
        var edges = new double[parts.Length];
        for (var i = 0; i < parts.Length; i++)
        {
            if (!double.TryParse(parts[i], NumberStyles.Float, CultureInfo.InvariantCulture, out edges[i]))
                throw new ArgumentException($"'{parts[i]}' in the wind bands '{lowerEdges}' is not a number; try 0,5,10,15.");
        }
        return FromLowerEdges(edges, unit);
    }

    /// <summary>The band of a wind, as an index into <see cref="Labels"/>.</summary>
    /// <param name="windSpeed">Metres per second, zero or more.</param>
    public int IndexOf(double windSpeed)
    {
        var band = 0;
        while (band < _edges.Length && windSpeed >= _edges[band]) band++;
        return band;
    }

    /// <summary>The label of the band of a wind.</summary>
    /// <param name="windSpeed">Metres per second, zero or more.</param>
    public string LabelOf(double windSpeed) => Labels[IndexOf(windSpeed)];

    private static string Text(double edge) => edge.ToString(CultureInfo.InvariantCulture);
}
