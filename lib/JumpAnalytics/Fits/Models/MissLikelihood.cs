namespace JumpAnalytics;

/// <summary>The likelihood of a model of misses in the plane: densities of placed landings, probabilities beyond for the others.</summary>
internal static class MissLikelihood
{
    public static Likelihood<TModel> Of<TModel>(MissSample sample, Func<double[], TModel?> build) where TModel : class, IMissModel =>
        new(sample.Landings, sample.Missions, build, (model, byMission) => Sum(sample, model, byMission));

    private static double Sum<TModel>(MissSample sample, TModel model, double[]? byMission) where TModel : IMissModel
    {
        var sum = 0.0;
        var misses = sample.Misses;
        var missions = sample.MissionOfPlaced;
        for (var i = 0; i < misses.Length; i++)
        {
            var l = model.LogDensity(misses[i])!.Value;
            sum += l;
            if (byMission is not null) byMission[missions[i]] += l;
        }
        for (var i = 0; i < sample.Beyond.Count; i++)
        {
            var l = Math.Log(model.ProbabilityBeyond(sample.Beyond[i]));
            sum += l;
            if (byMission is not null) byMission[sample.MissionOfBeyond[i]] += l;
        }
        return sum;
    }
}
