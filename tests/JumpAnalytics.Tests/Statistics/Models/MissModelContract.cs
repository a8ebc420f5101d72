using System.Globalization;
using MathNet.Numerics.Integration;

namespace JumpAnalytics.Tests;

/// <summary>What every model of misses promises, whatever its shape. A new model is one line of the list.</summary>
public sealed class MissModelContract
{
    /// <summary>A model: how it is fitted, and which promises do not apply.</summary>
    /// <param name="Fit">The fit, or the reason why there is none.</param>
    /// <param name="Smooth">Whether it has a density.</param>
    /// <param name="Shifts">Whether shifted misses shift it.</param>
    /// <param name="Parametric">Whether its own draws lead back to it.</param>
    private sealed record Kind(Func<PlaneSample, (IModelFit<IPlaneModel>? Value, string? Reason)> Fit, bool Smooth = true,
        bool Shifts = true, bool Parametric = true);

    private static readonly Dictionary<string, Kind> _kinds = new()
    {
        ["normal"] = new(s => Pair(BivariateNormal.FitTo(s))),
        ["normal, one variance"] = new(s => Pair(BivariateNormal.FitTo(s, NormalForm.EqualVariance))),
        ["normal, no bias"] = new(s => Pair(BivariateNormal.FitTo(s, NormalForm.NoBias)), Shifts: false),
        ["normal, one variance, no bias"] =
            new(s => Pair(BivariateNormal.FitTo(s, NormalForm.EqualVariance | NormalForm.NoBias)), Shifts: false),
        ["t"] = new(s => Pair(BivariateT.FitTo(s))),
        ["t of 5 degrees of freedom"] = new(s => Pair(BivariateT.FitTo(s, 5))),
        ["mixture of two spreads"] = new(s => Pair(ScaleMixture.FitTo(s))),
        ["points as they were"] = new(s => Pair(EmpiricalPoints.FitTo(s)), Smooth: false, Parametric: false),
    };

    private static (IModelFit<IPlaneModel>?, string?) Pair<T>(Fit<ModelFit<T>> fit) where T : class, IPlaneModel => (fit.Value, fit.Reason);

    public static TheoryData<string> Names => [.. _kinds.Keys];

    public static TheoryData<string> SmoothNames => [.. _kinds.Where(k => k.Value.Smooth).Select(k => k.Key)];

    public static TheoryData<string> ParametricNames => [.. _kinds.Where(k => k.Value.Parametric).Select(k => k.Key)];

    /// <summary>40 missions of three landings with a far tail, a bias and a turned ellipse.</summary>
    private static readonly IReadOnlyList<PlaneVector> _misses =
        Drawn(new BivariateT(new BivariateNormal(12, -7, 500, 220, 130), 4), 120, 11);

    private static readonly PlaneVector[] _centres = [new(0, 0), new(25, -10), new(-60, 45)];

    private static IReadOnlyList<PlaneVector> Drawn(IPlaneModel model, int count, int seed)
    {
        var random = SeedStream.For(seed, "contract");
        return [.. Enumerable.Range(0, count).Select(_ => model.Draw(random))];
    }

    private static PlaneSample Sample(IEnumerable<PlaneVector> misses) =>
        PlaneSample.Of(misses.Select((m, i) => new PlaneReading((i / 3).ToString(CultureInfo.InvariantCulture), m)));

    private static IPlaneModel Fitted(string name, IEnumerable<PlaneVector>? misses = null) =>
        _kinds[name].Fit(Sample(misses ?? _misses)).Value!.Model;

    [Theory, MemberData(nameof(SmoothNames))]
    public void The_density_integrates_to_the_probability_of_every_circle_and_to_one(string name)
    {
        var model = Fitted(name);
        foreach (var centre in _centres)
        {
            var all = model.RadiusHolding(1 - 1e-5, centre);
            double[] radii = [0, 4, 30, 70, all];
            var sum = 0.0;
            foreach (var (from, to) in radii.Zip(radii[1..]))
            {
                sum += Ring(model, centre, from, to);
                Close.Absolute(model.ProbabilityWithin(to, centre), sum, 1e-9, $"{to} m about {centre}");
            }
            Close.Absolute(1 - 1e-5, sum, 1e-9, $"about {centre}");
        }
    }

