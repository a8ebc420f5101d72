namespace JumpAnalytics;

/// <summary>The words of a fit check.</summary>
internal static class FitReading
{
    public static string Of(FitCheck check)
    {
        var size = $"{Count(check.Missions, "mission")} with {Count(check.Landings, "landing")}";
        if (check.Missions < FitCheck.FewestMissions)
            return $"Too few missions ({check.Missions}; {FitCheck.FewestMissions} are needed) to tell whether the fitted {check.ModelName} fits.";
        if (check.Distances.Value is not { } test)
            return $"Whether the fitted {check.ModelName} fits can't be tested on these {size}: {check.Distances.Reason}.";
        var shares = check is { Near: { } near, Far: { } far }
            ? $" {Percent(near.Observed)} of the landings lie within the radius that it gives to 50 %, and {Percent(far.Observed)} beyond the one that it gives to 95 %."
            : "";
        var p = test.PValue < 0.001 ? "p < 0.001" : $"p = {(test.PValue < 0.1 ? $"{test.PValue:0.000}" : $"{test.PValue:0.00}")}";
        if (test.PValue >= FitCheck.Level)
        {
            return $"Nothing in these {size} speaks against the fitted {check.ModelName} ({p}).{shares}"
                + (check.Missions < FitCheck.FewMissions ? $" In fewer than {FitCheck.FewMissions} missions a far tail is often missed." : "");
        }
        return $"The fitted {check.ModelName} {Direction(check)} in {size} ({p}).{shares}";
    }

    /// <summary>What the model has too many or too few of: the other way round than what was observed.</summary>
    private static string Direction(FitCheck check) => (check.Near?.Direction ?? 0, check.Far?.Direction ?? 0) switch
    {
        (> 0, > 0) => "has too few landings near the spot and too few far off",
        (> 0, < 0) => "has too few landings near the spot and too many far off",
        (< 0, > 0) => "has too many landings near the spot and too few far off",
        (< 0, < 0) => "has too many landings near the spot and too many far off",
        (> 0, 0) => "has too few landings near the spot",
        (< 0, 0) => "has too many landings near the spot",
        (0, > 0) => "has too few landings far off",
        (0, < 0) => "has too many landings far off",
        _ => "does not have the spread of the distances, though its shares near the spot and far off can't be told from those",
    };

    private static string Count(int n, string noun) => $"{n:#,0} {noun}{(n == 1 ? "" : "s")}";

    private static string Percent(double share) => $"{100 * share:0} %";
}
