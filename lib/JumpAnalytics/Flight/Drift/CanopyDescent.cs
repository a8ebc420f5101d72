namespace JumpAnalytics;

/// <summary>How fast a canopy, or a streamer, comes down: the rate at one density, and by density elsewhere.</summary>
/// <remarks>
/// At a steady rate drag equals weight, W = ½ ρ v² S Cd, so that v = √(2W/(ρ S Cd)) and v ∝ 1/√ρ (equilibrium descent; Knacke 1991, NWC TP
/// 6575, from memory, formula only).
/// </remarks>
[TypeFormatterSource]
public sealed record CanopyDescent
{
    private readonly double _rate;

    /// <summary>Makes a descent.</summary>
    /// <param name="rate">Metres per second downward at <paramref name="altitude"/>, above zero.</param>
    /// <param name="altitude">Metres above sea level at which that rate holds, in the standard atmosphere; 0 unless said otherwise.</param>
    /// <param name="logSd">Standard deviation of the rate as a share of it: weights and canopies differ; 0 unless said otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">A rate that is not above zero, or a negative deviation.</exception>
    public CanopyDescent(double rate, double altitude = 0, double logSd = 0)
    {
        Guard.Positive(rate, hint: "metres per second");
        Guard.AtLeast(logSd, 0, hint: "as a share of the rate");
        (_rate, LogSd) = (rate * Math.Sqrt(StandardAtmosphere.DensityRatio(altitude)), logSd);
    }

    /// <summary>Standard deviation of the rate as a share of it.</summary>
    public double LogSd { get; }

    /// <summary>Metres per second downward at an altitude.</summary>
    /// <param name="altitude">Metres above sea level.</param>
    public double RateAt(double altitude) => _rate / Math.Sqrt(StandardAtmosphere.DensityRatio(altitude));

    /// <summary>Seconds between two heights.</summary>
    /// <param name="bottom">Metres above the landing ground.</param>
    /// <param name="top">Metres above the landing ground, not below <paramref name="bottom"/>.</param>
    /// <param name="groundElevation">Metres above sea level of the landing ground.</param>
    /// <exception cref="ArgumentOutOfRangeException">A height that is no number, or a top below the bottom.</exception>
    public double Seconds(double bottom, double top, double groundElevation)
    {
        Guard.Finite(bottom, hint: "metres above the landing ground");
        Guard.AtLeast(Guard.Finite(top, hint: "metres above the landing ground"), bottom, nameof(top), "the top is above the bottom");
        return Pieces.Over(bottom, top, z => 1 / RateAt(groundElevation + z));
    }
}
