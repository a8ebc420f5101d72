using System.Globalization;

namespace JumpAnalytics.Tests.Fits;

// Reference values: tests/reference/circle-probability, whose README says how each was made.
public partial class DiscProbabilityTests
{
    [Fact]
    public void Grid_of_two_high_precision_methods()
    {
        var rows = Table("grid.csv", "id", "R", "mu_x", "mu_y", "sigma_x", "sigma_y", "rho", "p_inside");
        Assert.Equal(561, rows.Count);
        Assert.All(rows, r =>
        {
            var inside = Inside(r[1], r[2], r[3], r[4], r[5], r[6]);
            Near(r[7], inside, 1e-12);
            if (r[7] < 1e-6)
                Near(r[7], inside, (r[7] < 1e-40 ? 1e-6 : 1e-9) * r[7]);
        });
    }

    [Fact]
    public void Means_near_the_rim()
    {
        var rows = Table("rim.csv", "R", "mu_minor", "mu_major", "sigma_minor", "sigma_major", "p_inside");
        Assert.Equal(90, rows.Count);
        Assert.All(rows, r => Near(r[5], Inside(r[0], r[1], r[2], r[3], r[4], 0), 1e-9 * r[5]));
    }

    [Fact]
    public void Equal_spread_is_the_marcum_function()
    {
        var rows = Table("marcum-q.csv", "a", "b", "one_minus_Q1");
        Assert.Equal(73, rows.Count);
        Assert.All(rows, r =>
        {
            Near(r[2], Inside(r[1], r[0], 0, 1, 1, 0), 1e-9 * r[2]);
            Near(r[2], Inside(7 * r[1], 0, -7 * r[0], 7, 7, 0), 1e-9 * r[2]);
        });
    }

    [Fact]
    public void Equal_spread_is_the_noncentral_chi_square()
    {
        var rows = Table("noncentral-chi-square.csv", "x", "df", "lambda", "cdf");
        Assert.Equal(36, rows.Count);
        Assert.All(rows, r =>
        {
            Assert.Equal(2, r[1]);
            var mean = Math.Sqrt(0.5 * r[2]);
            Near(r[3], Inside(Math.Sqrt(r[0]), mean, -mean, 1, 1, 0), 1e-9 * r[3]);
        });
    }

    [Fact]
    public void Quadratic_forms_of_the_offset_ellipse()
    {
        var rows = Table("quadratic-forms.csv", "R_squared", "mu_x", "mu_y", "variance_x", "variance_y", "p_outside");
        Assert.Equal(6, rows.Count);
        Assert.All(rows, r =>
            Near(1 - r[5], DiscProbability.Inside(Math.Sqrt(r[0]), r[1], r[2], r[3], r[4], 0), 1e-9));
    }

    [Fact]
    public void Radii_of_the_centred_ellipse()
    {
        var rows = Table("centred-quantiles.csv", "c_ratio_min_over_max", "p", "R_over_sigma_max");
        Assert.Equal(84, rows.Count);
        Assert.All(rows, r => Near(r[2], DiscProbability.Radius(r[1], 0, 0, r[0] * r[0], 1, 0), 1e-10 * r[2]));
    }

    // Harter (1960), R50 over the larger standard deviation for ratios 0 (0.1) 1, within one unit of the last digit
    // printed (0.749935 at 0.3 stands as 0.74993).
    [Fact]
    public void Radii_of_the_printed_table()
    {
        double[] printed = [
            0.67449, 0.68199, 0.70585, 0.74993, 0.80785, 0.87042, 0.93365, 0.99621, 1.05769, 1.11807, 1.17741];
        for (var i = 0; i < printed.Length; i++)
            Near(printed[i], DiscProbability.Radius(0.5, 0, 0, 1, 0.01 * i * i, 0), 1e-5);
    }

    [Fact]
    public void Radii_of_offset_ellipses()
    {
        var rows = Table("offset-quantiles.csv", "mu_x", "mu_y", "sigma_x", "sigma_y", "rho", "R50", "R90", "R95");
        Assert.Equal(10, rows.Count);
        Assert.All(rows, r =>
        {
            foreach (var (p, radius) in new[] { (0.5, r[5]), (0.9, r[6]), (0.95, r[7]) })
            {
                var found = DiscProbability.Radius(p, r[0], r[1], r[2] * r[2], r[3] * r[3], r[4] * r[2] * r[3]);
                Near(radius, found, 1e-9 * radius);
            }
        });
    }

    private static double Inside(double radius, double mean1, double mean2, double sigma1, double sigma2, double rho) =>
        DiscProbability.Inside(radius, mean1, mean2, sigma1 * sigma1, sigma2 * sigma2, rho * sigma1 * sigma2);

    private static List<double[]> Table(string file, params string[] columns) =>
        ReferenceFiles.Rows("circle-probability/" + file)
            .Select(row => columns.Select(name => double.Parse(row[name], CultureInfo.InvariantCulture)).ToArray())
            .ToList();

    private static void Near(double expected, double actual, double tolerance) =>
        Assert.True(
            Math.Abs(actual - expected) <= tolerance,
            FormattableString.Invariant($"{expected:R} expected, {actual:R} found, tolerance {tolerance:G3}."));
}