    /// <summary>The density over a ring: Gauss-Legendre on the radius in pieces that grow, equally spaced angles.</summary>
    private static double Ring(IPlaneModel model, PlaneVector centre, double from, double to)
    {
        const int Angles = 180;
        var sum = 0.0;
        for (double low = from, high; low < to; low = high)
        {
            high = Math.Min(to, Math.Max(low + 8, 1.25 * low));
            sum += GaussLegendreRule.Integrate(r => r * Enumerable.Range(0, Angles).Sum(k => Density(r, 2 * Math.PI * k / Angles)),
                low, high, 10);
        }
        return sum * 2 * Math.PI / Angles;

        double Density(double r, double angle) =>
            Math.Exp(model.LogDensity(new PlaneVector(centre.Along + r * Math.Cos(angle), centre.Across + r * Math.Sin(angle)))!.Value);
    }

    /// <summary>Nine models, three centres, five radii: the chance that one share is off by 4.8 standard errors or more is 2e-4.</summary>
    [Theory, MemberData(nameof(Names))]
    public void Draws_fall_into_circles_as_often_as_the_probability_says(string name)
    {
        const int Draws = 20_000;
        var model = Fitted(name);
        var draws = Drawn(model, Draws, 5);
        foreach (var centre in _centres)
        {
            foreach (var radius in (double[])[8, 20, 45, 90, 160])
            {
                var p = model.ProbabilityWithin(radius, centre);
                var within = draws.Count(d => double.Hypot(d.Along - centre.Along, d.Across - centre.Across) <= radius);
                Close.Absolute(p, within / (double)Draws, 4.8 * Math.Sqrt(p * (1 - p) / Draws) + 1e-9, $"{radius} m about {centre}");
            }
        }
    }

    [Theory, MemberData(nameof(Names))]
    public void Within_and_beyond_add_up_to_one_and_move_with_the_radius(string name)
    {
        var model = Fitted(name);
        foreach (var centre in _centres)
        {
            Assert.Equal((0.0, 1.0), (model.ProbabilityWithin(0, centre), model.ProbabilityBeyond(0, centre)));
            Assert.Equal((1.0, 0.0),
                (model.ProbabilityWithin(double.PositiveInfinity, centre), model.ProbabilityBeyond(double.PositiveInfinity, centre)));
            var (within, beyond) = (0.0, 1.0);
            for (var radius = 0.01; radius < 1e5; radius *= 1.3)
            {
                var (w, b) = (model.ProbabilityWithin(radius, centre), model.ProbabilityBeyond(radius, centre));
                Close.Absolute(1, w + b, 1e-12);
                Assert.True(w >= within * (1 - 1e-12) && b <= beyond + 1e-12,
                    $"{radius} m about {centre}: {within:R} then {w:R}, {beyond:R} then {b:R}");
                (within, beyond) = (w, b);
            }
        }
    }

    /// <summary>The smallest radius that holds the share: the radius does, and one a little smaller does not.</summary>
    [Theory, MemberData(nameof(Names))]
    public void The_radius_that_holds_a_share_is_the_smallest_that_does(string name)
    {
        var model = Fitted(name);
        foreach (var centre in _centres)
        {
            foreach (var p in (double[])[1e-4, 0.1, 0.5, 0.85, 0.9, 0.95, 0.999])
            {
                var radius = model.RadiusHolding(p, centre);
                Assert.True(model.ProbabilityWithin(radius, centre) >= p - 1e-11, $"{p} about {centre}: {radius:R} m is too small");
                Assert.True(model.ProbabilityWithin(radius * (1 - 1e-7), centre) < p, $"{p} about {centre}: {radius:R} m is too large");
            }
        }
    }

