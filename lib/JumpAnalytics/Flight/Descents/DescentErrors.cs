namespace JumpAnalytics;

/// <summary>
/// How much larger the errors of a weakly told descent are than linearised ones. Where turns barely rise above the noise, a descent has
/// more than one path that nearly fits; so the fitted path is seen again through fresh noise of the size found, fitted again from scratch,
/// and the squared errors are set against what was said of them (a parametric bootstrap, Efron 1979). A path drawn too smoothly is seen
/// again too smoothly, so in simulations that still fell short where the evidence of turns was weak; the factors are raised by
/// <see cref="Shortfall"/> over the evidence, which mended it. They are 1 or more.
/// </summary>
internal readonly record struct DescentErrors(double Steering, double Wind, double Speed)
{
    private const int N = CanopyState.Size;

    private const int Replicates = 12;

    /// <summary>
    /// Evidence at which a variance is doubled: of steering and forward speed, and of the wind at a height, which falls short less.
    /// </summary>
    private const double Shortfall = 50, WindShortfall = 20;

    public static DescentErrors Of(DescentBlocks blocks, DescentFit fit, FlownDescentOptions options)
    {
        if (fit.Evidence >= DescentFit.Strong) return new DescentErrors(1, 1, 1);
        var random = SeedStream.For(options.Seed, "errors of a weakly told descent");
        var (steering, wind, speed, made, winds) = (0.0, 0.0, 0.0, 0, 0);
        var last = blocks.Seconds.Length - 1;
        for (var r = 0; r < Replicates; r++)
        {
            var again = blocks.Seen(random, fit);
            if (DescentFit.Of(again, fit.PlaceSd, options) is not { } other) continue;
            made++;
            steering += Squared(fit, other, last, CanopyState.SteeringEast, CanopyState.SteeringNorth);
            speed += Math.Pow(other.States[last * N + CanopyState.Speed] - fit.States[last * N + CanopyState.Speed], 2)
                / other.Covariances[last * N * N + (N + 1) * CanopyState.Speed];
            for (var i = 0; i <= last; i += Math.Max(1, last / 8), winds++)
                wind += Squared(fit, other, i, CanopyState.WindEast, CanopyState.WindNorth);
        }
        var raised = 1 + Shortfall / Math.Max(fit.Evidence, 1);
        return made == 0 ? new DescentErrors(4 * raised, 4 * raised, 4 * raised)
            : new DescentErrors(raised * Math.Max(1, steering / made / 2),
                (1 + WindShortfall / Math.Max(fit.Evidence, 1)) * Math.Max(1, wind / winds / 2), raised * Math.Max(1, speed / made));
    }

    /// <summary>Squared error of a pair of states in units of its stated covariance; 2 in the mean when that is right.</summary>
    private static double Squared(DescentFit truth, DescentFit found, int at, int a, int b)
    {
        var (x, y) = (found.States[at * N + a] - truth.States[at * N + a], found.States[at * N + b] - truth.States[at * N + b]);
        var (xx, yy, xy) = (found.Covariances[at * N * N + (N + 1) * a], found.Covariances[at * N * N + (N + 1) * b],
            found.Covariances[at * N * N + N * a + b]);
        return (yy * x * x - 2 * xy * x * y + xx * y * y) / Math.Max(xx * yy - xy * xy, 1e-12);
    }
}
