namespace JumpAnalytics.Tests;

/// <summary>Landings are handed to the models of the statistics as they are.</summary>
public sealed class LandingFitsTests
{
    private static readonly IReadOnlyList<Landing> _landings = [.. Demo.DemoLog.Log.Landings.Where(l => l.Drop.TargetRadius > 0)];

    [Fact]
    public void Fits_to_landings_are_those_of_the_miss_distribution()
    {
        var misses = MissDistribution.Of(_landings, new AccuracyOptions());
        var sample = PlaneSample.Of(_landings);
        Assert.Equal((misses.Sample.Points, misses.Sample.Clusters), (sample.Points, sample.Clusters));
        Assert.Equal(_landings.Select(l => l.MissDownwind).OfType<PlaneVector>(), sample.Placed);
        Assert.Equal(_landings.Where(l => l.IsCensored).Select(l => l.Beyond!.Value), sample.Beyond);

        IModelFit<IPlaneModel>[] fits = [BivariateNormal.FitTo(_landings).Value!, BivariateT.FitTo(_landings).Value!,
            ScaleMixture.FitTo(_landings).Value!];
        foreach (var fit in fits)
        {
            var same = misses.Choice.Value!.Models.Single(m => m.Name == fit.Model.Name);
            Assert.Equal((same.LogLikelihood, same.Aicc), (fit.LogLikelihood, fit.Aicc));
        }
        Assert.Contains("bias downwind", fits[0].Parameters.Select(p => p.Name));
        Assert.Equal(misses.Levels.Value!.Forecast.Overall.Share, TwoLevelModel.FitTo(_landings).Value!.Forecast.Overall.Share);
        Assert.Equal("landings as they were", EmpiricalPoints.FitTo(_landings).Value!.Model.Name);
    }

    [Fact]
    public void A_landing_without_a_downwind_frame_is_left_out_and_counted()
    {
        var still = Made.Drop("still", "m9") with { ForecastDrift = default };
        var landings = Enumerable.Range(0, 20).Select(i => Made.Landing(Made.Drop($"d{i}", $"m{i}"), new LocalVector(i % 7 - 3, i % 5 - 2)))
            .Append(Made.Landing(still, new LocalVector(1, 2))).ToList();
        var sample = PlaneSample.Of(landings);
        Assert.Equal((20, 20, 1), (sample.Points, sample.Clusters, sample.LeftOut));
        var fit = BivariateNormal.FitTo(landings).Value!;
        Assert.Equal(20, fit.Points);
        Assert.Equal("1 landing with neither a place in the plane nor a distance left out", Assert.Single(fit.Warnings));
        Assert.Equal(fit.Warnings, EmpiricalPoints.FitTo(landings).Value!.Warnings);
    }

    [Fact]
    public void Reasons_speak_of_landings_and_missions()
    {
        var drop = Made.Drop("d1", "m1");
        Landing[] two = [Made.Landing(drop, new LocalVector(3, 4)), Made.Landing(drop, new LocalVector(1, 4))];
        Assert.Equal("2 landings with a known place; this normal needs 3", BivariateNormal.FitTo(two).Reason);
        Assert.Equal("a single mission: what its landings share can't be told from the bias", TwoLevelModel.FitTo(two).Reason);
        Assert.Equal("a single mission", RadiusLimit.Of(PlaneSample.Of(two), 0.9, 0.9).Reason);
        Assert.Equal("2 points with a known place; this normal needs 3",
            BivariateNormal.FitTo(PlaneSample.Of([new(3, 4), new(1, 4)])).Reason);
    }

    [Fact]
    public void A_reading_that_is_no_number_is_refused()
    {
        PlaneReading[] bad = [new("a", new PlaneVector(double.NaN, 0)), new("a", null, -1),
            new("a", new PlaneVector(1, 2), null, -1), new("a", null, double.NaN)];
        foreach (var reading in bad) Assert.Contains("point of cluster 'a'",
            Assert.Throws<ArgumentException>(() => PlaneSample.Of([reading])).Message);
        Assert.Equal(1, PlaneSample.Of([new PlaneReading("a", null)]).LeftOut);
    }
}
