using System.Runtime.Intrinsics;
namespace JumpAnalytics.Tests;

public sealed class ExpLanesTests
{
    private const double Ulp = 2.220446049250313e-16;

    // exp(-x) and 1 - exp(-x) to 17 digits by mpmath 1.3.0 (40 digits).
    [Theory]
    [InlineData(0.0, 1.0, 0.0)]
    [InlineData(1e-300, 1.0, 1.0e-300)]
    [InlineData(1e-17, 0.99999999999999999, 1.0000000000000001e-17)]
    [InlineData(1e-08, 0.99999999000000005, 9.9999999500000004e-9)]
    [InlineData(0.001, 0.99900049983337499, 0.00099950016662500835)]
    [InlineData(0.1, 0.90483741803595957, 0.095162581964040432)]
    [InlineData(0.34, 0.7117703227626097, 0.2882296772373903)]
    [InlineData(0.35, 0.70468808971871345, 0.29531191028128655)]
    [InlineData(0.6931471805599453, 0.50000000000000001, 0.49999999999999999)]
    [InlineData(1.0, 0.36787944117144232, 0.63212055882855768)]
    [InlineData(1.05, 0.34993774911115534, 0.65006225088884466)]
    [InlineData(2.5, 0.082084998623898795, 0.9179150013761012)]
    [InlineData(10.0, 4.5399929762484852e-5, 0.99995460007023752)]
    [InlineData(36.7, 1.1518409493076096e-16, 0.99999999999999988)]
    [InlineData(100.5, 2.2563401359170363e-44, 1.0)]
    [InlineData(333.3, 1.7768435153217186e-145, 1.0)]
    [InlineData(700.0, 9.8596765437597709e-305, 1.0)]
    [InlineData(708.0, 3.307553003638408e-308, 1.0)]
    [InlineData(1e6, 3.307553003638408e-308, 1.0)] // as at its deepest, 708
    public void Values_of_high_precision(double x, double exp, double lost)
    {
        var (foundExp, foundLost) = Fall(x);
        Close.Relative(exp, foundExp, 1.5 * Ulp, $"exp(-{x})");
        Close.Relative(lost, foundLost, 1.5 * Ulp, $"1 - exp(-{x})");
    }

    // The platform's exponential is within one unit in the last place itself.
    [Fact]
    public void Close_to_the_scalar_exponential_throughout()
    {
        for (var i = 0; i < 200_000; i++)
        {
            var x = 708.0 * i / 200_000 * (i % 3 == 0 ? 1e-3 : 1);
            Close.Relative(Math.Exp(-x), Fall(x).Exp, 2 * Ulp, "exp");
        }
    }

    [Fact]
    public void What_is_left_and_what_is_lost_make_one()
    {
        for (var i = 0; i < 100_000; i++)
        {
            var (exp, lost) = Fall(40.0 * i / 100_000);
            Close.Absolute(1, exp + lost, Ulp);
        }
    }

    [Fact]
    public void Every_lane_is_by_itself()
    {
        var fall = ExpLanes.Fall(Vector256.Create(0, 0.25, 30, 650), out var lost);
        for (var i = 0; i < 4; i++)
            Assert.Equal(Fall(new[] { 0, 0.25, 30, 650 }[i]), (fall[i], lost[i]));
    }

    private static (double Exp, double Lost) Fall(double x)
    {
        var exp = ExpLanes.Fall(Vector256.Create(x), out var lost);
        return (exp[0], lost[0]);
    }
}
