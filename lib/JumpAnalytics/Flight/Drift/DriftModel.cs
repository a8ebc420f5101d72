namespace JumpAnalytics;

/// <summary>
/// The drift of a canopy that is not steered: it moves with the air, for as long as each layer takes. Drift = throw + ∫ wind(z) / rate(z)
/// dz, with the descent rate as one over the root of the density. A canopy takes up a change of wind at once: it does so within a second or
/// two, which is left out, as is usual.
/// </summary>
/// <remarks>
/// Integrals by Gauss and Legendre's rule in pieces, to rounding: constant wind, linear shear and power law agree
/// with their closed forms to 1e-9.
/// </remarks>
public static class DriftModel
{
    /// <summary>Metres of height of each layer that is told.</summary>
    public const double LayerDepth = 50;

    /// <summary>Computes a drift.</summary>
    /// <param name="wind">The wind by height.</param>
    /// <param name="canopy">How fast it comes down.</param>
    /// <param name="exitHeight">Metres above the landing ground, above zero.</param>
    /// <param name="groundElevation">Metres above sea level of the landing ground; 0 unless said otherwise.</param>
    /// <param name="exitThrow">The throw along the run; none when left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">The exit height is not above zero.</exception>
    public static DriftPath Drift(WindProfile wind, CanopyDescent canopy, double exitHeight,
        double groundElevation = 0, ExitThrow? exitThrow = null)
    {
        Guard.Positive(exitHeight, hint: "metres above the landing ground");
        double Slowness(double z) => 1 / canopy.RateAt(groundElevation + z);
        var (layers, path, seconds, drift) =
            (new List<DescentLayer>(), new List<TrackPoint> { new(0, default, exitHeight) }, 0.0, default(LocalVector));
        for (var top = exitHeight; top > 0;)
        {
            var bottom = Math.Max(0, LayerDepth * (Math.Ceiling(top / LayerDepth) - 1));
            var time = canopy.Seconds(bottom, top, groundElevation);
            var moved = wind.Integral(bottom, top, Slowness);
            layers.Add(new DescentLayer(bottom, top, time, 1 / time * moved));
            (seconds, drift, top) = (seconds + time, drift + moved.Over(1), bottom);
            path.Add(new TrackPoint(seconds, drift + (exitThrow?.After(seconds) ?? default), bottom));
        }
        layers.Reverse();
        // a rate that is larger by a share takes that share off the time, and so off the drift by the wind
        var spread = PlaneCovariance.OfMultiples(canopy.LogSd * drift.East, canopy.LogSd * drift.North);
        return new DriftPath
        {
            Drift = path[^1].Place, Seconds = seconds, Layers = layers, Path = path,
            Error = wind.IntegralError(0, exitHeight, Slowness) is { } error ? error + spread : null,
        };
    }
}
