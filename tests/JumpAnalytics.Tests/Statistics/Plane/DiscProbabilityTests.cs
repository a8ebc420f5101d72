using System.Globalization;

namespace JumpAnalytics.Tests.Fits;

// Reference values: tests/reference/circle-probability, whose README says how each was made.
public partial class DiscProbabilityTests
{
    [Fact]
    public void Grid_of_two_high_precision_methods()
    {
        var rows = Table("grid.csv", "id", "R", "mu_x", "mu_y", "sigma_x", "sigma_y", "rho", "p_inside", "p_outside");
        Assert.Equal(561, rows.Count);
        Assert.All(rows, r =>
        {
            var inside = Inside(r[1], r[2], r[3], r[4], r[5], r[6]);
            Near(r[7], inside, r[7] < 1e-6 ? (r[7] < 1e-40 ? 1e-6 : 1e-9) * r[7] : 1e-12);
            var outside = Outside(r[1], r[2], r[3], r[4], r[5], r[6]);
            Near(r[8], outside, r[8] < 1e-6 ? 1e-9 * r[8] : 1e-12);
        });
    }

    // A tolerance of 1e-9 relative and 1e-12 absolute at once, on both sides of the rim.
    [Theory]
    [InlineData("ordinary", 120)]
    [InlineData("deep", 60)]
    [InlineData("narrow", 60)]
    public void Both_sides_of_the_rim(string kind, int count)
    {
        var rows = Table("both-sides.csv", row => row["kind"] == kind, "R", "mu_1", "mu_2", "variance_1", "variance_2",
            "covariance", "p_inside", "p_outside");
        Assert.Equal(count, rows.Count);
        Assert.All(rows, r =>
        {
            Near(r[6], DiscProbability.Inside(r[0], r[1], r[2], r[3], r[4], r[5]), Math.Min(1e-12, 1e-9 * r[6]));
            Near(r[7], DiscProbability.Outside(r[0], r[1], r[2], r[3], r[4], r[5]), Math.Min(1e-12, 1e-9 * r[7]));
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
        var rows = Table("marcum-q.csv", "a", "b", "Q1", "one_minus_Q1");
        Assert.Equal(73, rows.Count);
        Assert.All(rows, r =>
        {
            Near(r[3], Inside(r[1], r[0], 0, 1, 1, 0), 1e-9 * r[3]);
            Near(r[3], Inside(7 * r[1], 0, -7 * r[0], 7, 7, 0), 1e-9 * r[3]);
            Near(r[2], Outside(r[1], r[0], 0, 1, 1, 0), 1e-9 * r[2]);
            Near(r[2], Outside(7 * r[1], 0, -7 * r[0], 7, 7, 0), 1e-9 * r[2]);
        });
    }

    // The radius that holds 1 - Q1(a, b) is b. A double near 1 leaves the complement 1e-16, so not beyond Q1 = 1e-6.
    [Fact]
    public void Radii_of_equal_spread_invert_the_marcum_function()
    {
        var rows = Table("marcum-q.csv", "a", "b", "Q1", "one_minus_Q1").Where(r => r[2] > 1e-6).ToList();
        Assert.Equal(65, rows.Count);
        Assert.All(rows, r => Near(3 * r[1], DiscProbability.Radius(r[3], 0, 3 * r[0], 9, 9, 0), 1e-9 * 3 * r[1]));
    }

    // With one degree of freedom the distribution lies along a line.
    [Fact]
    public void Unit_spread_is_the_noncentral_chi_square()
    {
        var rows = Table("noncentral-chi-square.csv", "x", "df", "lambda", "cdf", "sf");
        Assert.Equal(72, rows.Count);
        Assert.All(rows, r =>
        {
            var (radius, mean) = (Math.Sqrt(r[0]), Math.Sqrt(r[2]));
            var (mean2, variance2) = r[1] == 2 ? (-Math.Sqrt(0.5) * mean, 1) : (0, 0);
            var mean1 = r[1] == 2 ? Math.Sqrt(0.5) * mean : mean;
            Near(r[3], DiscProbability.Inside(radius, mean1, mean2, 1, variance2, 0), 1e-9 * r[3]);
            Near(r[4], DiscProbability.Outside(radius, mean1, mean2, 1, variance2, 0), 1e-9 * r[4]);
        });
    }

    [Fact]
    public void Quadratic_forms_of_the_offset_ellipse()
    {
        var rows = Table("quadratic-forms.csv", "R_squared", "mu_x", "mu_y", "variance_x", "variance_y", "p_outside");
        Assert.Equal(6, rows.Count);
        Assert.All(rows, r =>
        {
            Near(1 - r[5], DiscProbability.Inside(Math.Sqrt(r[0]), r[1], r[2], r[3], r[4], 0), 1e-9);
            Near(r[5], DiscProbability.Outside(Math.Sqrt(r[0]), r[1], r[2], r[3], r[4], 0), 1e-10 * r[5]);
        });
    }

    // The distance root mean square (DRMS), once and twice: 1 - exp(-1) and 1 - exp(-4) for equal spreads, the normal
    // within one and two standard deviations along a line; between them for any ellipse.
    [Theory]
    [InlineData(1, 0.6321205588285577, 0.6826894921370859)]
    [InlineData(2, 0.9816843611112658, 0.9544997361036416)]
    public void Distance_root_mean_square(double times, double round, double line)
    {
        Near(round, DiscProbability.Inside(times * Math.Sqrt(2 * 900), 0, 0, 900, 900, 0), 1e-14);
        Near(line, DiscProbability.Inside(times * 30, 0, 0, 0, 900, 0), 1e-14);
        Near(1 - round, DiscProbability.Outside(times * Math.Sqrt(2 * 900), 0, 0, 900, 900, 0), 1e-14);
        for (var ratio = 0.05; ratio < 1; ratio += 0.05)
        {
            var inside = DiscProbability.Inside(times * 30 * Math.Sqrt(1 + ratio * ratio), 0, 0, 900, 900 * ratio * ratio, 0);
            Assert.InRange(inside, Math.Min(round, line), Math.Max(round, line));
        }
    }

    // 72 arrows on a target (data set archery1 of the R package MSQC), their mean and covariance; the probabilities of
    // the fitted normal computed with R 4.2.2, to twelve digits.
    [Theory]
    [InlineData(5, 0.0851892150101)]
    [InlineData(10, 0.294768213503)]
    [InlineData(20, 0.729964724736)]
    public void Arrows_within_a_ring(double radius, double expected)
    {
        const double m1 = 6.77902777778, m2 = 5.77291666667, v1 = 104.306389182, v2 = 128.985722359, cov = 43.4173268192;
        Near(expected, DiscProbability.Inside(radius, m1, m2, v1, v2, cov), 1e-11);
        Near(1 - expected, DiscProbability.Outside(radius, m1, m2, v1, v2, cov), 1e-11);
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

    private static double Outside(double radius, double mean1, double mean2, double sigma1, double sigma2, double rho) =>
        DiscProbability.Outside(radius, mean1, mean2, sigma1 * sigma1, sigma2 * sigma2, rho * sigma1 * sigma2);

    private static List<double[]> Table(string file, params string[] columns) => Table(file, _ => true, columns);

    private static List<double[]> Table(string file, Func<IReadOnlyDictionary<string, string>, bool> wanted, params string[] columns) =>
        ReferenceFiles.Rows("circle-probability/" + file)
            .Where(wanted)
            .Select(row => columns.Select(name => double.Parse(row[name], CultureInfo.InvariantCulture)).ToArray())
            .ToList();

    private static void Near(double expected, double actual, double tolerance) =>
        Assert.True(
            Math.Abs(actual - expected) <= tolerance,
            FormattableString.Invariant($"{expected:R} expected, {actual:R} found, tolerance {tolerance:G3}."));
}
