using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// A clearing round the spot, in the downwind frame: a circle, or a polygon whose edges do not cross. The same clearing lies otherwise
/// when the drift goes another way.
/// </summary>
[TypeFormatterSource]
public sealed record Clearing
{
    private Clearing(IReadOnlyList<PlaneVector> corners, double radius, PlaneVector centre) =>
        (Corners, Radius, Centre) = (corners, radius, centre);

    /// <summary>Corners of a polygon, metres in the downwind frame; none for a circle.</summary>
    public IReadOnlyList<PlaneVector> Corners { get; }

    /// <summary>Radius of a circle, metres; 0 for a polygon.</summary>
    public double Radius { get; }

    /// <summary>Centre of a circle, metres from the spot.</summary>
    public PlaneVector Centre { get; }

    /// <summary>Whether it is a circle.</summary>
    public bool IsCircle => Corners.Count == 0;

    /// <summary>A circle.</summary>
    /// <param name="radius">Metres.</param>
    /// <param name="centre">Metres from the spot, downwind and right; the spot itself when left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A radius that is not above zero, or a number that is not finite.</exception>
    public static Clearing Circle(double radius, PlaneVector centre = default) =>
        double.IsFinite(centre.Along) && double.IsFinite(centre.Across) ? new([], Guard.Positive(radius, hint: "metres"), centre)
            : throw Guard.Refused(nameof(centre), centre, "of finite coordinates, metres");

    /// <summary>A polygon, corners in order either way round.</summary>
    /// <param name="corners">Metres from the spot, downwind and right; three or more.</param>
    /// <exception cref="ArgumentException">
    /// Fewer than three corners, two that are the same, edges that cross or touch, or a number that is not finite.
    /// </exception>
    public static Clearing Polygon(IReadOnlyList<PlaneVector> corners)
    {
        if (corners.Count < 3)
            throw new ArgumentException($"A clearing has three corners or more; found {corners.Count}.", nameof(corners));
        if (corners.FirstOrDefault(c => !double.IsFinite(c.Along) || !double.IsFinite(c.Across)) is { } odd
            && !(double.IsFinite(odd.Along) && double.IsFinite(odd.Across)))
            throw new ArgumentException($"A corner is {odd}; corners are finite numbers of metres.", nameof(corners));
        for (var i = 0; i < corners.Count; i++)
        {
            for (var j = i + 1; j < corners.Count; j++)
                if (corners[i] == corners[j])
                    throw new ArgumentException($"Corners {i + 1} and {j + 1} are the same; leave one out.", nameof(corners));
        }
        for (var i = 0; i < corners.Count; i++)
        {
            for (var j = i + 1; j < corners.Count; j++)
            {
                var neighbours = j == i + 1 || (i == 0 && j == corners.Count - 1);
                if (!neighbours && Cross(corners[i], corners[i + 1], corners[j], corners[(j + 1) % corners.Count]))
                    throw new ArgumentException($"The edge from corner {i + 1} crosses or touches that from corner {j + 1}; "
                        + "give the corners in order round the clearing.", nameof(corners));
            }
        }
        return new([.. corners], 0, default);
    }

