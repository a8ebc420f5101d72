namespace JumpAnalytics.Tests;

/// <summary>Samples that no fit was meant for: each search gives a model of finite numbers or a reason, and never an exception.</summary>
public sealed class GatewayTests
{
    private static readonly Dictionary<string, PlaneVector[]> _odd = new()
    {
        ["at one place"] = [.. Enumerable.Repeat(new PlaneVector(3, 4), 24)],
        ["at two places"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(i % 2, 5 * (i % 2)))],
        ["on one line"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(i * i % 11, 2 * (i * i % 11)))],
        ["all but one at one place"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(i == 7 ? 50 : 3, 4))],
        ["far apart"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(1e200 * Math.Cos(i), 1e200 * Math.Sin(3 * i)))],
        ["farther apart"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(1e308 * Math.Cos(i), 1e308 * Math.Sin(3 * i)))],
        ["far out"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(1e15 + i % 5, -1e15 + i % 7))],
        ["one far out"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(i == 5 ? 1e12 : i % 5, i % 7))],
        ["close together"] = [.. Enumerable.Range(0, 24).Select(i => new PlaneVector(1e-150 * (i % 5), 1e-150 * (i % 7)))],
    };

    public static TheoryData<string> Names => [.. _odd.Keys];

    [Theory, MemberData(nameof(Names))]
    public void Every_fit_ends_in_finite_numbers_or_a_reason(string name)
    {
        var readings = _odd[name].Select((p, i) => new PlaneReading($"c{i / 3}", p)).ToList();
        var sample = PlaneSample.Of(readings);
        Sound(BivariateNormal.FitTo(_odd[name]), m => m.RadiusHolding(0.9));
        for (var form = NormalForm.Full; form <= (NormalForm.EqualVariance | NormalForm.NoBias); form++)
            Sound(BivariateNormal.FitTo(sample, form), f => f.LogLikelihood!.Value);
        Sound(BivariateT.FitTo(sample), f => f.LogLikelihood!.Value);
        Sound(BivariateT.FitTo(sample, 4), f => f.LogLikelihood!.Value);
        Sound(ScaleMixture.FitTo(sample), f => f.LogLikelihood!.Value);
        Sound(TwoLevelModel.FitTo(sample), f => f.Within.Value.Trace);
        Sound(TwoLevelAxisModel.FitTo([.. readings.Select(r => new AxisReading(r.Cluster, r.Place!.Value.Along))]), f => f.Mean);
        Sound(MeanDifferenceTest.Of(sample, sample), t => t.PValue);
        Sound(RadiusLimit.Of(sample, 0.5, 0.9), l => l.UpperLimit);
        Sound(RadiusLimit.OfRayleigh(sample, 0.5, 0.9), l => l.UpperLimit);

        void Sound<T>(Fit<T> fit, Func<T, double> number) where T : class
        {
            if (fit.Value is { } made) Assert.True(double.IsFinite(number(made)), $"{typeof(T).Name} {name}: {number(made)}");
            else Assert.False(string.IsNullOrWhiteSpace(fit.Reason));
        }
    }
}