    [Theory, MemberData(nameof(Names))]
    public void Turned_mirrored_shifted_and_scaled_misses_turn_mirror_shift_and_scale_the_fit(string name)
    {
        const double Angle = 0.7;
        var (sin, cos) = Math.SinCos(Angle);
        List<Func<PlaneVector, PlaneVector>> moves =
        [
            v => new PlaneVector(cos * v.Along - sin * v.Across, sin * v.Along + cos * v.Across),
            v => v with { Across = -v.Across },
        ];
        if (_kinds[name].Shifts) moves.Add(v => new PlaneVector(v.Along + 300, v.Across - 500));
        var model = Fitted(name);
        foreach (var move in moves) Same(move, 1);
        Same(v => new PlaneVector(0.02 * v.Along, 0.02 * v.Across), 0.02);
        Same(v => new PlaneVector(1e4 * v.Along, 1e4 * v.Across), 1e4);

        void Same(Func<PlaneVector, PlaneVector> move, double scale)
        {
            var moved = Fitted(name, _misses.Select(move));
            foreach (var centre in _centres)
            {
                // No landing lies within 1e-6 m of these rims, so a step of the landings as they were is no matter of rounding.
                foreach (var radius in (double[])[9.9, 33.3, 77.7])
                    Close.Relative(model.ProbabilityWithin(radius, centre), moved.ProbabilityWithin(radius * scale, move(centre)),
                        1e-7, $"{radius} m about {centre}");
                Close.Relative(model.RadiusHolding(0.9, centre) * scale, moved.RadiusHolding(0.9, move(centre)),
                    1e-7, $"R90 about {centre}");
            }
        }
    }

    /// <summary>Seven models, four figures: the chance that one is off by 4.8 standard errors or more is 5e-5.</summary>
    [Theory, MemberData(nameof(ParametricNames))]
    public void A_fit_to_its_own_draws_leads_back_to_it(string name)
    {
        var model = Fitted(name);
        var fit = _kinds[name].Fit(PlaneSample.Of(Drawn(model, 6000, 23))).Value!;
        Func<IPlaneModel, double>[] figures = [m => m.RadiusHolding(0.5), m => m.RadiusHolding(0.9), m => m.RadiusHolding(0.98, new(20, 5)),
            m => m.ProbabilityWithin(15, new(25, -10))];
        foreach (var figure in figures)
        {
            var estimate = fit.Derived(figure, 0.95);
            var error = (estimate.Range!.Value.High - estimate.Range.Value.Low) / 2 / 1.959963984540054;
            // The error itself: of a quantile or share of 6,000 points some 0.7 to 3 %, by the error of a normal's spread, 1 / 2√n, and of
            // a binomial.
            Assert.InRange(error / estimate.Value, 0.003, 0.045);
            Close.Absolute(figure(model), estimate.Value, 4.8 * error);
        }
    }

    private static readonly Dictionary<string, PlaneVector[]> _poor = new()
    {
        ["none"] = [],
        ["one"] = [new(3, 4)],
        ["two"] = [new(3, 4), new(-5, 1)],
        ["three"] = [new(3, 4), new(-5, 1), new(2, 9)],
        ["twenty at one point"] = [.. Enumerable.Repeat(new PlaneVector(7, -2), 20)],
        ["twenty on the spot"] = [.. Enumerable.Repeat(default(PlaneVector), 20)],
        ["twenty at two points"] = [.. Enumerable.Range(0, 20).Select(i => i % 2 == 0 ? new PlaneVector(7, -2) : new PlaneVector(1, 1))],
        ["twenty at three points"] = [.. Enumerable.Range(0, 20)
            .Select(i => i % 3 == 0 ? new PlaneVector(7, -2) : i % 3 == 1 ? new PlaneVector(1, 1) : new PlaneVector(0, 4))],
        ["thirty on a line"] = [.. Enumerable.Range(0, 30).Select(i => new PlaneVector(2 * i, 3 * i + 1))],
        ["thirty on a line along an axis"] = [.. Enumerable.Range(0, 30).Select(i => new PlaneVector(i * i, 0))],
        ["all but one on a line"] = [new(10, 50), .. Enumerable.Range(0, 30).Select(i => new PlaneVector(i * i, 0))],
        ["most on the spot"] = [.. Enumerable.Repeat(default(PlaneVector), 20), new(3, 4), new(-5, 1), new(2, 9), new(12, -9)],
        ["half on the spot"] = [.. Enumerable.Repeat(default(PlaneVector), 12),
            .. Enumerable.Range(0, 12).Select(i => new PlaneVector(i * Math.Cos(i), i * Math.Sin(i)))],
        ["far away from all"] = [.. Enumerable.Range(0, 20).Select(i => new PlaneVector(1e9 + i % 5, 1e9 - i % 4))],
        ["one very far"] = [new(1e9, 1e9), .. Enumerable.Range(0, 20).Select(i => new PlaneVector(i % 5, i % 4))],
        ["tiny"] = [.. Enumerable.Range(0, 20).Select(i => new PlaneVector(1e-9 * (i % 5), 1e-9 * (i % 4)))],
    };

