namespace JumpAnalytics;

/// <summary>A unit other than the header's, and what it does to the ratio drift / (wind × descent time).</summary>
/// <param name="Factor">Recorded ratio over true ratio.</param>
/// <param name="Words">What looks as if it were written so.</param>
internal sealed record UnitSlip(double Factor, string Words)
{
    private static readonly string[] _distances = ["m", "yd", "ft", "ch"], _speeds = ["mph", "kt", "mps"];

    public string Shown => $"{Words} (a factor of {Rounding.Fixed(Factor, 2)} in the ratio)";

    /// <summary>Slips that units of the headers allow; every pair of units when no header tells.</summary>
    public static IReadOnlyList<UnitSlip> Of(MeasureUnit? drift, MeasureUnit? wind) =>
    [
        .. from header in drift is null ? _distances.Select(MeasureUnit.Distance) : [drift]
           from meant in _distances.Select(MeasureUnit.Distance)
           where meant != header
           select new UnitSlip(header.Si / meant.Si, $"the drift looks written in {meant.Name} and read as {header.Name}"),
        .. from header in wind is null ? _speeds.Select(MeasureUnit.Speed) : [wind]
           from meant in _speeds.Select(MeasureUnit.Speed)
           where meant != header
           select new UnitSlip(meant.Si / header.Si, $"the wind looks written in {meant.Name} and read as {header.Name}"),
        // The rule K × A × V takes the height in hundreds of feet for round canopies and in thousands for ram-air ones: a slip of 10.
        new UnitSlip(10, "a height in thousands of feet looks taken for hundreds"),
        new UnitSlip(0.1, "a height in hundreds of feet looks taken for thousands"),
    ];

    /// <summary>The slip nearest to a logarithm of the ratio, if any lies within a tolerance of it.</summary>
    public static UnitSlip? Nearest(IEnumerable<UnitSlip> slips, double logRatio, double tolerance) =>
        slips.Select(s => (Slip: s, Off: Math.Abs(Math.Log(s.Factor) - logRatio))).Where(s => s.Off <= tolerance).OrderBy(s => s.Off)
            .Select(s => s.Slip).FirstOrDefault();
}
