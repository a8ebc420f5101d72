namespace JumpAnalytics.Statistics;

/// <summary>The words of a fit check.</summary>
internal static class FitReading
{
    /// <summary>A p-value below this, though above <see cref="FitCheck.Level"/>, is weak evidence.</summary>
    private const double Weak = 0.1;

    public static string Of(FitCheck check)
    {
        var nouns = check.Nouns;
        var size = $"{nouns.CountedClusters(check.Clusters)} with {nouns.CountedPoints(check.Points)}";
        if (check.Clusters < FitCheck.FewestClusters)
            return $"Too few {nouns.Clusters} ({check.Clusters}; {FitCheck.FewestClusters} are needed) to tell whether the fitted "
                + $"{check.ModelName} fits.";
        if (check.Distances.Value is not { } test)
            return $"Whether the fitted {check.ModelName} fits can't be tested on these {size}: {check.Distances.Reason}.";
        var shares = check is { Near: { } near, Far: { } far }
            ? $" {Percent(near.Observed)} of the {nouns.Points} lie within the radius that it gives to 50 %, and {Percent(far.Observed)} "
                + "beyond the one that it gives to 95 %."
            : "";
        var p = test.PValue < 0.001 ? "p < 0.001" : $"p = {(test.PValue < 0.1 ? $"{test.PValue:0.000}" : $"{test.PValue:0.00}")}";
        if (test.PValue >= FitCheck.Level)
        {
            return (test.PValue < Weak ? $"There is weak evidence in these {size} against the fitted {check.ModelName} ({p})."
                : $"The test of distances in these {size} does not reject the fitted {check.ModelName} ({p}), "
                    + "which is no proof that it fits.")
                + shares
                + (check.Clusters < FitCheck.FewClusters ? $" In fewer than {FitCheck.FewClusters} {nouns.Clusters} a far tail is "
                    + "often missed." : "");
        }
        return $"The fitted {check.ModelName} {Direction(check)} in {size} ({p}).{shares}";
    }

    /// <summary>What the model has too many or too few of: the other way round than what was observed.</summary>
    private static string Direction(FitCheck check)
    {
        var (points, origin) = (check.Nouns.Points, check.Nouns.Origin);
        return (check.Near?.Direction ?? 0, check.Far?.Direction ?? 0) switch
        {
            (0, 0) => $"does not have the spread of the distances, though its shares near the {origin} and far off can't be told "
                + "from those",
            (0, var far) => $"has too {Few(far)} {points} far off",
            (var near, 0) => $"has too {Few(near)} {points} near the {origin}",
            var (near, far) => $"has too {Few(near)} {points} near the {origin} and too {Few(far)} far off",
        };
    }

    private static string Few(int direction) => direction > 0 ? "few" : "many";

    private static string Percent(double share) => $"{100 * share:0} %";
}
