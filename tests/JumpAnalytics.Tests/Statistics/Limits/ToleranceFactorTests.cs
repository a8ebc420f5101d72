using System.Globalization;
using JumpAnalytics.Internals;

namespace JumpAnalytics.Tests;

public sealed class ToleranceFactorTests
{
    private static double At(IReadOnlyDictionary<string, string> row, string column) => double.Parse(row[column], CultureInfo.InvariantCulture);

    // tests/reference/limits/normal-tolerance-factors.csv: R 4.2.2, qt() with a noncentrality, and integrate(); three decimals are printed in Odeh and
    // Owen (1980) and Hahn and Meeker (1991), tables A.10 and A.12.
    [Fact]
    public void Factors_agree_with_R()
    {
        var rows = ReferenceFiles.Rows("limits/normal-tolerance-factors.csv").ToList();
        Assert.Equal(42, rows.Count);
        foreach (var row in rows)
        {
            var (n, share, confidence) = ((int)At(row, "n"), At(row, "P"), At(row, "conf"));
            var what = $"n {n}, share {share}, confidence {confidence}";
            Close.Relative(At(row, "k_one_sided"), ToleranceFactor.OneSided(n, share, confidence), 1e-9, what + " one-sided");
            Close.Relative(At(row, "k_two_sided_exact"), ToleranceFactor.TwoSided(n, share, confidence), 1e-9, what + " two-sided");
            Close.Relative(At(row, "k_two_sided_howe"), ToleranceFactor.Howe(n, share, confidence), 1e-12, what + " Howe");
        }
    }

    // tests/reference/limits/tolerance-exact.csv: mpmath 1.3.0 at 30 digits, 2 to 1,000 values.
    [Fact]
    public void Factors_are_those_of_thirty_digits()
    {
        var rows = ReferenceFiles.Rows("limits/tolerance-exact.csv").ToList();
        Assert.Equal(45, rows.Count);
        foreach (var row in rows)
        {
            var (n, share, confidence) = ((int)At(row, "n"), At(row, "share"), At(row, "confidence"));
            var what = $"n {n}, share {share}, confidence {confidence}";
            Close.Relative(At(row, "one_sided"), ToleranceFactor.OneSided(n, share, confidence), 1e-12, what + " one-sided");
            Close.Relative(At(row, "two_sided"), ToleranceFactor.TwoSided(n, share, confidence), 1e-12, what + " two-sided");
        }
    }

    // The example of the NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.6.3 (public domain): 43 wafers, a share of 0.90, confidence 0.99.
    // It prints 1.8740 one-sided and 2.217 two-sided by Howe; more digits from R 4.2.2.
    [Fact]
    public void The_handbooks_wafers_have_its_factors()
    {
        Close.Absolute(1.8740, ToleranceFactor.OneSided(43, 0.90, 0.99), 5e-5);
        Close.Relative(1.873953606, ToleranceFactor.OneSided(43, 0.90, 0.99), 1e-9);
        Close.Absolute(2.217, ToleranceFactor.Howe(43, 0.90, 0.99), 5e-4);
        Close.Relative(2.217315897, ToleranceFactor.Howe(43, 0.90, 0.99), 1e-9);
        Close.Absolute(2.222825, ToleranceFactor.TwoSided(43, 0.90, 0.99), 5e-7);
    }

    // Of t with one degree of freedom and no offset: 1/2 + atan(t)/π, with two: 1/2 + t/(2√(2 + t²)).
    [Theory]
    [InlineData(-30)]
    [InlineData(-1)]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(4)]
    [InlineData(200)]
    public void Without_an_offset_it_is_students_t(double t)
    {
        Close.Absolute(0.5 + Math.Atan(t) / Math.PI, NoncentralT.Below(t, 1, 0), 2e-15);
        Close.Absolute(0.5 + t / (2 * Math.Sqrt(2 + t * t)), NoncentralT.Below(t, 2, 0), 2e-15);
    }

    // At t = 0 it is Φ(−offset); with 1 − F(−t; −offset) it mirrors itself.
    [Fact]
    public void It_mirrors_itself_and_its_quantile_is_its_inverse()
    {
        foreach (var degrees in new[] { 1.0, 2.5, 9, 99, 5000 })
        {
            foreach (var offset in new[] { -3.0, 0, 1, 12, 90 })
            {
                Close.Absolute(NormalInterval.Below(-offset), NoncentralT.Below(0, degrees, offset), 2e-15);
                foreach (var share in new[] { 0.001, 0.1, 0.5, 0.9, 0.9999 })
                {
                    var t = NoncentralT.Quantile(share, degrees, offset);
                    Close.Absolute(share, NoncentralT.Below(t, degrees, offset), 1e-13, $"{degrees} {offset} {share}");
                    Close.Absolute(1 - share, NoncentralT.Below(-t, degrees, -offset), 1e-13, $"{degrees} {offset} {share} mirrored");
                }
            }
        }
    }

    [Theory]
    [InlineData(1, 0.9, 0.9)]
    [InlineData(5, 0, 0.9)]
    [InlineData(5, 1, 0.9)]
    [InlineData(5, 0.9, 1)]
    [InlineData(5, double.NaN, 0.9)]
    [InlineData(5, 0.9, double.NaN)]
    public void Arguments_that_can_not_be_are_refused(int n, double share, double confidence)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ToleranceFactor.OneSided(n, share, confidence));
        Assert.Throws<ArgumentOutOfRangeException>(() => ToleranceFactor.TwoSided(n, share, confidence));
        Assert.Throws<ArgumentOutOfRangeException>(() => ToleranceFactor.Howe(n, share, confidence));
    }
}
