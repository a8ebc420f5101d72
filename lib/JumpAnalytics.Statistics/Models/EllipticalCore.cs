namespace JumpAnalytics.Statistics;

/// <summary>Centre and scatter of an elliptical distribution, written as a normal.</summary>
internal static class EllipticalCore
{
    private const int MostReweightings = 100;

    /// <summary>A logarithm of the determinant that changes by less has settled: it is but a start.</summary>
    private const double Settled = 1e-4;

    /// <summary>A logarithm of the determinant that falls by more is on its way to no area at all.</summary>
    private const double Collapse = 60;

    /// <summary>
    /// Centre and scatter of the t with three degrees of freedom that fits points best, roughly: from their mean and covariance by
    /// reweighting (Kent, Tyler and Vardi 1994, Communications in Statistics, Simulation 23:441-453).
    /// </summary>
    /// <returns>The core, or the reason why there is none.</returns>
    public static Fit<BivariateNormal> Robust(ReadOnlySpan<PlaneVector> points, SampleNouns nouns)
    {
        const double Freedom = 3;
        var moments = new MomentSums();
        foreach (var m in points) moments.Add(m);
        var core = moments.Fit(nouns);
        if (!core.Success) return core;
        var (at, first) = (core.Value, Math.Log(core.Value.Determinant()));
        var before = first;
        for (var step = 0; step < MostReweightings; step++)
        {
            var (w, s1, s2, s11, s22, s12) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
            foreach (var m in points)
            {
                var weight = 1 / (Freedom + at.SquaredDistance(m));
                var (d, r) = (m.Along - at.MeanAlong, m.Across - at.MeanAcross);
                (w, s1, s2) = (w + weight, s1 + weight * d, s2 + weight * r);
                (s11, s22, s12) = (s11 + weight * d * d, s22 + weight * r * r, s12 + weight * d * r);
            }
            (s1, s2) = (s1 / w, s2 / w);
            var (v1, v2, c) = (s11 / w - s1 * s1, s22 / w - s2 * s2, s12 / w - s1 * s2);
            var determinant = Determinant(v1, v2, c);
            if (!(determinant > 1e-12 * v1 * v2 && v1 > 0) || Math.Log(determinant) < first - Collapse)
                return Fit<BivariateNormal>.Refused($"most {nouns.Places} lie at one point or on one line");
            at = new BivariateNormal(at.MeanAlong + s1, at.MeanAcross + s2, v1, v2, c);
            if (Math.Abs(Math.Log(determinant) - before) < Settled) break;
            before = Math.Log(determinant);
        }
        return Fit<BivariateNormal>.Made(at);
    }

    /// <summary>Determinant of the scatter, with the rounding error of its parts put right.</summary>
    public static double Determinant(this BivariateNormal core) => Determinant(core.VarianceAlong, core.VarianceAcross, core.Covariance);

    private static double Determinant(double v1, double v2, double c)
    {
        var square = c * c;
        return Math.FusedMultiplyAdd(v1, v2, -square) - Math.FusedMultiplyAdd(c, c, -square);
    }

    /// <summary>The core itself, if its scatter has an area.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The scatter is not positive definite.</exception>
    public static BivariateNormal RequireArea(this BivariateNormal core, string name) =>
        core.HasArea && core.Determinant() is > 0 and < double.PositiveInfinity
            ? core
            : throw Guard.Refused(name, core, "a centre and a scatter of finite numbers, the scatter positive definite");

    /// <summary>The place itself, if it is one.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not a finite number.</exception>
    public static PlaneVector RequireFinite(this PlaneVector place, string name) =>
        double.IsFinite(place.Along) && double.IsFinite(place.Across)
            ? place : throw Guard.Refused(name, place, "a place of finite coordinates");

    /// <summary>The same scatter seen from a place.</summary>
    public static BivariateNormal From(this BivariateNormal core, PlaneVector place) =>
        new(core.MeanAlong - place.Along, core.MeanAcross - place.Across, core.VarianceAlong, core.VarianceAcross, core.Covariance);

    /// <summary>The same place with the scatter times a factor.</summary>
    public static BivariateNormal Widened(this BivariateNormal core, double squared) => new(
        core.MeanAlong, core.MeanAcross, squared * core.VarianceAlong, squared * core.VarianceAcross, squared * core.Covariance);

    /// <summary>A length of the order of the distances from a place.</summary>
    public static double Reach(this BivariateNormal core, PlaneVector place) =>
        double.Hypot(core.MeanAlong - place.Along, core.MeanAcross - place.Across) + Math.Sqrt(core.VarianceAlong + core.VarianceAcross);
}
