using System.Globalization;

namespace JumpAnalytics;

public sealed partial class MagneticModel
{
    private const int Degree = 12;

    // The terms of a coefficient table "n,m,g_nT,h_nT,gdot,hdot" (nT, nT per year), by order and within it by degree as
    // the sum takes them, led by a zero term of degree 0.
    private static Term[] ReadTerms(string resource)
    {
        using var stream = typeof(MagneticModel).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"The library lacks its resource {resource}.");
        using var reader = new StreamReader(stream);
        var rows = reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Skip(1)
            .Select(line => line.Split(','))
            .ToDictionary(cells => (Number(cells[0]), Number(cells[1])));

        var terms = new List<Term> { default };
        for (var m = 0; m <= Degree; m++)
        {
            for (var n = Math.Max(m, 1); n <= Degree; n++)
            {
                var cells = rows[(n, m)];
                terms.Add(new Term(
                    Number(cells[2]), Number(cells[3]), Number(cells[4]), Number(cells[5]), Math.Sqrt(n * n - m * m)));
            }
        }

        return [.. terms];
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);

    // Root is sqrt(n^2 - m^2).
    private readonly record struct Term(double G, double H, double GRate, double HRate, double Root);
}
