namespace JumpAnalytics.Statistics;

/// <summary>
/// A family of elliptical distributions, fitted by likelihood, points known only as beyond a distance included. The fit is the highest
/// summit, among those accepted, that a search from some starts reaches.
/// </summary>
internal sealed class EllipticalFit<TTail, TModel> where TTail : struct, IEllipticalTail where TModel : class, IPlaneModel
{
    /// <summary>Starts are tried on no more points than this, evenly spaced in the order given.</summary>
    private const int MostTried = 10_000;

    /// <summary>What is fitted, for a reason.</summary>
    public required string What { get; init; }

    /// <summary>Fewest placed points.</summary>
    public required int Fewest { get; init; }

    /// <summary>Coordinates of the tail to start from.</summary>
    public required IReadOnlyList<double[]> Starts { get; init; }

    /// <summary>The tail at its coordinates; null outside the parameter space.</summary>
    public required Func<double[], TTail?> Tail { get; init; }

    /// <summary>The model of centre, scatter and tail.</summary>
    public required Func<BivariateNormal, TTail, TModel> Build { get; init; }

    /// <summary>What a reader wants to see.</summary>
    public required IReadOnlyList<ParameterOf<TModel>> Parameters { get; init; }

    /// <summary>Coordinates of the tail that stand for a limit of the family, taken where they are no worse; null for none.</summary>
    public double[]? Edge { get; init; }

    /// <summary>Why no summit was reached.</summary>
    public string Unsettled { get; init; } = "the likelihood has no maximum that the search could settle on";

    /// <summary>Why a summit can't be accepted, given the model there and its log-likelihood over some points; null when it can.</summary>
    public Func<TModel, double, PlaneSample, string?> Refusal { get; init; } = (_, _, _) => null;

    /// <summary>Warnings about the fitted model.</summary>
    public Func<TModel, IReadOnlyList<string>> Warnings { get; init; } = _ => [];

    /// <summary>The fit to some points, or why there is none.</summary>
    public Fit<ModelFit<TModel>> To(PlaneSample sample)
    {
        if (sample.Placed.Count < Fewest) return Refused($"{BivariateNormal.Placed(sample.Placed.Count, sample.Nouns)}; {What} needs "
            + $"{Fewest}");
        var start = EllipticalCore.Robust(sample.Places, sample.Nouns);
        if (!start.Success) return Refused(start.Reason);

        var tried = Thinned(sample);
        var (likelihood, reason) = (Over(tried, start.Value), Unsettled);
        Summit? top = null;
        foreach (var tail in Starts)
        {
            var summit = Climb.To(likelihood.At, [0, 0, 0, 0, 0, .. tail], likelihood.Slopes);
            if (!summit.Converged) continue;
            if (Refusal(likelihood.Build(summit.At)!, summit.Value, tried) is { } refusal) reason = refusal;
            else if (top is null || summit.Value > top.Value) top = summit;
        }
        if (top is null) return Refused(reason);
        if (tried != sample)
        {
            likelihood = Over(sample, start.Value);
            top = Climb.To(likelihood.At, top.At, likelihood.Slopes);
            if (!top.Converged) return Refused(Unsettled);
        }
        top = AtEdge(likelihood, top) ?? top;
        var model = likelihood.Build(top.At)!;
        return Refusal(model, top.Value, sample) is { } last
            ? Refused(last) : Fit<ModelFit<TModel>>.Made(new ModelFit<TModel>(likelihood, top.At, Parameters, Warnings(model)));
    }

    private static Fit<ModelFit<TModel>> Refused(string reason) => Fit<ModelFit<TModel>>.Refused(reason);

    /// <summary>The summit on the edge, if one that was found inside is no better.</summary>
    private Summit? AtEdge(Likelihood<TModel> likelihood, Summit top)
    {
        if (Edge is null) return null;
        double[] start = [.. top.At[..EllipticalSample.Axes], .. Edge];
        if (!(likelihood.At(start) >= top.Value - 1e-8 * Math.Max(1, Math.Abs(top.Value) * 1e-6))) return null;
        var edge = Climb.To(likelihood.At, start, likelihood.Slopes);
        return edge.Converged ? edge : null;
    }

    private Likelihood<TModel> Over(PlaneSample sample, BivariateNormal core)
    {
        var seen = new EllipticalSample(sample.Places, core);
        return PlaneLikelihood.Of(
            sample,
            x => Tail(x[EllipticalSample.Axes..]) is { } tail && seen.Core(x) is { } at ? Build(at, tail) : null,
            x => seen.Slopes(x, Tail(x[EllipticalSample.Axes..])!.Value));
    }

    private static PlaneSample Thinned(PlaneSample sample)
    {
        if (sample.Placed.Count <= MostTried) return sample;
        var every = (sample.Placed.Count + MostTried - 1) / MostTried;
        return PlaneSample.Of(
            sample.Placed.Where((_, i) => i % every == 0).Select((m, i) => new PlaneReading($"placed {i}", m))
                .Concat(sample.Beyond.Where((_, i) => i % every == 0).Select((b, i) => new PlaneReading($"beyond {i}", null, b))),
            sample.Nouns);
    }
}
