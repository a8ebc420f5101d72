using CsCheck;

namespace JumpAnalytics.Tests.Fits;

public partial class DiscProbabilityTests
{
    // A fixed seed and one generator throughout: the same cases in every run. CsCheck's own Sample reseeds itself after
    // the first case.
    private const ulong Seed = 20_260_101;
    private const int Cases = 3000;

    // Means inside, on and outside the rim; spreads up to 30 times one another before the correlation.
    private static readonly Gen<Case> AnyCase =
        from radius in Power(-2, 1.5)
        from distance in Gen.Double[0, 1.5]
        from angle in Gen.Double[-Math.PI, Math.PI]
        from sigma1 in Power(-1.5, 0.5)
        from ratio in Power(-1.5, 1.5)
        from rho in Gen.Double[-0.99, 0.99]
        select new Case(
            radius,
            distance * (radius + 3 * sigma1) * Math.Cos(angle),
            distance * (radius + 3 * sigma1) * Math.Sin(angle),
            sigma1 * sigma1,
            sigma1 * sigma1 * ratio * ratio,
            rho * sigma1 * sigma1 * ratio);

    [Fact]
    public void Turning_the_axes_changes_nothing() =>
        Sample(Gen.Select(AnyCase, Gen.Double[-4, 4]), (c, turn) =>
        {
            var (sin, cos) = Math.SinCos(turn);
            var turned = new Case(
                c.Radius,
                cos * c.Mean1 - sin * c.Mean2,
                sin * c.Mean1 + cos * c.Mean2,
                cos * cos * c.Variance1 + sin * sin * c.Variance2 - 2 * sin * cos * c.Covariance,
                sin * sin * c.Variance1 + cos * cos * c.Variance2 + 2 * sin * cos * c.Covariance,
                sin * cos * (c.Variance1 - c.Variance2) + (cos * cos - sin * sin) * c.Covariance);
            // A rounding of the turned variances moves the minor one by up to ratio^2 / (1 - rho^2) times 1e-16.
            Near(c.Inside(), turned.Inside(), 2e-11);
        });

    [Fact]
    public void Mirroring_and_swapping_the_axes_changes_nothing() =>
        Sample(AnyCase, c =>
        {
            var inside = c.Inside();
            Near(inside, (c with { Mean1 = -c.Mean1, Covariance = -c.Covariance }).Inside(), 1e-14);
            Near(inside, (c with { Mean1 = -c.Mean1, Mean2 = -c.Mean2 }).Inside(), 1e-14);
            Near(inside, new Case(c.Radius, c.Mean2, c.Mean1, c.Variance2, c.Variance1, c.Covariance).Inside(), 1e-12);
        });

    [Fact]
    public void The_unit_of_length_changes_nothing() =>
        Sample(Gen.Select(AnyCase, Power(-6, 6)), (c, unit) =>
        {
            var area = unit * unit;
            var scaled = new Case(
                c.Radius * unit,
                c.Mean1 * unit,
                c.Mean2 * unit,
                c.Variance1 * area,
                c.Variance2 * area,
                c.Covariance * area);
            Near(c.Inside(), scaled.Inside(), 1e-11);
        });

    [Fact]
    public void Powers_of_two_as_unit_change_no_bit() =>
        Sample(Gen.Select(AnyCase, Gen.Int[-200, 200]), (c, power) =>
        {
            var scaled = new Case(
                double.ScaleB(c.Radius, power),
                double.ScaleB(c.Mean1, power),
                double.ScaleB(c.Mean2, power),
                double.ScaleB(c.Variance1, 2 * power),
                double.ScaleB(c.Variance2, 2 * power),
                double.ScaleB(c.Covariance, 2 * power));
            Assert.Equal(c.Inside(), scaled.Inside());
            Assert.Equal(c.Outside(), scaled.Outside());
        });

    [Fact]
    public void A_larger_disc_holds_more() =>
        Sample(Gen.Select(AnyCase, Power(-8, 0)), (c, growth) =>
        {
            var inside = c.Inside();
            var larger = c with { Radius = c.Radius * (1 + growth) };
            Assert.InRange(inside, 0, 1);
            Assert.True(larger.Inside() >= inside * (1 - 1e-12), $"{inside:R} then {larger.Inside():R}, growth {growth:R}");
            var (outside, less) = (c.Outside(), larger.Outside());
            Assert.InRange(outside, 0, 1);
            Assert.True(less * (1 - 1e-12) <= outside, $"{outside:R} then {less:R}, growth {growth:R}");
        });

    [Fact]
    public void What_is_not_inside_is_outside() =>
        Sample(AnyCase, c => Near(1, c.Inside() + c.Outside(), 1e-14));

    [Fact]
    public void Radius_is_the_inverse() =>
        Sample(Gen.Select(AnyCase, Gen.OneOf(Gen.Double[0.001, 0.999], Power(-30, -3))), (c, probability) =>
        {
            var radius = c.RadiusOf(probability);
            var below = (c with { Radius = radius * (1 - 1e-9) }).Inside();
            var above = (c with { Radius = radius * (1 + 1e-9) }).Inside();
            Assert.True(
                below <= probability && probability <= above,
                $"{probability:R} not in [{below:R}, {above:R}] about radius {radius:R} for {c}");
        });

    // Outside fraction of n seeded points. By Hoeffding's inequality a correct value misses
    // sqrt(ln(2/alpha) / (2n)) with a probability below alpha = 1e-9 for each of 40 cases: 4e-8 over all of them.
    [Fact]
    public void Outside_agrees_with_simulation()
    {
        const int points = 100_000;
        var tolerance = Math.Sqrt(Math.Log(2 / 1e-9) / (2 * points));
        var random = new Random(20_260_101);
        Sample(AnyCase, iterations: 40, check: c =>
        {
            var sigma1 = Math.Sqrt(c.Variance1);
            var slope = c.Covariance / sigma1;
            var rest = Math.Sqrt(c.Variance2 - slope * slope);
            var outside = 0;
            for (var i = 0; i < points; i++)
            {
                var length = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
                var (sin, cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
                var x = c.Mean1 + sigma1 * length * cos;
                var y = c.Mean2 + slope * length * cos + rest * length * sin;
                if (x * x + y * y > c.Radius * c.Radius)
                    outside++;
            }

            Near((double)outside / points, c.Outside(), tolerance);
        });
    }

    private static Gen<double> Power(double low, double high) => Gen.Double[low, high].Select(x => Math.Pow(10, x));

    private static void Sample<T>(Gen<T> gen, Action<T> check, int iterations = Cases)
    {
        var random = new PCG(1, Seed);
        for (var i = 0; i < iterations; i++)
        {
            var value = gen.Generate(random, null, out _);
            try
            {
                check(value);
            }
            catch (Exception error)
            {
                Assert.Fail($"Case {i}, {value}: {error.Message}");
            }
        }
    }

    private static void Sample<T1, T2>(Gen<(T1, T2)> gen, Action<T1, T2> check) =>
        Sample(gen, pair => check(pair.Item1, pair.Item2));

    private sealed record Case(
        double Radius, double Mean1, double Mean2, double Variance1, double Variance2, double Covariance)
    {
        public double Inside() => DiscProbability.Inside(Radius, Mean1, Mean2, Variance1, Variance2, Covariance);

        public double Outside() => DiscProbability.Outside(Radius, Mean1, Mean2, Variance1, Variance2, Covariance);

        public double RadiusOf(double probability) =>
            DiscProbability.Radius(probability, Mean1, Mean2, Variance1, Variance2, Covariance);
    }
}
