namespace JumpAnalytics;

/// <summary>The likelihood of a distribution of distances, and where there is none to be had.</summary>
internal static class RadialLikelihood
{
    public static Likelihood<TModel> Of<TModel>(DistanceSample sample, Func<double[], TModel?> build) where TModel : class, IRadialModel =>
        new(sample.Landings, sample.Missions, build, (model, byMission) => Sum(sample, model, byMission));

    /// <summary>A model of two positive parameters, or null where they are out of a double's range.</summary>
    public static TModel? InRange<TModel>(double first, double second, Func<double, double, TModel> model) where TModel : class =>
        first > 0 && second > 0 && double.IsFinite(first) && double.IsFinite(second) ? model(first, second) : null;

    /// <summary>Whether a log-likelihood is greater than another by more than rounding.</summary>
    public static bool Exceeds(double one, double other) => one - other > 1e-7 + 1e-12 * Math.Abs(other);

    /// <summary>Why no distribution of distances can be fitted; null when one can.</summary>
    public static string? WhyNot(DistanceSample sample)
    {
        var (zeros, bounded, apart) = (0, false, false);
        foreach (var (reading, count) in sample.Kinds)
        {
            if (reading.High == 0) zeros += count;
            bounded |= double.IsFinite(reading.High);
            apart |= reading.Low > 0;
        }
        return sample.Landings == 0 ? "no distances"
            : zeros > 0 ? $"{zeros} landing{(zeros == 1 ? "" : "s")} at exactly 0 m, where a distribution of distances has no likelihood; give the sample the resolution of the record, so that 0 stands for anything up to half of it"
            : !bounded ? "every landing is known only as beyond a distance; nothing tells how far they lie"
            : !apart ? "every landing is known only as within a distance; nothing tells how near they lie"
            : null;
    }

    /// <summary>Why no distribution with a spread of its own can be fitted; null when one can.</summary>
    /// <param name="sample">Distances and missions.</param>
    /// <param name="unlimited">Whether the distribution can spread without limit, to the spot and to infinity at once.</param>
    public static string? WhyNoSpread(DistanceSample sample, bool unlimited)
    {
        if (WhyNot(sample) is { } reason) return reason;
        var (greatestLow, leastHigh, twoSided) = (0.0, double.PositiveInfinity, false);
        foreach (var (reading, _) in sample.Kinds)
        {
            greatestLow = Math.Max(greatestLow, reading.Low);
            leastHigh = Math.Min(leastHigh, reading.High);
            twoSided |= reading.Low > 0 && double.IsFinite(reading.High);
        }
        return greatestLow <= leastHigh * (1 + 1e-9) ? $"{(sample.Landings == 1 ? "the one reading agrees" : "all readings agree")} with one and the same distance; how distances spread can't be told"
            : unlimited && !twoSided ? "every landing is known only as within or as beyond a distance; how distances spread can't be told"
            : null;
    }

    /// <summary>Sums in blocks, so that a million terms lose no more digits than a thousand.</summary>
    private static double Sum<TModel>(DistanceSample sample, TModel model, double[]? byMission) where TModel : IRadialModel
    {
        const int Block = 1024;
        var (sum, block) = (0.0, 0.0);
        var kinds = sample.Kinds;
        var parts = byMission is null ? null : new double[kinds.Length];
        for (var i = 0; i < kinds.Length; i++)
        {
            var (reading, count) = kinds[i];
            var part = reading.IsExact ? model.LogDensity(reading.Low) : model.LogBetween(reading.Low, reading.High);
            if (parts is not null) parts[i] = part;
            block += count * part;
            if (i % Block == 0) (sum, block) = (sum + block, 0);
        }
        for (var i = 0; parts is not null && i < sample.Landings; i++) byMission![sample.MissionOf[i]] += parts[sample.KindOf[i]];
        return sum + block;
    }
}

/// <summary>Where searches for the parameters start: moments of the readings, each taken at one distance that it allows.</summary>
/// <param name="Least">The least of the distances, metres.</param>
/// <param name="Bounded">Landings that are not beyond something.</param>
/// <param name="SumOfSquares">Of the distances, beyond counted at its distance.</param>
/// <param name="Mean">Mean distance, metres.</param>
/// <param name="Median">Geometric mean of the distances, metres.</param>
/// <param name="LogSpread">Standard deviation of their logarithms.</param>
/// <param name="Peakedness">Mean fourth power over the squared mean square: 2 for Rayleigh's, less about an offset, more along a line.</param>
internal sealed record RadialStart(double Least, double Bounded, double SumOfSquares, double Mean, double Median, double LogSpread, double Peakedness)
{
    public static RadialStart Of(DistanceSample sample)
    {
        var (least, n, bounded, sum, squares, fourths, logs, logSquares) = (double.PositiveInfinity, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        foreach (var (reading, count) in sample.Kinds)
        {
            if (At(reading) is not { } at) continue;
            least = Math.Min(least, at);
            n += count;
            if (double.IsFinite(reading.High)) bounded += count;
            sum += count * at;
            squares += count * at * at;
            fourths += count * at * at * at * at;
            logs += count * Math.Log(at);
        }
        var centre = logs / n;
        foreach (var (reading, count) in sample.Kinds) logSquares += At(reading) is { } at ? count * Math.Pow(Math.Log(at) - centre, 2) : 0;
        return new RadialStart(least, bounded, squares, sum / n, Math.Exp(centre), Math.Sqrt(logSquares / n), fourths * n / (squares * squares));
    }

    private static double? At(DistanceReading reading) => double.IsFinite(reading.High) ? (reading.Low + reading.High) / 2 : reading.Low > 0 ? reading.Low : null;
}
