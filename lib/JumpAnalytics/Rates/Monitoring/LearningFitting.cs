namespace JumpAnalytics;

/// <summary>Fits the shapes of a learning curve to logarithms of distances by the number of the mission.</summary>
internal sealed class LearningFitting(IReadOnlyList<(int Number, string Mission, double Log)> readings, double confidence)
{
    private const int Paces = 24;

    private readonly int _missions = readings.Select(r => r.Number).Distinct().Count();
    private readonly int _last = readings.Max(r => r.Number);

    private double Critical => QuantileOf.T(_missions - 2, TailShare.Middle(confidence));

    /// <summary>All shapes, or why one of them can't be fitted.</summary>
    public Fit<IReadOnlyList<LearningFit>> All()
    {
        var none = Model(null);
        var power = Model(i => Math.Log(i));
        if (!none.Success || !power.Success) return Fit<IReadOnlyList<LearningFit>>.Refused(none.Reason ?? power.Reason!);
        var plateau = Plateau();
        if (!plateau.Success) return Fit<IReadOnlyList<LearningFit>>.Refused(plateau.Reason);
        var reach = Math.Log(_last);
        return Fit<IReadOnlyList<LearningFit>>.Made(
        [
            new(LearningShape.NoChange, Estimate.WithoutRange(1, "no change by definition"), null, Aicc(none.Value.LogLikelihood, 3)),
            new(LearningShape.PowerLaw, Factor(power.Value.Slope!.Value * reach, Critical * power.Value.SlopeError!.Value * reach),
                power.Value.Slope, Aicc(power.Value.LogLikelihood, 4)),
            plateau.Value,
        ]);
    }

    private Fit<LearningFit> Plateau()
    {
        // Paces from one mission to as many as there are: beyond that a plateau looks like a straight line.
        var fits = new List<(double Pace, double Change, double Error, double LogLikelihood)>();
        for (var k = 0; k < Paces; k++)
        {
            var pace = Math.Exp(Math.Log(_last) * k / (Paces - 1));
            var fit = Model(i => 1 - Math.Exp(-(i - 1) / pace));
            if (!fit.Success) return Fit<LearningFit>.Refused(fit.Reason);
            var reach = 1 - Math.Exp(-(_last - 1) / pace);
            fits.Add((pace, fit.Value.Slope!.Value * reach, fit.Value.SlopeError!.Value * reach, fit.Value.LogLikelihood));
        }
        var best = fits.MaxBy(f => f.LogLikelihood);
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var f in fits)
        {
            // What the likelihood leaves for the change at this pace.
            var left = Critical * Critical - 2 * (best.LogLikelihood - f.LogLikelihood);
            if (left < 0) continue;
            (low, high) = (Math.Min(low, f.Change - f.Error * Math.Sqrt(left)), Math.Max(high, f.Change + f.Error * Math.Sqrt(left)));
        }
        return Fit<LearningFit>.Made(new(LearningShape.Plateau,
            Estimate.Of(Math.Exp(best.Change), new Interval(Math.Exp(low), Math.Exp(high))), best.Pace, Aicc(best.LogLikelihood, 5)));
    }

    private static Estimate Factor(double change, double half) =>
        Estimate.Of(Math.Exp(change), new Interval(Math.Exp(change - half), Math.Exp(change + half)));

    private double Aicc(double logLikelihood, int parameters) =>
        2 * parameters - 2 * logLikelihood + 2.0 * parameters * (parameters + 1) / (_missions - parameters - 1);

    private Fit<TwoLevelAxisModel> Model(Func<double, double>? along) =>
        TwoLevelAxisModel.FitTo([.. readings.Select(r => new AxisReading(r.Mission, r.Log, null, along?.Invoke(r.Number)))],
            LikelihoodKind.Full, confidence, TradeNouns.Value);
}
