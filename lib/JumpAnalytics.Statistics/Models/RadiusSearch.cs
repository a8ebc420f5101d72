namespace JumpAnalytics.Statistics;

/// <summary>The radius that holds a probability, for models that have no closed form for it.</summary>
internal static class RadiusSearch
{
    /// <summary>Of the logarithm of the radius.</summary>
    private const double Accuracy = 1e-14;

    /// <summary>Finds the radius about a centre, in its logarithm: of the probability within below one half, beyond above it.</summary>
    /// <param name="model">The model.</param>
    /// <param name="probability">The probability to hold.</param>
    /// <param name="centre">The centre of the circles.</param>
    /// <param name="guess">A length of about the right order, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    public static double Holding(IPlaneModel model, double probability, PlaneVector centre, double guess)
    {
        Guard.Share(probability);
        var target = Math.Log(probability < 0.5 ? probability : 1 - probability);
        var (low, high) = (Math.Log(guess), Math.Log(guess));
        for (var step = 1.0; Excess(high) < 0; step *= 2) (low, high) = (high, high + step);
        for (var step = 1.0; Excess(low) > 0; step *= 2) (low, high) = (low - step, low);
        return Math.Exp(low == high ? low : Roots.Of(Excess, low, high, Accuracy) ?? low);

        // Rises with the radius; the least double stands for zero so that it stays finite.
        double Excess(double logRadius) => probability < 0.5
            ? Math.Log(Math.Max(model.ProbabilityWithin(Math.Exp(logRadius), centre), double.Epsilon)) - target
            : target - Math.Log(Math.Max(model.ProbabilityBeyond(Math.Exp(logRadius), centre), double.Epsilon));
    }
}
