namespace JumpAnalytics;

/// <summary>The review on one screen.</summary>
internal static class ReviewBrief
{
    public static Brief Of(SpotterReview review)
    {
        var points = new List<string>();
        if (review.Log.Notice is { } notice) points.Add(notice);
        points.Add(review.Comparison.Sentence);
        points.Add(review.Charts.Reading);
        points.Add(review.Learning.Reading);
        points.Add(review.Influence.Reading);
        var thin = review.Patterns.Spotters.Where(s => s.Missions < review.Settings.FewestMissions).ToList();
        if (thin.Count > 0)
        {
            points.Add($"Of {Rounding.Count(thin.Count, "spotter")} nothing "
                + $"can be said yet ({string.Join(", ", thin.Select(s => $"{s.Spotter}: {Rounding.Count(s.Missions, "mission")}"))}); "
                + $"a pattern is given from {review.Settings.FewestMissions} missions on.");
        }
        points.Add($"A spotter is named above only where Holm's rule over all {Rounding.Count(review.Patterns.Looks.Count, "look")} of "
            + $"this review leaves the chance of even one false finding at {Rounding.Percent(1 - review.Options.Confidence)} or less.");
        points.Add("A pattern belongs to missions as they were recorded: forecast, exit, canopy, steering, ground and luck. "
            + "It asks where to look next, and rates no person.");
        return new Brief(review.Patterns.Reading, points);
    }
}
