using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace JumpAnalytics;

/// <summary>
/// Distances spread over what they were written to. A radius read from distances in steps of ten is itself such a step, and its limit
/// lies on the same step or on the next: simulated 90 % limits of logs written to 10 yd held the true radius in 80 %.
/// </summary>
/// <remarks>
/// By way of measuring: of the whole numbers of a unit, those on a step of 5, 10, 25, 50 or 100 must be 1.3 times as many as even digits
/// give (one-sided binomial p below 0.001), and half of the numbers at twice the step or farther, because near the spot the step is not
/// told by the digits. Each distance then moves by a uniform draw of up to half its own step either way, seeded.
/// </remarks>
/// <param name="Landings">The landings, with distances spread.</param>
/// <param name="Spread">How many were moved.</param>
/// <param name="Step">Metres; the largest step among them, 0 when none was.</param>
internal sealed record WrittenDistances(IReadOnlyList<Landing> Landings, int Spread, double Step)
{
    private const int Fewest = 20;
    private const double LeastExcess = 1.3, Chance = 0.001, Near = 1e-6;

    private static readonly string[] _units = ["yd", "m", "ft"];

    /// <summary>Spreads the distances of landings; those of a log that shows no steps stay as they are.</summary>
    /// <param name="landings">Landings.</param>
    /// <param name="options">The report's unit, which is tried first, and the seed.</param>
    public static WrittenDistances Of(IReadOnlyList<Landing> landings, AccuracyOptions options)
    {
        var unit = _units.Select(MeasureUnit.Distance).Prepend(options.Units.Distance)
            .MaxBy(u => landings.Count(l => Whole(l, u) is not null))!;
        var steps = landings.GroupBy(l => l.MeasuredBy ?? "").ToDictionary(g => g.Key,
            g => Steps([.. g.Select(l => Whole(l, unit)).OfType<int>()]));
        var random = SeedStream.For(options.Seed, "distances of margins spread over their rounding");
        var (spread, most) = (0, 0);
        var moved = landings.Select(l =>
        {
            if (Whole(l, unit) is not { } number || steps[l.MeasuredBy ?? ""] is not { Count: > 0 } of) return l;
            var step = of.Where(s => number % s == 0).DefaultIfEmpty(1).Max();
            (spread, most) = (spread + 1, Math.Max(most, step));
            return l with { MissDistance = Math.Abs(l.MissDistance!.Value + unit.ToSi(step) * (random.NextDouble() - 0.5)) };
        }).ToList();
        return new WrittenDistances(moved, spread, unit.ToSi(most));
    }

    /// <summary>The steps that numbers lie on more often than even digits would.</summary>
    private static List<int> Steps(List<int> numbers) =>
        numbers.Count == 0 ? [] : [.. Heaps.Distance.Where(s =>
        {
            var (of, on) = (numbers.Count(n => n != 0 && n % s.On == 0), numbers.Count(n => n != 0 && n % s.Step == 0));
            var even = (double)s.On / s.Step;
            return of >= Fewest && on >= LeastExcess * even * of && numbers.Select(n => (double)n).Median() >= 2 * s.Step
                && 1 - Binomial.CDF(even, of, on - 1) < Chance;
        }).Select(s => s.Step)];

    private static int? Whole(Landing landing, MeasureUnit unit) =>
        landing.MissDistance is { } d && unit.FromSi(d) is var n and < 1e6 && Math.Abs(n - Math.Round(n)) < Near
            ? (int)Math.Round(n) : null;
}