    /// <summary>Reads a clearing from a text.</summary>
    /// <param name="text">
    /// <c>circle 40</c>, <c>circle 40 at 10,-5</c> (downwind, right), or the corners <c>-40,-30; 60,-30; 60,30; -40,30</c>.
    /// </param>
    /// <param name="unit">Unit of the numbers.</param>
    /// <exception cref="ArgumentException">The text is none of these; the message says where.</exception>
    public static Clearing Parse(string text, MeasureUnit unit)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words is ["circle", var radius, .. var rest] && (rest.Length == 0 || rest[0] == "at"))
            return Circle(Number(radius), rest.Length == 0 ? default : Place(string.Concat(rest.Skip(1))));
        return Polygon([.. text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Place)]);

        PlaneVector Place(string part) =>
            part.Split(',', StringSplitOptions.TrimEntries) is [var downwind, var right] ? new(Number(downwind), Number(right))
                : throw new ArgumentException($"'{part}' in the clearing '{text}' is not a corner 'downwind,right'; try -40,-30; 60,-30; "
                    + "60,30; -40,30, or circle 40.", nameof(text));

        double Number(string part) =>
            double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
                ? unit.ToSi(number)
                : throw new ArgumentException($"'{part}' in the clearing '{text}' is not a number; try circle 40.", nameof(text));
    }

    /// <summary>Whether a miss lies in the clearing, its edge included.</summary>
    /// <param name="miss">Metres, downwind and right.</param>
    public bool Holds(PlaneVector miss)
    {
        if (IsCircle) return Landing.IsWithin(double.Hypot(miss.Along - Centre.Along, miss.Across - Centre.Across), Radius);
        var (inside, near) = (false, Landing.OnTheRim * Corners.Max(c => c.Length));
        for (var i = 0; i < Corners.Count; i++)
        {
            var (a, b) = (Corners[i], Corners[(i + 1) % Corners.Count]);
            var turn = Turn(a, b, miss);
            if (Math.Abs(turn) <= near * double.Hypot(b.Along - a.Along, b.Across - a.Across) && Between(a, b, miss, near)) return true;
            if (a.Across > miss.Across != b.Across > miss.Across && turn > 0 == b.Across > a.Across) inside = !inside;
        }
        return inside;
    }

    /// <summary>Probability of a miss in it.</summary>
    /// <param name="model">A bivariate normal, t or mixture of two spreads; for a circle any distribution of misses.</param>
    /// <exception cref="ArgumentException">A polygon under another kind of distribution.</exception>
    public double Probability(IPlaneModel model) =>
        IsCircle ? model.ProbabilityWithin(Radius, Centre) : PolygonProbability.Inside(model, Corners);

    /// <summary>The clearing in words.</summary>
    internal string Describe(MeasureUnit unit)
    {
        string Length(double metres) => Rounding.Short(unit.FromSi(metres));
        return IsCircle ? $"a circle of {Length(Radius)} {unit.Suffix}" + (Centre == default
            ? " round the spot" : $" about a point {Length(Centre.Along)} downwind and {Length(Centre.Across)} right of the spot")
            : $"a clearing of {Corners.Count} corners, {Length(Corners.Min(c => c.Along))} to {Length(Corners.Max(c => c.Along))} "
                + $"{unit.Suffix} downwind and {Length(Corners.Min(c => c.Across))} to {Length(Corners.Max(c => c.Across))} right";
    }

    private static double Turn(PlaneVector a, PlaneVector b, PlaneVector c) =>
        (b.Along - a.Along) * (c.Across - a.Across) - (b.Across - a.Across) * (c.Along - a.Along);

    /// <summary>Whether a point of the line through two corners lies between them, give or take some metres.</summary>
    private static bool Between(PlaneVector a, PlaneVector b, PlaneVector c, double near = 0) =>
        Math.Min(a.Along, b.Along) - near <= c.Along && c.Along <= Math.Max(a.Along, b.Along) + near
        && Math.Min(a.Across, b.Across) - near <= c.Across && c.Across <= Math.Max(a.Across, b.Across) + near;

    /// <summary>Whether two edges have a point in common.</summary>
    private static bool Cross(PlaneVector a, PlaneVector b, PlaneVector c, PlaneVector d)
    {
        var (t1, t2, t3, t4) = (Math.Sign(Turn(a, b, c)), Math.Sign(Turn(a, b, d)), Math.Sign(Turn(c, d, a)), Math.Sign(Turn(c, d, b)));
        return (t1 != t2 && t3 != t4) || (t1 == 0 && Between(a, b, c)) || (t2 == 0 && Between(a, b, d))
            || (t3 == 0 && Between(c, d, a)) || (t4 == 0 && Between(c, d, b));
    }
}
