using MathNet.Numerics.Integration;

namespace JumpAnalytics.Statistics;

/// <summary>
/// The integral from 0 up to any radius of a function of a model's probabilities. It goes panel by panel between radii that hold given
/// shares of the points, so that no change of the function is stepped over; a panel is halved until its two rules (Gauss with 7 and
/// Kronrod with 15 points) agree.
/// </summary>
internal sealed class RadialIntegral
{
    private static readonly double[] _shares = [0.001, 0.1, 0.5, 0.9, 0.99, 0.9999];

    /// <summary>
    /// Difference of the two rules on a panel, over the last of the radii; where the function is smooth the better rule
    /// is then good to about 1e-11.
    /// </summary>
    private const double Agreement = 1e-9;

    /// <summary>Halvings at a step, of a model without density: to 1e-9 of a panel.</summary>
    private const int MostHalvings = 30;

    private readonly Func<double, double> _function;
    private readonly double[] _knots;
    private readonly double[] _upTo;

    /// <summary>Prepares the integral.</summary>
    /// <param name="model">The model of points.</param>
    /// <param name="centre">The place that radii are measured from.</param>
    /// <param name="function">The function of the radius, metres.</param>
    public RadialIntegral(IPlaneModel model, PlaneVector centre, Func<double, double> function)
    {
        _function = function;
        _knots = [0, .. _shares.Select(p => model.RadiusHolding(p, centre)).Where(r => r > 0).Distinct().Order()];
        _upTo = new double[_knots.Length];
        for (var k = 1; k < _knots.Length; k++) _upTo[k] = _upTo[k - 1] + Panel(function, _knots[k - 1], _knots[k], MostHalvings);
    }

    /// <summary>The integral up to a radius, which may be infinite where the function falls fast enough.</summary>
    public double UpTo(double radius)
    {
        var k = Array.FindLastIndex(_knots, x => x <= radius);
        return _upTo[k] + (double.IsPositiveInfinity(radius) ? Beyond(_knots[k]) : Panel(_function, _knots[k], radius, MostHalvings));
    }

    /// <summary>The rest beyond a radius, each place taken by the part of it that the radius is.</summary>
    private double Beyond(double radius) => radius > 0
        ? Panel(part => part > 0 ? _function(radius / part) * radius / (part * part) : 0, 0, 1, MostHalvings)
        : 0;

    private double Panel(Func<double, double> function, double from, double to, int halvings)
    {
        if (!(to > from)) return 0;
        var value = GaussKronrodRule.Integrate(function, from, to, out var difference, out _,
            targetRelativeError: 1, maximumDepth: 0, order: 15);
        if (halvings == 0 || !(difference > Agreement * _knots[^1])) return value;
        var middle = from + (to - from) / 2;
        return Panel(function, from, middle, halvings - 1) + Panel(function, middle, to, halvings - 1);
    }
}
