namespace JumpAnalytics.Statistics;

/// <summary>Searches for a variance, zero or more.</summary>
internal static class BetweenSearch
{
    private const int GridPoints = 240;

    /// <summary>Where a falling function passes a level; 0 where it begins at or below it.</summary>
    public static double Passing(Func<double, double> falling, double level, double scale)
    {
        if (!(falling(0) > level)) return 0;
        var high = scale;
        while (falling(high) > level && high < 1e300) high *= 2;
        return Roots.Middle(x => falling(x) > level, 0, high);
    }

    /// <summary>The highest top of a log-likelihood, which may have several; zero among them.</summary>
    /// <param name="slope">Its slope.</param>
    /// <param name="height">Its value.</param>
    /// <param name="scale">The size of a variance beyond which it can only fall.</param>
    public static double HighestTop(Func<double, double> slope, Func<double, double> height, double scale)
    {
        var (best, top) = (0.0, height(0));
        var (low, rising) = (0.0, slope(0) > 0);
        for (var i = 0; i <= GridPoints; i++)
        {
            var high = scale * Math.Pow(10, 10.0 * (i - GridPoints) / GridPoints);
            var goesOn = slope(high) > 0;
            if (rising && !goesOn)
            {
                var at = Roots.Middle(x => slope(x) > 0, low, high);
                if (height(at) is var there && there > top) (best, top) = (at, there);
            }
            (low, rising) = (high, goesOn);
        }
        return best;
    }
}
