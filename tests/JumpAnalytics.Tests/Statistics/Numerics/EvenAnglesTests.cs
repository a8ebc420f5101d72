using CsCheck;
namespace JumpAnalytics.Tests;

public sealed class EvenAnglesTests
{
    private static readonly Gen<(double Twice, double Once, double Turn)> Exponents =
        Gen.Select(Gen.Double[-3, 2.6], Gen.Double[-3, 3.2], Gen.Double[0, Math.PI],
            (a, b, turn) => (Math.Pow(10, a), Math.Pow(10, b), turn));

    // The mean of exp(-a cos 2x - b cos(x - turn)) less its greatest exponent over the angles against that over 4096.
    // 256 angles serve a and b while a (cosh 2h - 1) + b (cosh h - 1) is no more than 255 h - 34, at the best h of each: 233 for a alone,
    // 951 for b alone, and of both together what a line between them allows (found by a grid over h).
    [Fact]
    public void As_many_as_the_mean_needs()
    {
        var (served, not) = (0, 0);
        double[] heights = [.. Enumerable.Range(1, 4000).Select(k => k / 4000.0)];
        Cases.Each(Exponents, 2000, 20_260_102, e =>
        {
            var need = heights.Min(h => (e.Twice * (Math.Cosh(2 * h) - 1) + e.Once * (Math.Cosh(h) - 1)) / Math.Max(1e-9, 255 * h - 34));
            if (EvenAngles.For(e.Twice, e.Once) is not { } angles)
            {
                Assert.True(need > 0.9, $"{e} should not need more than 256 angles.");
                not++;
                return;
            }

            Assert.True(need <= 1 + 1e-6, $"{e} needs more than 256 angles.");
            served++;

            double Value(double cos, double sin) => Math.Exp(
                -e.Twice * (2 * cos * cos - 1) - e.Once * (cos * Math.Cos(e.Turn) + sin * Math.Sin(e.Turn)) - e.Twice - e.Once);
            var plain = Enumerable.Range(0, 4096).Select(i => Math.SinCos(Math.Tau * i / 4096)).Average(t => Value(t.Cos, t.Sin));
            var sum = 0.0;
            foreach (var (cos, sin) in angles.Lanes)
            {
                for (var i = 0; i < 4; i++)
                    sum += Value(cos[i], sin[i]);
            }

            Close.Relative(plain, sum / angles.Count, 1e-12);
        });
        Assert.True(served > 1000 && not > 30, $"{served} served, {not} not");
    }

    [Fact]
    public void Evenly_round_the_full_turn()
    {
        var angles = EvenAngles.For(1, 1)!;
        var k = 0;
        foreach (var (cos, sin) in angles.Lanes)
        {
            for (var i = 0; i < 4; i++, k++)
            {
                Close.Absolute(Math.Cos(Math.Tau * k / angles.Count), cos[i], 2e-15);
                Close.Absolute(Math.Sin(Math.Tau * k / angles.Count), sin[i], 2e-15);
            }
        }

        Assert.Equal(angles.Count, k);
    }

    [Theory]
    [InlineData(1e4, 0)]
    [InlineData(0, 1e4)]
    [InlineData(double.PositiveInfinity, 0)]
    [InlineData(0, double.NaN)]
    public void None_where_hundreds_would_not_do(double twice, double once) =>
        Assert.Null(EvenAngles.For(twice, once));
}
