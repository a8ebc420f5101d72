using MathNet.Numerics.LinearAlgebra;

namespace JumpAnalytics.Statistics;

/// <summary>From points to a fitted two-level model, or to the reason why there is none.</summary>
internal static class LevelFitting
{
    // A dense system of this many raters takes minutes.
    private const int MostRaters = 300;

    // Of the points' own size: less scatter than this is rounding. And of squares: less than this across a line is none.
    private const double RoundOff = 1e-12;
    private const double Thin = 1e-12;

    // Of the information, each number scaled to one: below this a direction of the likelihood is flat.
    private const double Flat = 1e-6;

    public static Fit<LevelSolution> Fit(LevelData data, LikelihoodKind kind)
    {
        if (WhyNot(data) is { } reason) return Fit<LevelSolution>.Refused(reason);
        var sums = LevelSums.Of(data);
        var (squares, degrees) = WithinAll(sums);
        if (WhyNot(data, squares, degrees) is { } thin) return Fit<LevelSolution>.Refused(thin);

        var restricted = kind == LikelihoodKind.Restricted;
        var unscale = (squares / degrees).Cholesky().Factor;
        var scaled = sums.Turned(unscale.Inverse());
        var search = new LevelSearch(new LevelLikelihood(scaled, restricted), scaled, data.Rater is not null);
        if (search.Maximise() is not { } maximum)
            return Fit<LevelSolution>.Refused("the search for the most likely parts of the variance did not come to rest");
        if (EntryErrors(search, maximum) is not { } entries)
            return Fit<LevelSolution>.Refused($"the {data.Nouns.Points} can't tell the parts of the variance apart: the "
                + "likelihood is flat");
        return Fit<LevelSolution>.Made(new LevelSolution(data, sums, restricted, unscale, maximum, entries));
    }

    private static string? WhyNot(LevelData data) => data switch
    {
        { Points: 0 } => $"no {data.Nouns.Point} with a known place",
        { Clusters: 1 } => $"a single {data.Nouns.Cluster}: what its {data.Nouns.Points} share can't be told from the bias",
        _ when data.Points == data.Clusters => $"each of the {data.Clusters} {data.Nouns.Clusters} has a single {data.Nouns.Point}: "
            + $"what a {data.Nouns.Cluster} shares can't be told from what is a {data.Nouns.Own}'s own",
        { Along: { } along } when along.Max() - along.Min() <= RoundOff * along.Max(Math.Abs) => "what the mean runs along is the same "
            + $"for all {data.Nouns.Points}",
        { Rater: not null } => WhyNoRaters(data),
        _ => null,
    };

    private static string? WhyNoRaters(LevelData data)
    {
        var (rater, nouns) = (data.Nouns.Rater, data.Nouns);
        if (data.Raters < 2) return $"a single {rater}: what one {rater}'s {nouns.Clusters} share can't be told from the bias";
        if (data.Raters > MostRaters) return $"{data.Raters} {nouns.Raters}; at most {MostRaters} can be told apart";
        if (data.Raters == data.Points)
            return $"each {rater} has a single {nouns.Point}: a {rater}'s part can't be told from what is a {nouns.Own}'s own";
        var clustersOf = new HashSet<(int, int)>();
        for (var m = 0; m < data.Start.Length - 1; m++)
        {
            foreach (var i in data.PointsOf(m)) clustersOf.Add((m, data.Rater![i]));
        }
        return data.Raters == data.Clusters && clustersOf.Count == data.Clusters
            ? $"each {rater} has a single {nouns.Cluster}: a {rater}'s part can't be told from the {nouns.Cluster}'s" : null;
    }

    // Squares within clusters that neither raters nor slope can explain, and their degrees of freedom.
    private static (Matrix<double> Squares, int Degrees) WithinAll(LevelSums sums)
    {
        var parts = sums.Within.Design.Evd(Symmetricity.Symmetric);
        var largest = parts.EigenValues.Max(v => v.Real);
        var squares = sums.Within.Axes.Clone();
        var degrees = sums.Points - sums.Clusters;
        for (var k = 0; k < sums.Coefficients && largest > 0; k++)
        {
            if (parts.EigenValues[k].Real <= 1e-10 * largest) continue;
            var along = sums.Within.DesignAxes.TransposeThisAndMultiply(parts.EigenVectors.Column(k));
            squares -= along.OuterProduct(along) / parts.EigenValues[k].Real;
            degrees--;
        }
        return (squares, degrees);
    }

    private static string? WhyNot(LevelData data, Matrix<double> squares, int degrees)
    {
        var nouns = data.Nouns;
        if (degrees < data.Axes.Length)
        {
            return $"{data.Points} {nouns.Points} in {data.Clusters} {nouns.Clusters} leave {degrees} "
                + $"comparison{(degrees == 1 ? "" : "s")} "
                + $"within a {nouns.Cluster}; {data.Axes.Length} are needed";
        }
        var size = data.Axes.Max(a => a.Max(Math.Abs));
        if (!double.IsFinite(squares.Trace() * squares.Trace()) || !double.IsFinite(size * size))
            return $"{nouns.Points} lie so far apart that their variance is beyond a number's range";
        if (!(squares.Trace() > degrees * Math.Pow(RoundOff * size, 2)))
            return $"{nouns.Points} of one {nouns.Cluster} do not differ: a {nouns.Own}'s own part can't be told";
        return data.Axes.Length == 2 && !(squares.Determinant() > Thin * squares.Trace() * squares.Trace())
            ? $"{nouns.Points} of one {nouns.Cluster} differ along one line only: a normal in the plane can't be fitted" : null;
    }

    // From the observed information; null where it is flat.
    private static Matrix<double>? EntryErrors(LevelSearch search, LevelMaximum maximum)
    {
        var information = maximum.End.Hessian / 2;
        var scale = information.Diagonal().Map(d => d > 0 ? 1 / Math.Sqrt(d) : 0);
        var unit = Matrix<double>.Build.DiagonalOfDiagonalVector(scale);
        var even = unit * information * unit;
        if (!(even.Evd(Symmetricity.Symmetric).EigenValues.Min(v => v.Real) > Flat)) return null;
        var jacobian = search.Jacobian(maximum) * unit;
        return jacobian * even.Inverse() * jacobian.Transpose();
    }
}
