namespace JumpAnalytics;

/// <summary>The wind by height that a drop's record tells: one drift wind, and often a wind near the ground.</summary>
public static class DropWind
{
    /// <summary>
    /// Metres: 20 ft, the height of fire weather's standard wind (National Weather Service, fire weather definitions). Bases
    /// measure at other heights too.
    /// </summary>
    public const double StandardHeight = 6.096;

    /// <summary>
    /// A profile whose mean from the ground to the exit is the drift wind. With a wind near the ground it follows the power law that meets
    /// both; without one, or where no exponent from 0 to 1 meets both, the law given. The account names each assumption.
    /// </summary>
    /// <remarks>
    /// The exponent a solves (h/z)^a / (1 + a) = drift wind / wind near the ground, the mean of a power law from the ground to the exit
    /// height h over its value at z.
    /// </remarks>
    /// <param name="drop">The drop.</param>
    /// <param name="shape">The law where the wind near the ground doesn't tell it.</param>
    /// <param name="surfaceHeight">
    /// Metres above ground at which the wind near the ground was taken; the log doesn't tell. 20 ft unless said otherwise.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A height of the wind near the ground that is not above zero.</exception>
    /// <exception cref="ArgumentException">A law that can't hold at the exit height.</exception>
    public static Fit<WindProfile> Of(Drop drop, WindFill shape, double surfaceHeight = StandardHeight)
    {
        Guard.Positive(surfaceHeight, hint: "metres above ground");
        if (drop.ExitHeight is not { } exit || !(exit > 0)) return Fit<WindProfile>.Refused(
            "the exit height was not recorded, so that it is not known what stretch the drift wind is the mean of");
        if ((drop.WindFrom ?? (-drop.ForecastDrift).Direction) is not { } from)
            return Fit<WindProfile>.Refused("neither the drift wind's direction was recorded nor does the forecast drift have one");
        var (law, meets) = ShapeOf(drop, exit, shape, surfaceHeight);
        var surface = $"the wind near the ground, {Rounding.Fixed(drop.SurfaceWindSpeed ?? 0, 1)} m/s";
        var why = meets switch
        {
            null => "no wind near the ground was recorded",
            true => $"it meets {surface}, taken to stand at {Rounding.Fixed(surfaceHeight, 1)} m and to blow the same way",
            false => $"no power law with an exponent from 0 to 1 meets {surface}, too, and it was left out",
        };
        return Fit<WindProfile>.Made(WindProfile.WithMean(WindVector.FromDirection(drop.WindSpeed, from), exit, law).Saying(
            $"Known: a drift wind of {Rounding.Fixed(drop.WindSpeed, 1)} m/s, taken for the mean from the ground to the "
            + $"exit at {Rounding.Fixed(exit, 0)} m"
            + (drop.WindFrom is null ? "; its direction was not recorded and is that of the forecast drift" : "")
            + $". Filled in: its change with height by {law.Words}, because {why}; no turn with height. "
            + "The record tells no error of the wind."));
    }

    /// <summary>
    /// The law by which the wind of a drop changes with height, and whether it meets the wind recorded near the ground: false where none
    /// does, null where none was recorded, and then it is the law given.
    /// </summary>
    internal static (WindFill Shape, bool? MeetsSurface) ShapeOf(
        Drop drop, double exit, WindFill shape, double surfaceHeight = StandardHeight) =>
        drop.SurfaceWindSpeed is not { } surface ? (shape, null)
        : Exponent(drop.WindSpeed, surface, exit, surfaceHeight) is { } exponent ? (new WindFill(WindLaw.Power, exponent), true)
        : (shape, false);

    /// <summary>The exponent from 0 to 1 with a mean from the ground to a height and a value at another; null when there is none.</summary>
    private static double? Exponent(double mean, double value, double height, double at)
    {
        if (!(mean > 0) || !(value > 0) || at >= height) return null;
        double Excess(double a) => a * Math.Log(height / at) - Math.Log(1 + a) - Math.Log(mean / value);
        // the excess falls to its least at a = 1/ln(h/z) − 1 and rises from there: the rising branch holds the exponent of
        // a wind that grows with height
        var least = Math.Clamp(1 / Math.Log(height / at) - 1, 0, 1);
        if (Excess(least) == 0) return least;
        return Excess(least) < 0 && Excess(1) >= 0 ? Roots.Of(Excess, least, 1, 1e-14) : null;
    }
}
