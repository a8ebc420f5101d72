using System.Globalization;

namespace JumpAnalytics;

/// <summary>A clearing round the spot, in the downwind frame: a circle, or a polygon whose edges do not cross. The same clearing lies otherwise when the drift goes another way.</summary>
[TypeFormatterSource]
public sealed record Clearing
{
    private Clearing(IReadOnlyList<DownwindVector> corners, double radius, DownwindVector centre) => (Corners, Radius, Centre) = (corners, radius, centre);

    /// <summary>Corners of a polygon, metres in the downwind frame; none for a circle.</summary>
    public IReadOnlyList<DownwindVector> Corners { get; }

    /// <summary>Radius of a circle, metres; 0 for a polygon.</summary>
    public double Radius { get; }

    /// <summary>Centre of a circle, metres from the spot.</summary>
    public DownwindVector Centre { get; }

    /// <summary>Whether it is a circle.</summary>
    public bool IsCircle => Corners.Count == 0;

    /// <summary>A circle.</summary>
    /// <param name="radius">Metres.</param>
    /// <param name="centre">Metres from the spot, downwind and right; the spot itself when left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A radius that is not above zero, or a number that is not finite.</exception>
    public static Clearing Circle(double radius, DownwindVector centre = default) =>
        radius > 0 && double.IsFinite(radius) && double.IsFinite(centre.Downwind) && double.IsFinite(centre.Right)
            ? new([], radius, centre) : throw new ArgumentOutOfRangeException(nameof(radius), radius, "A clearing has a radius above zero and a centre of finite coordinates, metres.");

    /// <summary>A polygon, corners in order either way round.</summary>
    /// <param name="corners">Metres from the spot, downwind and right; three or more.</param>
    /// <exception cref="ArgumentException">Fewer than three corners, two that are the same, edges that cross or touch, or a number that is not finite.</exception>
    public static Clearing Polygon(IReadOnlyList<DownwindVector> corners)
    {
        if (corners.Count < 3) throw new ArgumentException($"A clearing has three corners or more; found {corners.Count}.", nameof(corners));
        if (corners.FirstOrDefault(c => !double.IsFinite(c.Downwind) || !double.IsFinite(c.Right)) is { } odd && !(double.IsFinite(odd.Downwind) && double.IsFinite(odd.Right)))
            throw new ArgumentException($"A corner is {odd}; corners are finite numbers of metres.", nameof(corners));
        for (var i = 0; i < corners.Count; i++)
        {
            for (var j = i + 1; j < corners.Count; j++)
                if (corners[i] == corners[j]) throw new ArgumentException($"Corners {i + 1} and {j + 1} are the same; leave one out.", nameof(corners));
        }
        for (var i = 0; i < corners.Count; i++)
        {
            for (var j = i + 1; j < corners.Count; j++)
            {
                var neighbours = j == i + 1 || (i == 0 && j == corners.Count - 1);
                if (!neighbours && Cross(corners[i], corners[i + 1], corners[j], corners[(j + 1) % corners.Count]))
                    throw new ArgumentException($"The edge from corner {i + 1} crosses or touches that from corner {j + 1}; give the corners in order round the clearing.", nameof(corners));
            }
        }
        return new([.. corners], 0, default);
    }

    /// <summary>Reads a clearing from a text.</summary>
    /// <param name="text"><c>circle 40</c>, <c>circle 40 at 10,-5</c> (downwind, right), or the corners <c>-40,-30; 60,-30; 60,30; -40,30</c>.</param>
    /// <param name="unit">Unit of the numbers.</param>
    /// <exception cref="ArgumentException">The text is none of these; the message says where.</exception>
    public static Clearing Parse(string text, MeasureUnit unit)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words is ["circle", var radius, .. var rest] && (rest.Length == 0 || rest[0] == "at"))
            return Circle(Number(radius), rest.Length == 0 ? default : Place(string.Concat(rest.Skip(1))));
        return Polygon([.. text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Place)]);

        DownwindVector Place(string part) => part.Split(',', StringSplitOptions.TrimEntries) is [var downwind, var right] ? new(Number(downwind), Number(right))
            : throw new ArgumentException($"'{part}' in the clearing '{text}' is not a corner 'downwind,right'; try -40,-30; 60,-30; 60,30; -40,30, or circle 40.", nameof(text));

        double Number(string part) => double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? unit.ToSi(number)
            : throw new ArgumentException($"'{part}' in the clearing '{text}' is not a number; try circle 40.", nameof(text));
    }

    /// <summary>Whether a miss lies in the clearing, its edge included.</summary>
    /// <param name="miss">Metres, downwind and right.</param>
    public bool Holds(DownwindVector miss)
    {
        if (IsCircle) return double.Hypot(miss.Downwind - Centre.Downwind, miss.Right - Centre.Right) <= Radius * (1 + 1e-9);
        var inside = false;
        for (var i = 0; i < Corners.Count; i++)
        {
            var (a, b) = (Corners[i], Corners[(i + 1) % Corners.Count]);
            var turn = Turn(a, b, miss);
            if (turn == 0 && Between(a, b, miss)) return true;
            if (a.Right > miss.Right != b.Right > miss.Right && turn > 0 == b.Right > a.Right) inside = !inside;
        }
        return inside;
    }

    /// <summary>Probability of a miss in it.</summary>
    /// <param name="model">A bivariate normal, t or mixture of two spreads; for a circle any distribution of misses.</param>
    /// <exception cref="ArgumentException">A polygon under another kind of distribution.</exception>
    public double Probability(IMissModel model) => IsCircle ? model.ProbabilityWithin(Radius, Centre) : PolygonProbability.Inside(model, Corners);

    /// <summary>The clearing in words.</summary>
    internal string Describe(MeasureUnit unit)
    {
        string Length(double metres) => Rounding.Short(unit.FromSi(metres));
        return IsCircle ? $"a circle of {Length(Radius)} {unit.Suffix}{(Centre == default ? " round the spot" : $" about a point {Length(Centre.Downwind)} downwind and {Length(Centre.Right)} right of the spot")}"
            : $"a clearing of {Corners.Count} corners, {Length(Corners.Min(c => c.Downwind))} to {Length(Corners.Max(c => c.Downwind))} {unit.Suffix} downwind and {Length(Corners.Min(c => c.Right))} to {Length(Corners.Max(c => c.Right))} right";
    }

    private static double Turn(DownwindVector a, DownwindVector b, DownwindVector c) =>
        (b.Downwind - a.Downwind) * (c.Right - a.Right) - (b.Right - a.Right) * (c.Downwind - a.Downwind);

    private static bool Between(DownwindVector a, DownwindVector b, DownwindVector c) =>
        Math.Min(a.Downwind, b.Downwind) <= c.Downwind && c.Downwind <= Math.Max(a.Downwind, b.Downwind) && Math.Min(a.Right, b.Right) <= c.Right && c.Right <= Math.Max(a.Right, b.Right);

    /// <summary>Whether two edges have a point in common.</summary>
    private static bool Cross(DownwindVector a, DownwindVector b, DownwindVector c, DownwindVector d)
    {
        var (t1, t2, t3, t4) = (Math.Sign(Turn(a, b, c)), Math.Sign(Turn(a, b, d)), Math.Sign(Turn(c, d, a)), Math.Sign(Turn(c, d, b)));
        return (t1 != t2 && t3 != t4) || (t1 == 0 && Between(a, b, c)) || (t2 == 0 && Between(a, b, d)) || (t3 == 0 && Between(c, d, a)) || (t4 == 0 && Between(c, d, b));
    }
}
