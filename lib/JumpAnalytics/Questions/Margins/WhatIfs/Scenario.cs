using System.Globalization;

namespace JumpAnalytics;

/// <summary>
/// What could have been done otherwise on the passes of a log. Every setting is the user's; none is a limit that the library proposes. A
/// setting that is null leaves things as they were flown.
/// </summary>
[TypeFormatterSource]
public sealed record Scenario
{
    private readonly double? _targetRadius, _windLimit, _streamerLimit, _freshStreamers;
    private readonly int? _largestStick;

    /// <summary>Metres; the target radius of every spot.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double? TargetRadius { get => _targetRadius; init => _targetRadius = Positive(value, nameof(TargetRadius), "metres"); }

    /// <summary>Metres per second; passes in a stronger drift wind are not flown.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double? WindLimit { get => _windLimit; init => _windLimit = Positive(value, nameof(WindLimit), "metres per second"); }

    /// <summary>Seconds; passes whose streamers are older at exit are not flown.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double? StreamerLimit { get => _streamerLimit; init => _streamerLimit = Positive(value, nameof(StreamerLimit), "seconds"); }

    /// <summary>
    /// Seconds; where streamers are older at exit, a new set is thrown that is this old at exit. What the landings
    /// would have been is modelled.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public double? FreshStreamers { get => _freshStreamers; init => _freshStreamers = Positive(value, nameof(FreshStreamers), "seconds"); }

    /// <summary>
    /// Jumpers of a pass at the most; a larger stick goes on several passes. What the landings would have been is modelled.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Below one.</exception>
    public int? LargestStick
    {
        get => _largestStick;
        init => _largestStick = value is { } stick ? Guard.AtLeast(stick, 1, nameof(LargestStick), "jumpers, or null") : null;
    }

    /// <summary>Whether it asks for landings that nobody made, so that they must be modelled.</summary>
    public bool IsModelled => FreshStreamers is not null || LargestStick is not null;

    /// <summary>Whether it asks for the age of the streamers, which not every pass has on record.</summary>
    internal bool NeedsAge => StreamerLimit is not null || FreshStreamers is not null;

    /// <summary>The scenario in words: <c>every target radius 50 yd; no pass above 10 mph</c>.</summary>
    /// <param name="units">Units of the text.</param>
    public string Describe(ReportUnits units)
    {
        var parts = new List<string>();
        if (TargetRadius is { } radius)
            parts.Add($"every target radius {Rounding.Short(units.Distance.FromSi(radius))} {units.Distance.Suffix}");
        if (WindLimit is { } wind) parts.Add($"no pass above {Rounding.Short(units.Speed.FromSi(wind))} {units.Speed.Suffix}");
        if (StreamerLimit is { } age) parts.Add($"no pass on streamers older than {Rounding.Short(age / 60)} min");
        if (FreshStreamers is { } fresh) parts.Add($"new streamers where they would be older than {Rounding.Short(fresh / 60)} min");
        if (LargestStick is { } stick) parts.Add($"sticks of {stick} at the most");
        return parts.Count == 0 ? "as flown" : string.Join("; ", parts);
    }

    /// <summary>One scenario for each number of some lists, as settings of a report have them.</summary>
    /// <param name="units">Units of radii and winds.</param>
    /// <param name="targetRadii">Target radii parted by commas; <c>none</c> or nothing for none, here and below.</param>
    /// <param name="windLimits">Drift winds above which no pass is flown.</param>
    /// <param name="streamerMinutes">Ages of streamers, each asked twice: older passes not flown, and new streamers thrown.</param>
    /// <param name="largestSticks">Jumpers of a pass at the most.</param>
    /// <exception cref="ArgumentException">A part is not a number above zero, or a stick is no whole number.</exception>
    public static IReadOnlyList<Scenario> List(ReportUnits units, string targetRadii, string windLimits,
        string streamerMinutes, string largestSticks) =>
    [
        .. Numbers(targetRadii, "target radii").Select(r => new Scenario { TargetRadius = units.Distance.ToSi(r) }),
        .. Numbers(windLimits, "wind limits").Select(w => new Scenario { WindLimit = units.Speed.ToSi(w) }),
        .. Numbers(streamerMinutes, "minutes of streamers")
            .SelectMany(m => new[] { new Scenario { StreamerLimit = 60 * m }, new Scenario { FreshStreamers = 60 * m } }),
        .. Numbers(largestSticks, "stick sizes").Select(s => new Scenario { LargestStick = s == Math.Floor(s) ? (int)s
            : throw new ArgumentException($"'{Rounding.Short(s)}' in the stick sizes '{largestSticks}' is no whole number; try 1,2.") }),
    ];

    private static IEnumerable<double> Numbers(string list, string what) =>
        list.Trim() is "none" or "" ? [] : [.. list.Split(',', StringSplitOptions.TrimEntries).Select(part =>
            double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number > 0 && double.IsFinite(number)
                ? number
                : throw new ArgumentException($"'{part}' in the {what} '{list}' is not a number above zero; try 8,10, or none."))];

    private static double? Positive(double? value, string name, string unit) =>
        value is { } number ? Guard.Positive(number, name, $"{unit}, or null") : null;
}
