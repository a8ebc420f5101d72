namespace JumpAnalytics;

/// <summary>What was assumed of streamers, in words.</summary>
internal static class StreamerWords
{
    /// <summary>The figures behind every wind by streamers, each labelled.</summary>
    public static string Figures(PassStreamers streamers, AccuracyOptions options) =>
        $"Streamers are taken to have fallen from the exit height at {Descent(streamers.Figures.DescentRate, options)} at sea level, "
        + $"as fast as a canopy (common practice, no source). {Errors(streamers.Sources, options)}";

    /// <summary>The errors of reading and of rates.</summary>
    public static string Errors(ForecastErrorSources sources, AccuracyOptions options) =>
        $"Their drift is read to {Rounding.Percent(sources.ReadingShare)} of its length, "
        + $"{Rounding.Fixed(double.RadiansToDegrees(sources.ReadingAngle), 0)}° "
        + $"and {DebriefWords.Distance(sources.ReadingFloor, options)}, "
        + $"and rates of fall differ by {Rounding.Percent(sources.DescentRate)}: assumptions, all of them standard deviations.";

    /// <summary>The throw, and where it comes from.</summary>
    public static string Throw(StreamerFigures figures) =>
        $"Throw: ground speed × {Rounding.Fixed(figures.ThrowSeconds, 2)} s along the run, which is half the airspeed in knots as metres "
        + "(from memory), with the ground speed in place of the airspeed.";

    /// <summary>What was assumed for one pass where its record says nothing.</summary>
    public static string OfPass(PassStreamers streamers)
    {
        var drop = streamers.Drop;
        var law = $"wind by {streamers.Shape.Words}";
        List<string> parts =
        [
            streamers.MeetsSurface switch
            {
                true => $"{law}, which meets the wind near the ground if that was taken at 20 ft",
                false => $"{law}, for no power law meets the wind near the ground",
                null => $"{law}, for no wind near the ground was recorded",
            },
        ];
        if (drop.SpotElevation is null) parts.Add("elevation not recorded: sea level");
        if (drop.StreamerAge is null) parts.Add($"age not recorded: {Rounding.Fixed(ForecastSetting.UsualAge / 60, 0)} min");
        if (streamers.Figures.ThrowOf(drop) is null) parts.Add("run or ground speed not recorded: no throw");
        return string.Join("; ", parts);
    }

    private static string Descent(double si, AccuracyOptions options) =>
        $"{Rounding.Fixed(options.Units.Descent.FromSi(si), 1)} {options.Units.Descent.Suffix}";

    public static string Speed(double si, AccuracyOptions options) =>
        $"{Rounding.Fixed(options.Units.Speed.FromSi(si), 1)} {options.Units.Speed.Suffix}";
}
