namespace JumpAnalytics.Statistics;

public sealed partial class ModelFit<TModel>
{
    private const int MostTrials = 60;

    /// <summary>
    /// How many times stiffer the spring is than the likelihood in the direction of the figure: its profile may
    /// bend upwards as sharply as this.
    /// </summary>
    private const double Stiffness = 4;

    /// <inheritdoc/>
    public Estimate Profile(Func<TModel, double> figure, double confidence)
    {
        var value = figure(Model);
        var quantile = Quantile(confidence);
        var (model, robust, why) = _covariance.Value;
        if (why is not null || model is null) return Estimate.WithoutRange(value, why!);
        if (Slope(figure) is not { } slope || Variance(slope, model) is not (> 0 and var spread))
            return Estimate.WithoutRange(value, "the figure does not change smoothly with the model");
        var widening = robust is null ? 1 : Variance(slope, robust) / spread;
        var fall = quantile * quantile * widening / 2;
        var (low, high) = (Limit(figure, -1, fall, Math.Sqrt(spread)), Limit(figure, 1, fall, Math.Sqrt(spread)));
        return low is { } l && high is { } h
            ? Estimate.Of(value, new Interval(l, h))
            : Estimate.WithoutRange(value, $"the likelihood does not fall far enough {(low is null ? "below" : "above")} the estimate");
    }

    /// <summary>
    /// Where the profile has fallen far enough on one side. The best likelihood for each value of the figure is traced by maximising the
    /// likelihood with the figure on a spring; where the spring must be held to meet that fall is found by the secant through the root
    /// of the
    /// fall, which is a straight line where the likelihood is a parabola. A constant pull would lose its hold where the profile
    /// flattens out.
    /// </summary>
    private double? Limit(Func<TModel, double> figure, int side, double fall, double spread)
    {
        var (top, at, value) = (LogLikelihood!.Value, _at, figure(Model));
        var wanted = Math.Sqrt(fall);
        var (belowHold, belowRoot) = (0.0, 0.0);
        (double Hold, double Root)? above = null;
        var hold = side * Math.Sqrt(2 * fall) * spread * (1 + 1 / Stiffness);
        for (var trial = 0; trial < MostTrials; trial++)
        {
            var summit = Climb.To(x => _likelihood!.Build(x) is { } m && _likelihood.Sum(m, null) is var l && !double.IsNaN(l)
                ? l - Pulled(figure(m)) : double.NegativeInfinity, at);
            if (!summit.Converged || !double.IsFinite(summit.Value))
            {
                above = (hold, double.PositiveInfinity); // pulled off the top for good
            }
            else
            {
                var root = Math.Sqrt(Math.Max(0, top - _likelihood!.At(summit.At)));
                if (Math.Abs(root - wanted) <= 1e-6 * wanted) return figure(_likelihood.Build(summit.At)!);
                if (root < wanted) (belowHold, belowRoot, at) = (hold, root, summit.At);
                else above = (hold, root);
            }
            if (above is not { } far) hold = belowRoot > 0 ? belowHold * Math.Min(2, 1.2 * wanted / belowRoot) : 2 * hold;
            else if (double.IsInfinity(far.Root)) hold = (belowHold + far.Hold) / 2;
            else hold = belowHold + (far.Hold - belowHold) * Math.Clamp((wanted - belowRoot) / (far.Root - belowRoot), 0.05, 0.95);
        }
        return null;

        double Pulled(double now) => Stiffness / 2 * Math.Pow((now - value - hold) / spread, 2);
    }
}
