namespace JumpAnalytics.Tests;

public sealed class CensoredFitsTests
{
    // 5 points with a place and 25 known only as beyond 100 m: the fit is one of form, which once came without a word.
    [Fact]
    public void A_fit_ruled_by_points_without_a_place_says_so()
    {
        PlaneVector[] placed = [new(10, 4), new(-20, 15), new(35, -8), new(5, 30), new(-12, -25)];
        PlaneSample With(int beyond) => PlaneSample.Of(placed.Select((p, i) => new PlaneReading($"m{i}", p))
            .Concat(Enumerable.Range(0, beyond).Select(i => new PlaneReading($"b{i}", null, 100))));
        const string Said = "25 of 30 points are known only as beyond a distance: what is fitted rests on the form of the distribution "
            + "more than on points";
        var fit = BivariateNormal.FitTo(With(25));
        if (fit.Success) Assert.Contains(Said, fit.Value.Warnings);
        Assert.Equal([Said], BivariateNormal.FitTo(With(25), NormalForm.EqualVariance | NormalForm.NoBias).Value!.Warnings);
        Assert.Empty(BivariateNormal.FitTo(With(5), NormalForm.EqualVariance | NormalForm.NoBias).Value!.Warnings);
    }

    [Fact]
    public void Points_all_without_a_place_are_named_for_what_they_are() =>
        Assert.Equal("0 points with a known place; this normal needs 3", BivariateNormal.FitTo(
            PlaneSample.Of(Enumerable.Range(0, 9).Select(i => new PlaneReading($"m{i}", null, 100)))).Reason);
}
