using System.Globalization;

namespace JumpAnalytics.Tests;

public sealed class QuantileOfTests
{
    // tests/reference/quantiles/quantiles.csv: R 4.2.2, confirmed with mpmath 1.3.0; shares from 0.45 to 1e-300 and exp(-2000), degrees of
    // freedom from 1 to 1e9.
    [Fact]
    public void All_laws_agree_with_R_far_into_both_tails()
    {
        var rows = ReferenceFiles.Rows("quantiles/quantiles.csv").ToList();
        Assert.Equal(1340, rows.Count);
        foreach (var row in rows)
        {
            double At(string column) => row[column] is { Length: > 0 } text ? double.Parse(text, CultureInfo.InvariantCulture) : 0;
            var share = row["side"] == "above" ? TailShare.OfLogAbove(At("log_share")) : TailShare.OfLogBelow(At("log_share"));
            Close.Relative(At("quantile"), Of(row["law"], At("first"), At("second"), share), 1e-10, string.Join(' ', row.Values));
        }
    }

    // R 4.2.2: qt(1e-12 / 2, 5, lower.tail = FALSE); qt(5e-5, 1, lower.tail = FALSE); qt(5e-10, 109, lower.tail = FALSE).
    [Theory]
    [InlineData(1 - 1e-12, 5, 452.53922433340074, 1e-5)] // 1e-12 itself has four digits there
    [InlineData(0.9999, 1, 6366.1976713159365, 1e-11)]
    [InlineData(1 - 1e-9, 109, 6.6893047726851425, 1e-7)]
    public void Middle_shares_next_to_one_keep_their_tail(double confidence, double freedom, double expected, double tolerance) =>
        Close.Relative(expected, QuantileOf.T(freedom, TailShare.Middle(confidence)), tolerance);

    // F on 2 and d degrees of freedom has the quantile d / 2 · (share^(−2/d) − 1); with as many above as below, Fisher's z is normal up to
    // 1 / d; on 1 degree of freedom F is t².
    [Theory]
    [InlineData(0.25)]
    [InlineData(1e-3)]
    [InlineData(1e-12)]
    [InlineData(1e-100)]
    public void F_on_a_thousand_million_degrees_of_freedom(double above)
    {
        const double many = 1e9;
        var share = TailShare.Above(above);
        var normal = QuantileOf.Normal(share);
        Close.Relative(many / 2 * Kernels.Expm1(-2 / many * Math.Log(above)), QuantileOf.F(2, many, share), 1e-10);
        Close.Relative(-Math.Log(above), QuantileOf.F(2, 4e15, share), 1e-10);
        Close.Relative(Math.Exp(2 * normal / Math.Sqrt(many)), QuantileOf.F(many, many, share), 1e-10);
        Close.Relative(Square(QuantileOf.T(many, TailShare.Above(above / 2))), QuantileOf.F(1, many, share), 1e-12);
        Close.Relative(1 / QuantileOf.F(7, many, share), QuantileOf.F(many, 7, share.Opposite), 1e-14);
    }

    [Fact]
    public void Sides_mirror_one_another_and_ends_are_the_ends_of_the_law()
    {
        foreach (var p in new[] { 1e-12, 0.01, 0.3, 0.5, 0.8 })
        {
            Assert.Equal(QuantileOf.T(4, TailShare.Below(p)), -QuantileOf.T(4, TailShare.Above(p)));
            Assert.Equal(QuantileOf.Normal(TailShare.Below(p)), -QuantileOf.Normal(TailShare.Above(p)));
            Close.Relative(1 - QuantileOf.Beta(2, 5, TailShare.Below(p)), QuantileOf.Beta(5, 2, TailShare.Above(p)), 1e-13);
        }
        Assert.Equal(0, QuantileOf.T(9, TailShare.Below(0.5)));
        Assert.Equal(QuantileOf.Normal(TailShare.Below(0.9)), QuantileOf.T(double.PositiveInfinity, TailShare.Below(0.9)));
        Assert.Equal(double.NegativeInfinity, QuantileOf.T(3, TailShare.Below(0)));
        Assert.Equal(double.PositiveInfinity, QuantileOf.Normal(TailShare.Below(1)));
        Assert.Equal(0, QuantileOf.ChiSquared(3, TailShare.Below(0)));
        Assert.Equal(double.PositiveInfinity, QuantileOf.F(3, 4, TailShare.Above(0)));
        Assert.Equal(1, QuantileOf.Beta(3, 4, TailShare.Below(1)));
        Assert.Equal(0, QuantileOf.Beta(3, 4, TailShare.Above(1)));
        Assert.Equal(double.PositiveInfinity, QuantileOf.T(0.5, TailShare.OfLogAbove(-2000)));
    }

    [Fact]
    public void Arguments_that_can_not_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => TailShare.Below(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => TailShare.Middle(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => QuantileOf.T(0, TailShare.Below(0.1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => QuantileOf.T(double.NaN, TailShare.Below(0.1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => QuantileOf.ChiSquared(-1, TailShare.Below(0.1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => QuantileOf.F(1, 0, TailShare.Below(0.1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => QuantileOf.Beta(0, 1, TailShare.Below(0.1)));
    }

    // A tail of a law by the quantile's own inverse: every whole number of degrees of freedom to 400, five shares each.
    [Fact]
    public void The_tail_beyond_a_beta_quantile_is_the_share_asked_for()
    {
        for (var n = 1; n <= 400; n += 3)
        {
            foreach (var p in new[] { 1e-15, 1e-4, 0.2, 0.5, 0.97 })
            {
                var x = QuantileOf.Beta(n / 2.0, 8, TailShare.Above(p));
                Close.Relative(Math.Log(p), BetaKernel.LogTail(n / 2.0, 8, x, beyond: true), 1e-9, $"{n} {p}");
            }
        }
    }

    private static double Of(string law, double first, double second, TailShare share) => law switch
    {
        "normal" => QuantileOf.Normal(share),
        "t" => QuantileOf.T(first, share),
        "chi-square" => QuantileOf.ChiSquared(first, share),
        "F" => QuantileOf.F(first, second, share),
        _ => QuantileOf.Beta(first, second, share),
    };

    private static double Square(double x) => x * x;
}