    [Theory, MemberData(nameof(Names))]
    public void Poor_misses_give_a_reason_or_a_sound_model(string name)
    {
        foreach (var (what, misses) in _poor)
        {
            foreach (var sample in (PlaneSample[])[PlaneSample.Of(misses), Sample(misses),
                PlaneSample.Of(misses.Select(m => new PlaneReading("one mission", m)))])
            {
                var (fit, reason) = _kinds[name].Fit(sample);
                Assert.True(fit is null == reason is not null, what);
                if (fit is null)
                {
                    Assert.False(string.IsNullOrWhiteSpace(reason), what);
                    continue;
                }
                Assert.True(fit.LogLikelihood is null || double.IsFinite(fit.LogLikelihood.Value), what);
                Assert.All(fit.Parameters,
                    p => Assert.False(double.IsNaN(p.Value) || p.StandardError is { } e && !double.IsFinite(e), $"{what}: {p}"));
                foreach (var centre in (PlaneVector[])[default, misses[0]])
                {
                    Assert.False(double.IsNaN(fit.Model.LogDensity(centre) ?? 0), what);
                    Assert.InRange(fit.Model.ProbabilityWithin(10, centre), 0, 1);
                    Assert.True(fit.Model.RadiusHolding(0.9, centre) >= 0, what);
                }
                Assert.True(double.IsFinite(fit.Model.Draw(SeedStream.For(1, "poor")).Length), what);
            }
        }
        Assert.NotNull(_kinds[name].Fit(PlaneSample.Of(_poor["none"])).Reason);
    }

    [Theory, MemberData(nameof(Names))]
    public void Impossible_arguments_are_named(string name)
    {
        var model = Fitted(name);
        foreach (var radius in (double[])[-1, double.NaN])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => model.ProbabilityWithin(radius));
            Assert.Throws<ArgumentOutOfRangeException>(() => model.ProbabilityBeyond(radius));
        }
        foreach (var p in (double[])[0, 1, -0.1, 1.1, double.NaN]) Assert.Throws<ArgumentOutOfRangeException>(() => model.RadiusHolding(p));
        foreach (var centre in (PlaneVector[])[new(double.NaN, 0), new(0, double.PositiveInfinity)])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => model.ProbabilityWithin(10, centre));
            Assert.Throws<ArgumentOutOfRangeException>(() => model.ProbabilityBeyond(10, centre));
            Assert.Throws<ArgumentOutOfRangeException>(() => model.RadiusHolding(0.5, centre));
        }
    }

    [Theory, MemberData(nameof(Names))]
    public void The_same_misses_and_the_same_seed_give_the_same_numbers(string name)
    {
        var (one, two) = (Fitted(name), Fitted(name));
        Assert.Equal(Drawn(one, 50, 3), Drawn(two, 50, 3));
        Assert.Equal(one.RadiusHolding(0.9), two.RadiusHolding(0.9));
        Assert.Equal(one.LogDensity(new(1, 2)), two.LogDensity(new(1, 2)));
        Assert.Equal(one.ProbabilityWithin(20, new(3, 4)), one.ProbabilityWithin(20, new(3, 4)));
    }

    [Theory, MemberData(nameof(Names)), Trait("Category", "Long")]
    public void A_million_misses_are_fitted(string name)
    {
        var misses = Drawn(new ScaleMixture(new BivariateNormal(12, -7, 500, 220, 130), 0.2, 2.5), 1_000_000, 31);
        var clock = System.Diagnostics.Stopwatch.StartNew();
        var fit = _kinds[name].Fit(Sample(misses)).Value!;
        var share = fit.Model.ProbabilityWithin(25);
        TestContext.Current.SendDiagnosticMessage($"{name}: {clock.Elapsed.TotalSeconds:0.0} s, {share:0.0000} within 25 m");
        Assert.InRange(share, 0.1, 0.9);
        Assert.True(clock.Elapsed < TimeSpan.FromSeconds(60));
    }
}
