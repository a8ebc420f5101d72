namespace JumpAnalytics;

/// <summary>
/// What landing distances were rounded to when they were written down, found from the distances themselves: by file (whose unit is the one
/// of yards, metres and feet that most distances are whole numbers of) and by way of measuring.
/// </summary>
/// <remarks>
/// A step of 5 or 10 is found by the record check's test of last digits (<see cref="Heaps"/>), a step of 25 or 50 where nine in ten
/// distances lie on it. With fewer than 20 whole numbers of one way nothing is found.
/// <para>Share inside a radius: counts up to the ends of the rounding intervals are right whatever was rounded. Between them the
/// cumulative count is read off the cubic through four of these ends, which is exact where the density of distances is a quadratic
/// over three intervals (Boneva, Kendall and Stefanov 1971, Journal of the Royal Statistical Society B 33:1-71, cited from memory,
/// interpolate counts so by splines). The cubic is linear in the counts, so each landing has a share of its own.</para>
/// </remarks>
internal sealed class WrittenSteps
{
    /// <summary>Chance of a step found among even digits.</summary>
    private const double Level = 0.001;

    /// <summary>Share of distances on a coarse step from which it is taken for the step.</summary>
    private const double NearlyAll = 0.9;

    private const int Fewest = 20;

    /// <summary>Ends of rounding intervals that the cubic goes through.</summary>
    private const int Ends = 4;

    private static readonly MeasureUnit[] _units = [.. ((string[])["yd", "m", "ft"]).Select(MeasureUnit.Distance)];

    private readonly Dictionary<Landing, double> _steps = new(ReferenceEqualityComparer.Instance);

    private WrittenSteps()
    {
    }

    /// <summary>Landings whose distance was rounded to a step of 5 or more of its unit.</summary>
    public int Rounded => _steps.Count;

    /// <summary>Finds the steps of landings.</summary>
    /// <param name="landings">Landings; the more, the surer a step is found.</param>
    public static WrittenSteps Of(IReadOnlyList<Landing> landings)
    {
        var found = new WrittenSteps();
        var units = landings.GroupBy(l => l.Source.File).ToDictionary(g => g.Key,
            g => _units.MaxBy(u => g.Count(l => Whole(l, u) is > 0))!);
        foreach (var way in landings.GroupBy(l => (Unit: units[l.Source.File], l.MeasuredBy)))
        {
            var whole = way.Select(l => (Landing: l, Number: Whole(l, way.Key.Unit))).Where(l => l.Number is not null)
                .Select(l => (l.Landing, Number: l.Number!.Value)).ToList();
            var steps = Steps([.. whole.Select(w => w.Number)]);
            foreach (var (landing, number) in whole)
            {
                if (steps.Where(s => number % s == 0).DefaultIfEmpty(1).Max() is > 1 and var step)
                    found._steps[landing] = way.Key.Unit.ToSi(step);
            }
        }
        return found;
    }

    private static IReadOnlyList<int> Steps(IReadOnlyList<int> numbers)
    {
        var told = numbers.Where(n => n > 0).ToList();
        if (told.Count < Fewest) return [];
        return [.. Heaps.Of(told, [(5, 1), (10, 5)], p => p, Level).Select(h => h.Step),
            .. ((int[])[25, 50]).Where(s => told.Count(n => n % s == 0) >= NearlyAll * told.Count)];
    }

    private static int? Whole(Landing landing, MeasureUnit unit) =>
        landing.MissDistance is { } miss && unit.FromSi(miss) is < int.MaxValue and var number && WrittenNumber.IsMultiple(number, 1)
            ? (int)Math.Round(number) : null;

    /// <summary>Metres; what the distance of a landing was rounded to; 0 where nothing tells that it was rounded.</summary>
    public double StepOf(Landing landing) => _steps.GetValueOrDefault(landing);

    /// <summary>
    /// What a landing counts for in the share of landings inside a radius: 1 or 0 away from it, a share where the radius lies within the
    /// rounding interval or next to it (a little below 0 or above 1 there). Null where the record can't tell.
    /// </summary>
    /// <param name="landing">The landing.</param>
    /// <param name="radius">Metres.</param>
    public double? Inside(Landing landing, double radius)
    {
        if (StepOf(landing) is not (> 0 and var step)) return landing.IsInside(radius) is { } inside ? inside ? 1 : 0 : null;
        var written = (int)Math.Round(landing.MissDistance!.Value / step);
        var first = Math.Max(0, (int)Math.Round(radius / step) - 1);
        double[] ends = [.. Enumerable.Range(first, Ends).Select(k => k == 0 ? 0 : (k - 0.5) * step)];
        return Enumerable.Range(0, Ends).Where(i => first + i > written)
            .Sum(i => Enumerable.Range(0, Ends).Where(j => j != i).Aggregate(1.0, (w, j) => w * (radius - ends[j]) / (ends[i] - ends[j])));
    }

    /// <summary>
    /// Distances with those that were rounded laid evenly over what rounds to them, in a random order; infinite for landings known only
    /// as beyond a distance. Metres, in the order of the landings.
    /// </summary>
    /// <param name="landings">Landings.</param>
    /// <param name="seed">Seed of the order.</param>
    public double[] Spread(IReadOnlyList<Landing> landings, int seed)
    {
        var distances = landings.Select(l => l.MissDistance ?? double.PositiveInfinity).ToArray();
        var random = SeedStream.For(seed, "order of distances laid over their rounding");
        var groups = Enumerable.Range(0, distances.Length).Where(i => StepOf(landings[i]) > 0)
            .GroupBy(i => (Step: StepOf(landings[i]), At: Math.Round(distances[i] / StepOf(landings[i])))).ToList();
        foreach (var group in groups)
        {
            var (low, high) = (Math.Max(0, group.Key.At - 0.5) * group.Key.Step, (group.Key.At + 0.5) * group.Key.Step);
            int[] order = [.. group];
            random.Shuffle(order);
            for (var i = 0; i < order.Length; i++) distances[order[i]] = low + (high - low) * (i + 0.5) / order.Length;
        }
        return distances;
    }
}
