using MathNet.Numerics.Distributions;

namespace JumpAnalytics;

/// <summary>A step that numbers are written in more often than chance makes them.</summary>
/// <param name="Step">In the unit written.</param>
/// <param name="Count">Numbers that are multiples of it.</param>
/// <param name="Of">Numbers that could be: those on the step below.</param>
/// <param name="ByChance">The share that even digits would give.</param>
/// <param name="PValue">One-sided binomial test, multiplied by the looks.</param>
internal sealed record Heap(int Step, int Count, int Of, double ByChance, double PValue);

/// <summary>
/// Last digits of whole numbers: of those on one step, how many are on the next coarser one, against the share that even digits give.
/// </summary>
internal static class Heaps
{
    /// <summary>A share below this many times that of even digits is not called heaping, however sure.</summary>
    private const double LeastExcess = 1.3;

    private const int Fewest = 20;

    public static readonly (int Step, int On)[] Distance = [(5, 1), (10, 5), (25, 5), (50, 10), (100, 50)],
        Bearing = [(5, 1), (10, 5), (45, 5)];

    public static List<Heap> Of(CheckedLog log, IReadOnlyList<int> numbers, (int Step, int On)[] steps, int groups) =>
        Of(numbers, steps, p => log.Allowing(p, groups * steps.Length), log.Options.FalseAlarms);

    /// <param name="numbers">Whole numbers.</param>
    /// <param name="steps">Each step with the finer one it is looked for on.</param>
    /// <param name="allowing">A p-value with the looks allowed for.</param>
    /// <param name="level">Such a p-value below which a step is found.</param>
    public static List<Heap> Of(IReadOnlyList<int> numbers, (int Step, int On)[] steps, Func<double, double> allowing, double level)
    {
        var found = new List<Heap>();
        foreach (var (step, on) in steps)
        {
            var of = numbers.Count(n => n != 0 && n % on == 0);
            var count = numbers.Count(n => n != 0 && n % step == 0);
            var chance = (double)on / step;
            if (of < Fewest || count < LeastExcess * chance * of) continue;
            var p = allowing(1 - Binomial.CDF(chance, of, count - 1));
            if (p < level) found.Add(new Heap(step, count, of, chance, Math.Max(p, 0)));
        }
        return found;
    }

    /// <summary>The coarsest step found that divides a number; 1 when none does.</summary>
    public static int StepOf(int number, IReadOnlyList<Heap> heaps) =>
        heaps.Where(h => number % h.Step == 0).Select(h => h.Step).DefaultIfEmpty(1).Max();
}
