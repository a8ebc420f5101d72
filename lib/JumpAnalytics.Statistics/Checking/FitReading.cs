namespace JumpAnalytics.Statistics;

/// <summary>The words of a fit check.</summary>
internal static class FitReading
{
    public static string Of(FitCheck check)
    {
        var size = $"{Count(check.Clusters, "cluster")} with {Count(check.Points, "point")}";
        if (check.Clusters < FitCheck.FewestClusters)
            return $"Too few clusters ({check.Clusters}; {FitCheck.FewestClusters} are needed) to tell whether the fitted {check.ModelName} fits.";
        if (check.Distances.Value is not { } test)
            return $"Whether the fitted {check.ModelName} fits can't be tested on these {size}: {check.Distances.Reason}.";
        var shares = check is { Near: { } near, Far: { } far }
            ? $" {Percent(near.Observed)} of the points lie within the radius that it gives to 50 %, and {Percent(far.Observed)} beyond the one that it gives to 95 %."
            : "";
        var p = test.PValue < 0.001 ? "p < 0.001" : $"p = {(test.PValue < 0.1 ? $"{test.PValue:0.000}" : $"{test.PValue:0.00}")}";
        if (test.PValue >= FitCheck.Level)
        {
            return $"Nothing in these {size} speaks against the fitted {check.ModelName} ({p}).{shares}"
                + (check.Clusters < FitCheck.FewClusters ? $" In fewer than {FitCheck.FewClusters} clusters a far tail is often missed." : "");
        }
        return $"The fitted {check.ModelName} {Direction(check)} in {size} ({p}).{shares}";
    }

    /// <summary>What the model has too many or too few of: the other way round than what was observed.</summary>
    private static string Direction(FitCheck check) => (check.Near?.Direction ?? 0, check.Far?.Direction ?? 0) switch
    {
        (> 0, > 0) => "has too few points near the origin and too few far off",
        (> 0, < 0) => "has too few points near the origin and too many far off",
        (< 0, > 0) => "has too many points near the origin and too few far off",
        (< 0, < 0) => "has too many points near the origin and too many far off",
        (> 0, 0) => "has too few points near the origin",
        (< 0, 0) => "has too many points near the origin",
        (0, > 0) => "has too few points far off",
        (0, < 0) => "has too many points far off",
        _ => "does not have the spread of the distances, though its shares near the origin and far off can't be told from those",
    };

    private static string Count(int n, string noun) => $"{n:#,0} {noun}{(n == 1 ? "" : "s")}";

    private static string Percent(double share) => $"{100 * share:0} %";
}
